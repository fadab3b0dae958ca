"""The brief as it comes in: the pantry, the targets and how to choose."""

from typing import Annotated, Literal, TypeAlias

from pydantic import Field

from service.schemas.amounts import Amount, NutrientAmount
from service.schemas.base import Incoming
from service.schemas.choices import ChoiceBody
from service.schemas.components import ComponentBody
from service.schemas.dish_source import DishBody, DishSource
from service.schemas.eater import EaterBody
from service.schemas.exclude import ExclusionBody
from service.schemas.food_source import FoodSource
from service.schemas.holds import HoldsBody
from service.schemas.labels import LabelSource
from service.schemas.method_steps import MethodStepBody
from service.schemas.rework_base import BaseAmountBody
from service.schemas.rules import RuleBody

Bound: TypeAlias = Annotated[float, Field(ge=0, le=10_000_000)]


class PriceBody(Incoming):
    """What an item costs, in the one currency of the brief."""

    amount: Annotated[float, Field(ge=0, le=1_000_000, examples=[3.2])]
    """Money, in whatever currency the brief uses throughout."""
    per: Annotated[Amount, Field(examples=["200 g"])]
    """How much of the item that buys, edible portion."""


class PantryItemBody(Incoming):
    """One thing that may go into the dish. All amounts are raw edible portion, for the whole batch."""

    name: Annotated[str, Field(min_length=1, max_length=200, examples=["ground beef"])]
    """What the item is called in the answer; unique in the brief, upper and lower case alike."""
    source: Annotated[FoodSource | LabelSource | DishSource, Field(discriminator="kind")]
    """Where its composition comes from: a reference food, a label, or a dish of `dishes`."""
    goes_in: Annotated[list[str] | None, Field(min_length=1, max_length=50, examples=[["patties", "at the table"]])] = (
        None
    )
    """The components that it may go into; where there are several, the plan decides how much goes where. Needed when
    the brief has more than one component."""
    weighed: Annotated[Literal["edible portion", "as purchased"], Field(examples=["as purchased"])] = "edible portion"
    """What the weights below are of: the edible portion, or the food as it is bought, with bones, shells or peel. As
    purchased is for weights of a food whose refuse is known; household measures are of the edible portion."""
    already_in: Annotated[Amount | None, Field(examples=["450 g"])] = None
    """So much of it is in already and stays as it is. Not together with any of the limits below."""
    on_hand: Annotated[Amount | None, Field(examples=["2 lb"])] = None
    """How much there is; left out when there is as much as one likes."""
    at_least: Annotated[Amount | None, Field(examples=["1 lb"])] = None
    """Use no less than this."""
    at_most: Annotated[Amount | None, Field(examples=["900 g"])] = None
    """Use no more than this, however much is on hand."""
    step: Annotated[Amount | None, Field(examples=["1 large", "1/4 tsp", "5 g"])] = None
    """The smallest amount the kitchen measures of it; whole multiples are used. Left out: weighed to 0.1 g."""
    least_when_used: Annotated[Amount | None, Field(examples=["20 g"])] = None
    """Use none of it, or at least this."""
    use_by: Annotated[str | None, Field(min_length=10, max_length=10, examples=["2026-11-28"])] = None
    """The day by which it has to be used, as ISO 8601 writes it, for `use up first`; left out for what keeps."""
    use_up_order: Annotated[int | None, Field(ge=1, le=1000, examples=[1])] = None
    """Its priority for `use up first`: 1 is used up before 2, and equals together. Days and an order are not mixed,
    since neither comes before the other."""
    to_buy: Annotated[bool, Field(examples=[True])] = False
    """It is not at home: if any of it is used, it is a new purchase, whatever the amount, for `fewest new purchases`.
    Not together with `on_hand`, `already_in` or `only_if_needed`; `at_most` limits how much is bought."""
    only_if_needed: Annotated[bool, Field(examples=[True])] = False
    """It is at home, but not meant for this dish: it takes no part in plans. Where there is no plan without, the ways
    out look at it before foods that are not at home. Not together with `at_least` or `already_in`."""
    price: PriceBody | None = None
    """What it costs; needed for every item when `prefer` names `cheapest`."""


class TargetBody(Incoming):
    """A band on an amount, a share or a ratio: `aim` with `within`, or `at_least` and `at_most`, never both kinds."""

    id: Annotated[str | None, Field(min_length=1, max_length=100, examples=["protein"])] = None
    """Name of the target in the answer, unique in the brief; the quantity it is `of` when left out."""
    of: Annotated[str, Field(min_length=1, max_length=60, examples=["fat_share_percent"])]
    """The quantity, with its unit in the name; the API's description lists them all."""
    per: Annotated[Literal["portion", "batch"], Field(examples=["portion"])] = "portion"
    """What an amount is counted for. A share or a ratio is the same for both."""
    basis: Annotated[Literal["as_eaten", "raw"], Field(examples=["as_eaten"])] = "as_eaten"
    """Counted after cooking, or before it."""
    aim: Annotated[float | None, Field(gt=0, le=10_000_000, examples=[75])] = None
    """The middle of the band, in the quantity's unit."""
    within: Annotated[Bound | None, Field(examples=[1])] = None
    """How far from `aim` on either side, in the quantity's unit; a documented default when left out."""
    at_least: Annotated[Bound | None, Field(examples=[35])] = None
    """Lower end of the band, in the quantity's unit."""
    at_most: Annotated[Bound | None, Field(examples=[5])] = None
    """Upper end of the band, in the quantity's unit."""
    priority: Annotated[int | None, Field(ge=1, le=1000, examples=[1])] = None
    """Left out for a must; otherwise a wish, 1 is served before 2."""


