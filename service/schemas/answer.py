"""The three answers to a brief: a plan, a conflict, or undecided. Numbers carry up to six decimals."""

from typing import Annotated, Literal, TypeAlias

from pydantic import Field

from service.schemas.allergens import AllergenAnswer
from service.schemas.alternatives import AlternativesAnswer
from service.schemas.base import Outgoing
from service.schemas.brings import BringsAnswer
from service.schemas.cautions import CautionAnswer
from service.schemas.declared import NutritionLineAnswer
from service.schemas.dish import DishAnswer
from service.schemas.holds_carried import CarriedAnswer
from service.schemas.in_the_way import InTheWayAnswer
from service.schemas.members import MemberAnswer
from service.schemas.method_steps import MethodStepAnswer
from service.schemas.plate_off import PlateOffAnswer
from service.schemas.ways_out import WaysOutAnswer
from service.schemas.worth import WorthAnswer


class LevelAnswer(Outgoing):
    """How far the solver got at one level of the brief: it proves `bound`, and the printed plan gives `value`."""

    level: Annotated[str, Field(examples=["balanced"])]
    """What was sought at this level."""
    status: Annotated[Literal["optimal", "within_gap", "best_found"], Field(examples=["optimal"])]
    """`optimal`: proven. `within_gap`: proven to within `gap`. `best_found`: the clock ended the search."""
    checked: Annotated[Literal["certificate checked", "solver's claim"], Field(examples=["certificate checked"])]
    """Who vouches for `bound`: our own check of a certificate, or only the solver."""
    value: Annotated[float, Field(examples=[0.012])]
    """What the printed amounts reach, in the level's own measure; less is better."""
    bound: Annotated[float | None, Field(examples=[0.011])]
    """Nothing on the best of the levels before it is below this, in the same measure; null when the clock ended the
    level first."""
    gap: Annotated[float | None, Field(examples=[0.001])]
    """`value` less `bound`, in the same measure: what printing to 0.1 g, stopping early and, within the level's own
    gap, the level after it cost together. Below 0 where printing gave up a little of an earlier level for it."""
    seconds: Annotated[float, Field(examples=[0.02])]
    """Time spent on the level, s."""


class ProofAnswer(Outgoing):
    """The levels in order, and who solved them."""

    levels: list[LevelAnswer]
    """One entry a level, in the order solved."""
    solver: Annotated[str, Field(examples=["highs"])]
    """Name of the solver."""
    solver_version: Annotated[str, Field(examples=["1.16.0"])]
    """Its version. The same plan is promised for the same brief with the same version."""
    seconds: Annotated[float, Field(examples=[0.05])]
    """Time spent on all levels, s."""


class LeftOutAnswer(Outgoing):
    """An item that no plan may use, because a value that a target needs is missing."""

    name: Annotated[str, Field(examples=["farm cheese"])]
    """The item."""
    lacks: Annotated[list[str], Field(examples=[["available_carbohydrate_g"]])]
    """The nutrients without a value. `count_missing_as` says how to count them."""


class ExcludedAnswer(Outgoing):
    """An item that `exclude` leaves out."""

    name: Annotated[str, Field(examples=["farm cheese"])]
    """The item."""
    why: Annotated[str, Field(examples=["nobody has said whether it contains milk"])]
    """Why it is left out."""


class _Head(Outgoing):
    """What every answer begins with."""

    outcome: str
    """Tells the three answers apart."""
    title: Annotated[str, Field(examples=["Patties for four"])]
    """As the brief gave it."""
    portions: Annotated[int, Field(examples=[4])]
    """As the brief gave it."""
    energy_basis: Annotated[Literal["general", "regulation", "specific", "declared"], Field(examples=["general"])]
    """The energy factors that all energies here are counted with."""


class _Tail(Outgoing):
    """What every answer ends with."""

    proof: ProofAnswer
    """How the answer was reached."""
    left_out: list[LeftOutAnswer]
    """Items that were not considered, because a value is missing."""
    excluded: list[ExcludedAnswer]
    """Items that were not considered, because `exclude` leaves them out."""
    cautions: list[CautionAnswer]
    """What may hurt somebody, each with its trigger and its source; never complete."""
    warnings: Annotated[
        list[str], Field(examples=[["Fibre is unknown, so all carbohydrate counts as available: kale."]])
    ]
    """What to mind before cooking."""
    reminder: Annotated[str, Field(examples=["Medical diets need professional oversight."])]
    """Who should not follow a plan without a professional."""


class PlanAnswer(_Tail, DishAnswer, _Head):
    """A verified plan: the printed amounts meet every must."""

    outcome: Literal["plan"]
    """Always `plan`."""
    brings: list[BringsAnswer]
    """Who brings what."""
    nutrition: list[NutritionLineAnswer]
    """Nutrition numbers, rounded as `nutrition_as` asks: US of a portion, EU of 100 g; empty when it does not."""
    method_steps: list[MethodStepAnswer]
    """The steps of the method as the brief gave them, after those of the dishes that are used."""
    exactness: Annotated[str, Field(examples=["Exact for these inputs."])]
    """What the numbers are exact for, and why the plate may still differ."""
    in_the_way: list[InTheWayAnswer]
    """What stands in the way of each wish that is missed, in the order in which they are served."""
    worth: list[WorthAnswer] | None
    """What one unit more and one unit less of each limit would do to each preference; null unless `say_worth` asks."""
    alternatives: AlternativesAnswer | None
    """Other good plans; null unless `alternatives` asked for them."""
    allergens: list[AllergenAnswer]
    """What is known of the allergens of both lists: contained, or unknown."""
    plate_may_be_off: PlateOffAnswer
    """How far the plate may be off, and why."""


class ConflictAnswer(_Tail, _Head):
    """A proof that no plan exists, with the reason."""

    outcome: Literal["conflict"]
    """Always `conflict`."""
    members: list[MemberAnswer]
    """What cannot be had together."""
    irreducible: Annotated[bool, Field(examples=[True])]
    """True: drop any one member and the others can be met. False: that is not proven; one may be superfluous."""
    other_conflicts: list[list[MemberAnswer]]
    """Further conflicts, at most three, that stay when one member of `members` is given up; none shares a member with
    another. They are the solver's claim."""
    checked: Annotated[Literal["certificate checked", "solver's claim"], Field(examples=["certificate checked"])]
    """Who vouches that no plan exists."""
    nearest: DishAnswer | None
    """The dish that misses the musts least; null when the clock ended first."""
    ways_out: WaysOutAnswer | None
    """What would make a plan possible; null when nobody looked for it."""
    tolerance_carried: CarriedAnswer | None
    """How much of `holds_within` the pantry can carry; null where nothing was asked, or nothing is known."""


class UndecidedAnswer(_Tail, _Head):
    """Neither a plan nor a proof that none exists, within the time limit."""

    outcome: Literal["undecided"]
    """Always `undecided`."""
    reason: Annotated[str, Field(examples=["Neither a plan nor a proof that none exists was found in time."])]
    """What ended the search."""
    advice: Annotated[str, Field(examples=["Allow more time, larger steps, or fewer items with steps."])]
    """What would help."""


Answer: TypeAlias = Annotated[PlanAnswer | ConflictAnswer | UndecidedAnswer, Field(discriminator="outcome")]
