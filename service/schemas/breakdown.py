"""The numbers of a dish as it is, as they go out."""

from typing import Annotated, Literal

from pydantic import Field

from service.schemas.allergens import AllergenAnswer
from service.schemas.base import Outgoing
from service.schemas.brings import BringsAnswer
from service.schemas.cautions import CautionAnswer
from service.schemas.cooked import CookedAnswer
from service.schemas.declared import FindingAnswer, NutritionLineAnswer
from service.schemas.dish import DistributionAnswer, QuantityAnswer, TotalsAnswer
from service.schemas.method_steps import MethodStepAnswer
from service.schemas.plate_off import PlateOffAnswer
from service.schemas.portions import PortionAnswer


class OnBasisAnswer(Outgoing):
    """The energy of the batch as eaten on one basis."""

    basis: Annotated[Literal["general", "regulation", "specific", "declared"], Field(examples=["general"])]
    """The energy factors."""
    energy_kcal: Annotated[float, Field(examples=[2065.1])]
    """Energy of the batch, kcal."""
    energy_kj: Annotated[float, Field(examples=[8559.2])]
    """The same in kJ, from factors of its own where the basis has them; otherwise 4.184 to the kcal."""
    fat_share_percent: Annotated[float | None, Field(examples=[74.98])]
    """Percent of macro energy that comes from fat; null when a macronutrient is missing, or there is no energy."""
    energy_distribution_percent: DistributionAnswer | None
    """Whole percent that sum to 100; null likewise."""


class BreakdownAnswer(Outgoing):
    """The numbers of a dish as it is: nothing is chosen here."""

    title: Annotated[str, Field(examples=["Broiled patties"])]
    """As the request gave it."""
    portions: Annotated[int, Field(examples=[4])]
    """As the request gave it."""
    energy_basis: Annotated[Literal["general", "regulation", "specific", "declared"], Field(examples=["general"])]
    """The energy factors of the totals; `bases` has all of them."""
    quantities: list[QuantityAnswer]
    """What goes in, for the whole batch."""
    components: list[CookedAnswer]
    """What becomes of each component in cooking."""
    raw: TotalsAnswer
    """The whole batch as weighed out, before cooking."""
    batch: TotalsAnswer
    """The whole batch as eaten."""
    portion: TotalsAnswer
    """One equal portion as eaten."""
    per_100g: TotalsAnswer
    """100 g as eaten."""
    energy_distribution_percent: DistributionAnswer | None
    """On the energy basis of the request; null when there is no energy from macronutrients, or one is missing."""
    fat_share_percent: Annotated[float | None, Field(examples=[74.98])]
    """Percent of macro energy that comes from fat, on that basis; null likewise."""
    ketogenic_ratio: Annotated[float | None, Field(examples=[1.33])]
    """Grams of fat to one gram of protein and available carbohydrate together; null when undefined."""
    fatty_acid_to_glucose: Annotated[float | None, Field(examples=[1.84])]
    """Woodyatt's ratio (0.9 F + 0.46 P) : (C + 0.58 P + 0.1 F), of 1921; null when undefined."""
    bases: list[OnBasisAnswer]
    """Energy of the batch on every basis."""
    brings: list[BringsAnswer]
    """Who brings what."""
    seasoning_carbohydrate_g: Annotated[float, Field(examples=[8.8])]
    """Available carbohydrate of the batch that comes from spices and herbs."""
    method_steps: list[MethodStepAnswer]
    """The steps of the method as the request gave them, after those of the dishes that it is made of."""
    plate_may_be_off: PlateOffAnswer
    """How far the plate may be off, and why."""
    divided: list[PortionAnswer]
    """The portions, as `division` asks for them; empty when it does not."""
    findings: list[FindingAnswer]
    """What does not fit among the numbers that were declared; empty when all fit, or none were."""
    nutrition: list[NutritionLineAnswer]
    """Nutrition numbers, rounded as `nutrition_as` asks: US of a portion, EU of 100 g; empty when it does not."""
    allergens: list[AllergenAnswer]
    """What is known of the allergens of both lists: contained, or unknown."""
    cautions: list[CautionAnswer]
    """What may hurt somebody, with its source."""
    warnings: Annotated[list[str], Field(examples=[["Fibre is unknown, so all carbohydrate counts: kale."]])]
    """What was assumed in counting."""
    exactness: Annotated[str, Field(examples=["Exact for these inputs."])]
    """What the numbers are exact for."""
    reminder: Annotated[str, Field(examples=["Medical diets need professional oversight."])]
    """Who should not follow a dish without a professional."""
