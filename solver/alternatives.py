"""Other good plans: made of really different items, each within a stated loss of the first preference.

The items most different from those of the plans at hand are sought first, among plans that are nearly as good; then
the brief is solved like any other with just these items. So an alternative is the best plan of its items, and
leaves by the same door as every plan.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum

from solver.alternative_briefs import as_asked, nothing_to_use_up, only, sought
from solver.alternative_pools import Pools, differs_by, grams_of, mass_share, pools_of
from solver.alternative_posed import Posed, posed, seeking
from solver.backends.base import Backend, Status
from solver.brief import Preference
from solver.by_mixture import is_careful
from solver.chain import Chain
from solver.conflict import NO_PLAN
from solver.deadline import Deadline
from solver.errors import BackendError, UnusableBrief, VerificationError
from solver.exactness import overstated
from solver.levels import levels
from solver.numerics import VERIFICATION
from solver.outcome import Checked, Conflict, Dish, Outcome, Plan, ProofStatus
from solver.solve import solve
from solver.solved import ChainEnd, Solved
from solver.verify import verified

#: By how much the first preference may be worse: half-bands of `balanced`, an ingredient of `fewest ingredients`,
#: one of `fewest new purchases`, one change of `closest to`.
MOST_LOSS = {
    Preference.BALANCED: 0.25,
    Preference.FEWEST_INGREDIENTS: 1.0,
    Preference.FEWEST_PURCHASES: 1.0,
    Preference.CLOSEST: 1.0,
}

#: The same of every other preference, as a part of its value: of the cost, of what is used up.
MOST_LOSS_PART = 0.05

#: What a wish's miss may be worse by, as a part of its target: what printing does, no more.
WISH_LOSS = 0.001

#: Part of the time left that one solve may take.
SHARE_OF_TIME = 0.4

#: Sets of items that lead to no plan after all, before the search is given up.
TRIES = 20


class Ended(Enum):
    """Why there are no more alternatives."""

    ENOUGH = "as many as asked"
    NO_MORE = "no others within the loss"
    LATE = "not decided in time"
    UNPROVEN = "no others found, and not proven that there are none"


@dataclass(frozen=True, slots=True)
class Alternative:
    """Another good plan; verified.

    differs_by: names of the items that it uses and the plan does not, or the other way round; identical items count as
    one. mass_share: 0 to 1, the differences of raw grams over the sum of both masses. loss: by how much the first
    preference is worse than the plan's own value, in the measure of its level; below 0 where printing made it better.
    """

    dish: Dish
    differs_by: tuple[str, ...]
    mass_share: float
    loss: float


@dataclass(frozen=True, slots=True)
class Alternatives:
    """found: the most different from the plan first. level: the preference; "" where the plan has proven none.

    most_loss: what each may lose of it. ended: why there are no more.
    """

    found: tuple[Alternative, ...]
    ended: Ended
    level: str = ""
    most_loss: float = 0.0


def alternatives(plan: Plan, n: int, backend: Backend, deadline: Deadline) -> Alternatives:
    """Up to n other good plans of the brief of a plan.

    deadline: for all of them; those found by then are the answer.
    """
    pools = pools_of(plan.brief)
    allowed = _allowed(plan, pools)
    if allowed is None:
        return Alternatives((), Ended.UNPROVEN)
    search = _Search(plan, pools, allowed, backend, deadline)
    found, ended = search.run(n)
    ordered = sorted(found, key=lambda one: (-_distance(pools, plan, one), -one.mass_share))
    return Alternatives(tuple(ordered), ended, allowed.level, allowed.most_loss)


@dataclass(frozen=True, slots=True)
class _Allowed:
    """most: name of each level that is held to the most that it may come to; the last is the first preference."""

    most: dict[str, float]
    level: str
    value: float
    most_loss: float

    def loss(self, plan: Plan) -> float | None:
        """What a plan loses; None where it is too much."""
        # A day by which nothing of the plan has to be used has no level: nothing of it is used up.
        values = dict.fromkeys(self.most, 0.0) | {level.level: level.value for level in plan.proof.levels}
        if any(values[name] > most + VERIFICATION * max(1.0, abs(most)) for name, most in self.most.items()):
            return None
        return values[self.level] - self.value


def _allowed(plan: Plan, pools: Pools) -> _Allowed | None:
    """None where the plan has no value of its first preference, since its drippings were found by their mixture."""
    values = {level.level: level.value for level in plan.proof.levels}
    most: dict[str, float] = {}
    if nothing_to_use_up(sought(plan, pools)):
        return None
    found = posed(sought(plan, pools), pools, {}, frozenset(), frozenset()).formulation
    misses = found.layout.miss_columns
    for level in levels(found):
        if level.name not in values:
            return None
        value = values[level.name]
        if not level.cost[misses].any():
            loss = MOST_LOSS.get(plan.brief.prefer[0], MOST_LOSS_PART * abs(value))
            return _Allowed({**most, level.name: value + loss}, level.name, value, loss)
        most[level.name] = value + WISH_LOSS
    return None


@dataclass(slots=True)
class _Search:
    """posed: None until it is, and again where `exact` grew. certain: whether all that was ruled out has no plan."""

    plan: Plan
    pools: Pools
    allowed: _Allowed
    backend: Backend
    deadline: Deadline
    posed: Posed | None = None
    exact: frozenset[str] = frozenset()
    certain: bool = True

    def run(self, n: int) -> tuple[list[Alternative], Ended]:
        """Seek, solve, and seek again."""
        found: list[Alternative] = []
        ruled_out: list[frozenset[str]] = []
        at_hand = [frozenset(grams_of(self.plan.dish))]
        while len(found) < n:
            items = self._furthest(at_hand, ruled_out)
            if isinstance(items, Ended):
                return found, items
            one = self._made_of(items)
            if one is not None:
                found.append(one)
                at_hand.append(items)
                continue
            ruled_out.append(items)
            if self.deadline.remaining_s() <= 0 or len(ruled_out) > TRIES:
                return found, Ended.LATE if self.deadline.remaining_s() <= 0 else Ended.UNPROVEN
        return found, Ended.ENOUGH

    def _furthest(self, at_hand: list[frozenset[str]], ruled_out: list[frozenset[str]]) -> frozenset[str] | Ended:
        """The items furthest from those at hand; mixes are posed exactly where they pretend."""
        missed = frozenset(each.target.id for each in self.plan.dish.targets if not each.met)
        while True:
            if self.posed is None:
                brief = sought(self.plan, self.pools)
                self.posed = posed(brief, self.pools, self.allowed.most, missed, self.exact)
            search = self.posed
            end = self._end(search, at_hand, ruled_out)
            if end.x is None:
                return self._without(search, end.status)
            inexact = _overstated(search, end)
            if not inexact:
                return search.used(end.x)
            self.exact |= inexact
            self.posed = None

    def _without(self, search: Posed, status: Status) -> Ended:
        if self.deadline.remaining_s() <= 0 or status in {Status.TIME_LIMIT, Status.INTERRUPTED}:
            return Ended.LATE
        # Rows that take the worst of several sources of fat prove nothing.
        proven = status in NO_PLAN and self.certain and not is_careful(search.formulation)
        return Ended.NO_MORE if proven else Ended.UNPROVEN

    def _end(self, search: Posed, at_hand: Sequence[frozenset[str]], ruled_out: Sequence[frozenset[str]]) -> ChainEnd:
        chain = Chain(self.backend, seeking(search, at_hand, ruled_out))
        try:
            return chain.run([search.distance], self.deadline.share(SHARE_OF_TIME))
        except (BackendError, VerificationError):
            return ChainEnd((), Status.FAILED, frozenset())
        finally:
            chain.close()

    def _made_of(self, names: frozenset[str]) -> Alternative | None:
        """The best plan of just these items; None where there is none within the loss."""
        brief = only(sought(self.plan, self.pools), names)
        if nothing_to_use_up(brief):
            self.certain = False
            return None
        try:
            outcome: Outcome | None = solve(brief, self.backend, self.deadline.share(SHARE_OF_TIME))
        except (BackendError, UnusableBrief, VerificationError):
            outcome = None
        loss = self.allowed.loss(outcome) if isinstance(outcome, Plan) else None
        if not isinstance(outcome, Plan) or loss is None:
            self.certain &= isinstance(outcome, Conflict)
            return None
        dish = verified(as_asked(outcome.dish, self.plan.brief))
        differing = differs_by(self.pools, dish, self.plan.dish)
        return Alternative(dish, differing, mass_share(self.pools, dish, self.plan.dish), loss)


def _overstated(search: Posed, end: ChainEnd) -> frozenset[str]:
    last = end.solved[-1]
    held = [Solved(level, ProofStatus.OPTIMAL, Checked.CLAIM, last.x, most, None, 0.0) for level, most in search.held]
    return overstated(search.formulation, held, search.freed)


def _distance(pools: Pools, plan: Plan, one: Alternative) -> int:
    return len(pools.used(grams_of(plan.dish)) ^ pools.used(grams_of(one.dish)))