class BriefBody(Incoming):
    """Everything that one plan is asked for."""

    title: Annotated[str, Field(min_length=1, max_length=200, examples=["Patties for four"])]
    """What the dish is called."""
    portions: Annotated[int, Field(ge=1, le=500, examples=[4])] = 1
    """How many equal portions the batch makes."""
    components: Annotated[list[ComponentBody] | None, Field(min_length=1, max_length=50)] = None
    """What is cooked together; left out, everything goes into one dish that is eaten as it is."""
    dishes: Annotated[list[DishBody] | None, Field(min_length=1, max_length=200)] = None
    """Dishes that pantry items and other dishes are made of: a spice mix, an emulsion, a reduced stock."""
    pantry: Annotated[list[PantryItemBody], Field(min_length=1)]
    """What may go into the dish."""
    targets: Annotated[list[TargetBody], Field(min_length=1)]
    """What the dish must meet, and what it should."""
    rules: list[RuleBody] = Field([], max_length=200)
    """Rules of the dish: how much of some items, or how much of some to others, raw."""
    choices: list[ChoiceBody] = Field([], max_length=200)
    """Choices among items: at most so many of these, this only with that, never both."""
    exclude: list[ExclusionBody] = Field([], max_length=100)
    """Allergens, food groups or foods to leave out, wherever they stand, in dishes as well. What nobody has said
    anything about is left out with an allergen: unknown is never "free from"."""
    nutrition_as: Annotated[Literal["US", "EU"] | None, Field(examples=["EU"])] = None
    """Adds nutrition numbers, rounded as a US label prints them for a portion, or an EU label for 100 g, whose energy
    is on the basis `regulation`."""
    method_steps: list[MethodStepBody] = Field([], max_length=100)
    """The steps of the method, in order; they go into the answer as they are."""
    holds_within: HoldsBody | None = None
    """How far the composition of the items may be off while every must still holds; left out, they hold as stated."""
    eater: EaterBody | None = None
    """Who eats it, as far as it matters for cautions."""
    safe_temperatures: Annotated[Literal["us consumer", "us retail", "uk"], Field(examples=["us consumer"])] = (
        "us consumer"
    )
    """Whose chart the cautions state temperatures from."""
    base: list[BaseAmountBody] = Field([], max_length=1000)
    """A dish that is there already, amount by amount, for `closest to`. What it does not name was not in it."""
    prefer: list[
        Literal["balanced", "cheapest", "use up first", "fewest ingredients", "fewest new purchases", "closest to"]
    ] = Field(["balanced"], min_length=1, examples=[["balanced"]])
    """What to seek among the plans that meet every target, in this order, each once. `balanced`: keep near the
    middle of every two-sided band. `cheapest`: least cost. `use up first`: the most of what spoils first, day by day,
    or in the order given. `fewest ingredients`: as few items as can be. `fewest new purchases`: as few items with
    `to_buy` as can be. `closest to`: as few and as small changes of `base` as can be, each
    change counted 1 and, on top, as a part of the amount before."""
    energy_basis: Annotated[
        Literal["general", "regulation", "specific", "declared"],
        Field(examples=["general"]),
    ] = "general"
    """Energy factors. `general`: 4-9-4 kcal per g of protein, fat and carbohydrate with its fibre, 7 for alcohol.
    `regulation`: Annex XIV of Regulation (EU) No 1169/2011, fibre 2. `specific`: the food's own factors.
    `declared`: as the table or label states it."""
    count_missing_as: dict[str, NutrientAmount] = Field({}, examples=[{"fibre_g": 0}])
    """Nutrient name to the amount per 100 g that an item without a value is counted with. An item that lacks a
    nutrient which a target needs, and is not named here, is left out and reported."""
    collagen_at_most_percent: Annotated[float, Field(ge=0, le=100, examples=[20])] = 20.0
    """For a least amount of protein, gelatine, collagen and pork rind count for at most this percent of the protein
    that counts; 100 counts all of it."""
    say_worth: Annotated[bool, Field(examples=[True])] = False
    """Say what one unit more and one unit less of each limit would do to each preference; takes solves of its own."""
    alternatives: Annotated[int, Field(ge=0, le=5, examples=[2])] = 0
    """How many other good plans to look for, made of really different items."""
    time_limit_s: Annotated[float, Field(gt=0, le=86_400, examples=[2])] = 2.0
    """Seconds for the whole answer, waiting included; the service has a ceiling (30 unless it is set otherwise)."""
