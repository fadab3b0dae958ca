"""The three outcomes of a brief: a verified plan, a conflict, or undecided. All are answers, none an error."""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import Enum
from typing import TypeAlias

from solver.brief import Brief
from solver.choices import Choice
from solver.components import UNCOOKED, Placed
from solver.cooked import CookedComponent
from solver.holds import WorstCase
from solver.pantry import PantryItem
from solver.rules import Rule
from solver.targets import Target


@dataclass(frozen=True, slots=True)
class Quantity:
    """How much of one item goes into one component of the batch: the printed grams, raw, that meet the targets.

    steps: how many of the item's step, None when it has none. placed: the component, and what cooking does to it there.
    """

    item: PantryItem
    grams: float
    steps: int | None
    placed: Placed = UNCOOKED


@dataclass(frozen=True, slots=True)
class Totals:
    """Sums over the used items, as eaten or raw. values: by nutrient name, None when no used item has a value.

    grams: on the plates, or as weighed out.
    energy_kcal, energy_kj: on the brief's basis, each from its own factors where the basis has both (see `energy`).
    lacking: nutrient name to the names of used items without a value, so that the sum is a lower bound.
    """

    grams: float
    energy_kcal: float
    energy_kj: float
    values: Mapping[str, float | None]
    lacking: Mapping[str, tuple[str, ...]]


@dataclass(frozen=True, slots=True)
class Distribution:
    """Whole percent of macro energy; sums to 100 (largest remainder)."""

    fat: int
    protein: int
    carbohydrate: int
    alcohol: int


@dataclass(frozen=True, slots=True)
class TargetResult:
    """One target, recomputed from the printed amounts.

    value: in the target's unit, per portion or batch as asked; None when undefined, then `reason` says why.
    met: inside the band, to the verification tolerance. binding: met, and at an end of the band.
    miss: how far outside, in the target's unit; 0 when met, None when value is None.
    worst: of a brief that has to hold within a tolerance, and then a must is met only if it is at its worst; else None.
    """

    target: Target
    value: float | None
    reason: str | None
    met: bool
    binding: bool
    miss: float | None
    worst: WorstCase | None = None


@dataclass(frozen=True, slots=True)
class RuleResult:
    """One rule, recomputed from the printed amounts; fields as of TargetResult, value in the rule's unit."""

    rule: Rule
    value: float | None
    reason: str | None
    met: bool
    binding: bool
    miss: float | None


@dataclass(frozen=True, slots=True)
class ChoiceResult:
    """One choice. used: which of its items the dish uses, sorted."""

    choice: Choice
    used: tuple[str, ...]
    met: bool


class ProofStatus(Enum):
    """How far the solver got at one level."""

    OPTIMAL = "optimal"
    WITHIN_GAP = "within_gap"
    BEST_FOUND = "best_found"


class Checked(Enum):
    """Who vouches for a bound: our own certificate check (LP), or only the solver (integer programmes)."""

    CERTIFICATE = "certificate checked"
    CLAIM = "solver's claim"


@dataclass(frozen=True, slots=True)
class LevelProof:
    """One level: on the best of the levels before it, no amounts of any fineness give less than `bound`.

    value: what the printed plan gives. gap = value - bound: what printing to 0.1 g and stopping early cost together; it
    is below zero only where printing gave up a little of an earlier level. bound (and gap) are None when the clock
    ended the level before the solver had one.
    """

    level: str
    status: ProofStatus
    checked: Checked
    value: float
    bound: float | None
    gap: float | None
    seconds: float


@dataclass(frozen=True, slots=True)
class Proof:
    """The levels in order, and who solved them."""

    levels: tuple[LevelProof, ...]
    solver: str
    solver_version: str
    seconds: float


@dataclass(frozen=True, slots=True)
class LeftOut:
    """An item that no plan may use because these nutrients, which targets need, are missing."""

    item: str
    lacks: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Dish:
    """Printed quantities and what they come to, recomputed from the raw composition rows.

    batch, portion: as eaten. raw: the batch as weighed out, before any cooking.
    cooked: every component that something goes into, in the brief's order.
    distribution, ketogenic_ratio: None when undefined (no macro energy; no protein or carbohydrate), and when a used
    item lacks one of the macronutrients.
    cost: None when a used item has no price.
    """

    quantities: tuple[Quantity, ...]
    batch: Totals
    portion: Totals
    raw: Totals
    cooked: tuple[CookedComponent, ...]
    distribution: Distribution | None
    ketogenic_ratio: float | None
    targets: tuple[TargetResult, ...]
    cost: float | None
    rules: tuple[RuleResult, ...] = ()
    choices: tuple[ChoiceResult, ...] = ()

    @property
    def missed(self) -> tuple[str, ...]:
        """Ids of the musts that it does not meet."""
        targets = tuple(each.target.id for each in self.targets if each.target.priority is None and not each.met)
        rules = tuple(each.rule.id for each in self.rules if each.rule.priority is None and not each.met)
        return targets + rules + tuple(each.choice.id for each in self.choices if not each.met)


@dataclass(frozen=True, slots=True)
class Plan:
    """A verified plan: every must is met by the printed amounts."""

    brief: Brief
    dish: Dish
    proof: Proof
    left_out: tuple[LeftOut, ...]
    warnings: tuple[str, ...]


class MemberKind(Enum):
    """What kind of thing takes part in a conflict."""

    TARGET = "target"
    RULE = "rule"
    ON_HAND = "on hand"
    MOST_AMOUNT = "most amount"
    LEAST_AMOUNT = "least amount"
    STEPS = "steps"
    PRINTING = "printing"
    TOLERANCE = "tolerance"


@dataclass(frozen=True, slots=True)
class Member:
    """One member, in the brief's own names: a target's id or an item's name; None for a rule on all items."""

    kind: MemberKind
    name: str | None


@dataclass(frozen=True, slots=True)
class Conflict:
    """A proof that no plan exists. Drop any one member and the rest can be met, when `irreducible` is True.

    irreducible: False when the clock ended a test, or where only the amounts decide whose fat is in the drippings; a
    member may be superfluous then.
    nearest: the plan that misses the musts least, each by what its `targets` say; None when the clock ended first.
    others: further conflicts, which share no member with any before them.
    """

    brief: Brief
    members: tuple[Member, ...]
    irreducible: bool
    checked: Checked
    nearest: Dish | None
    proof: Proof
    left_out: tuple[LeftOut, ...]
    warnings: tuple[str, ...]
    others: tuple[tuple[Member, ...], ...] = ()


@dataclass(frozen=True, slots=True)
class Undecided:
    """Neither a plan nor a proof within the time limit. advice: what would help, in one sentence."""

    brief: Brief
    reason: str
    advice: str
    proof: Proof
    left_out: tuple[LeftOut, ...]
    warnings: tuple[str, ...]


Outcome: TypeAlias = Plan | Conflict | Undecided
