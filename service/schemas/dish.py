"""A dish as it goes out: quantities, and what they come to."""

from typing import Annotated, Literal

from pydantic import Field

from service.schemas.base import Outgoing
from service.schemas.choices import ChoiceAnswer
from service.schemas.cooked import CookedAnswer
from service.schemas.holds import WorstCaseAnswer
from service.schemas.rules import RuleAnswer


class QuantityAnswer(Outgoing):
    """How much of one item goes into the batch."""

    name: Annotated[str, Field(examples=["egg"])]
    """The item, as the brief names it."""
    food_id: Annotated[str, Field(examples=["sr28:01123"])]
    """The reference food; for a label, an id made from its values."""
    component: Annotated[str, Field(examples=["patties"])]
    """The component that it goes into; `the dish` where the brief names none."""
    grams: Annotated[float, Field(examples=[150.0])]
    """Grams of raw edible portion: exactly what every total below is counted from."""
    as_purchased_grams: Annotated[float | None, Field(examples=[186.0])]
    """The same as it is bought, with bones, shells or peel, g; null where the edible portion is weighed."""
    text: Annotated[str, Field(examples=["3 large"])]
    """The same amount as the kitchen measures it: whole steps, or grams to 0.1."""
    steps: Annotated[int | None, Field(examples=[3])]
    """How many of the item's step; null when it has none."""
    about: Annotated[str | None, Field(examples=["about 1 1/2 tbsp"])]
    """The nearest kitchen measure, for orientation only; null when `text` says it or none fits."""


class TotalsAnswer(Outgoing):
    """Sums over the used items."""

    grams: Annotated[float, Field(examples=[853.2])]
    """Weight, g: on the plates, or as weighed out."""
    energy_kcal: Annotated[float, Field(examples=[2600.4])]
    """Energy on the brief's basis, kcal."""
    energy_kj: Annotated[float, Field(examples=[10756.1])]
    """The same in kJ, by the basis's own kJ factors; on the specific and declared bases 4.184 kJ to the kcal."""
    nutrients: Annotated[dict[str, float | None], Field(examples=[{"protein_g": 140.2}])]
    """Nutrient name, which ends in its unit, to amount; null when no used item has a value."""
    lacking: Annotated[dict[str, list[str]], Field(examples=[{"vitamin_d_ug": ["ground beef"]}])]
    """Nutrient name to the used items without a value: the sum is then a lower bound."""


class DistributionAnswer(Outgoing):
    """Whole percent of macro energy; sums to 100."""

    fat: Annotated[int, Field(examples=[75])]
    """From fat, %."""
    protein: Annotated[int, Field(examples=[22])]
    """From protein, %."""
    carbohydrate: Annotated[int, Field(examples=[3])]
    """From carbohydrate, fibre included, %."""
    alcohol: Annotated[int, Field(examples=[0])]
    """From alcohol, %."""


class TargetAnswer(Outgoing):
    """One target, recomputed from the printed amounts."""

    id: Annotated[str, Field(examples=["fat_share_percent"])]
    """The target's id."""
    of: Annotated[str, Field(examples=["fat_share_percent"])]
    """The quantity."""
    per: Annotated[Literal["portion", "batch"], Field(examples=["portion"])]
    """What it is counted for."""
    unit: Annotated[str, Field(examples=["%"])]
    """UCUM unit of the numbers here; `1` for a ratio."""
    at_least: Annotated[float | None, Field(examples=[74])]
    """Lower end of the band, in `unit`; null when open."""
    at_most: Annotated[float | None, Field(examples=[76])]
    """Upper end of the band, in `unit`; null when open."""
    aim: Annotated[float | None, Field(examples=[75])]
    """As the brief gave it, in `unit`; null when the band was given by its ends."""
    within: Annotated[float | None, Field(examples=[1])]
    """As the brief gave it, or the default, in `unit`; null when the band was given by its ends."""
    priority: Annotated[int | None, Field(examples=[1])]
    """Null for a must; otherwise the priority of the wish."""
    basis: Annotated[Literal["as_eaten", "raw"], Field(examples=["as_eaten"])]
    """Counted after cooking, or before it."""
    value: Annotated[float | None, Field(examples=[75.3])]
    """What the dish has, in `unit`; null when undefined."""
    reason: Annotated[str | None, Field(examples=["there is no macro energy to share"])]
    """Why `value` is undefined; null when it is not."""
    met: Annotated[bool, Field(examples=[True])]
    """Inside the band."""
    binding: Annotated[bool, Field(examples=[False])]
    """Met, and at an end of the band."""
    miss: Annotated[float | None, Field(examples=[0])]
    """How far outside the band, in `unit`; 0 when met, null when undefined. With `holds_within`, of a must at its
    worst."""
    worst_case: WorstCaseAnswer | None
    """What it comes to within what the brief has to hold within; null where it has to hold as stated."""


class DishAnswer(Outgoing):
    """Quantities in the order of the pantry, used items only, and what they come to."""

    quantities: list[QuantityAnswer]
    """What to weigh out, for the whole batch."""
    batch: TotalsAnswer
    """The whole batch as eaten: after cooking, without drippings that nobody eats."""
    portion: TotalsAnswer
    """One portion as eaten."""
    raw: TotalsAnswer
    """The whole batch as weighed out, before cooking."""
    components: list[CookedAnswer]
    """What becomes of each component in cooking."""
    energy_distribution_percent: DistributionAnswer | None
    """Null when there is no energy from macronutrients."""
    ketogenic_ratio: Annotated[float | None, Field(examples=[1.51])]
    """Grams of fat to one gram of protein and available carbohydrate together; null when undefined."""
    ketogenic_ratio_reason: Annotated[
        str | None, Field(examples=["A used item has no value for protein, fat or available carbohydrate."])
    ]
    """Why the ratio is null; null when it is not."""
    targets: list[TargetAnswer]
    """Every target, in the brief's order."""
    rules: list[RuleAnswer]
    """Every rule, in the brief's order."""
    choices: list[ChoiceAnswer]
    """Every choice, in the brief's order."""
    cost: Annotated[float | None, Field(examples=[7.84])]
    """Of the batch, in the brief's currency; null when a used item has no price."""
