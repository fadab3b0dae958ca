"""A dish that is made anew after tasting: the least change that does what the cook says and meets the targets again.

What the cook says becomes rules and choices of the brief, a reason asks for a fix, and `closest to` the base dish is
the first preference; then the brief is solved like any other. Fixes are tried in the order of their table; the first
that leads to a dish is the answer.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import partial
from typing import Protocol

from solver.backends.base import Backend
from solver.brief import Brief, Preference
from solver.closest import Base, Distance, distance
from solver.deadline import Deadline
from solver.errors import Problem, UnusableBrief
from solver.outcome import Dish, Outcome, Plan
from solver.rework_base import base_dish, base_dish_problems, grams_by_use
from solver.rework_changes import Change, changes
from solver.rework_fixes import Fix
from solver.rework_said import Said, choices_of, rules_of
from solver.rework_unasked import with_unasked_kept
from solver.rework_why import Asking, with_reasons
from solver.solve import solve as solve_brief
from solver.substitutes_named import Named, with_named
from solver.usable import refuse_unusable
from solver.watch import Watch

#: Part of the time left that one fix may take when others may be tried after it.
SHARE_OF_TIME = 0.6

#: Part of the time that the dish may take, so that some is left to say why each change was needed.
DISH_SHARE = 0.6


class Solve(Protocol):
    """The one way through, `solver.solve.solve`."""

    def __call__(
        self, brief: Brief, backend: Backend, deadline: Deadline | None = None, *, watch: Watch | None = None
    ) -> Outcome:
        """Answer a brief."""


@dataclass(frozen=True, slots=True)
class ReworkAsked:
    """brief: with a base dish. said: in the cook's order. fixes: of the reason, in order; empty without one.

    named: what may be used instead of other items.
    """

    brief: Brief
    said: tuple[Said, ...] = ()
    fixes: tuple[Fix, ...] = ()
    named: tuple[Named, ...] = ()

    @property
    def base(self) -> Base:
        """The base dish. Raises UnusableBrief without one."""
        if self.brief.base is None:
            detail = "There is no dish to make anew."
            raise UnusableBrief([Problem("/base", "no_base", detail, "Give base, the amounts of the dish.")])
        return self.brief.base

    def posed(self, fix: Fix | None) -> Brief:
        """The brief that is solved."""
        brief, base = self.brief, self.base
        rules = tuple(rule for said in self.said for rule in rules_of(said, base, brief.portions))
        others = tuple(each for each in brief.prefer if each is not Preference.CLOSEST)
        found = replace(
            brief,
            rules=(*brief.rules, *rules),
            choices=(*brief.choices, *(choice for said in self.said for choice in choices_of(said))),
            prefer=(Preference.CLOSEST, *others),
            base=replace(base, stands_in={**_stand_ins(self.said, base), **base.stands_in}),
        )
        kept = with_named(with_unasked_kept(found, base, self.said), base, self.named)
        return kept if fix is None else fix.put_into(kept)


@dataclass(frozen=True, slots=True)
class Reworked:
    """outcome: as of any brief. fix: the one that was taken; None without a reason.

    before: the base dish. changes: by use, in the order of the pantry; empty without a plan. distance: how far the
    plan is from the base dish; None without a plan.
    """

    outcome: Outcome
    fix: Fix | None
    before: Dish
    changes: tuple[Change, ...]
    distance: Distance | None


def rework(
    asked: ReworkAsked,
    backend: Backend,
    deadline: Deadline | None = None,
    solve: Solve = solve_brief,
    watch: Watch | None = None,
) -> Reworked:
    """Make a dish anew.

    deadline: when all must be done; by default the brief's own time limit from now. watch: shown how far the dish is.
    Raises UnusableBrief for what contradicts itself, BackendError or VerificationError when a solver breaks or lies.
    """
    by = deadline or Deadline.after(asked.brief.time_limit_s)
    refuse_unusable(asked.posed(None))
    problems = tuple(base_dish_problems(asked.brief, asked.base))
    if problems:
        raise UnusableBrief(problems)
    before = base_dish(asked.posed(None), asked.base)
    outcome, fix = _first(asked, backend, by, partial(solve, watch=watch) if watch else solve)
    if not isinstance(outcome, Plan):
        return Reworked(outcome, fix, before, (), None)
    base = outcome.brief.base or asked.base
    found = changes(base, outcome)
    told = with_reasons(found, Asking(outcome, asked.said, fix, backend, by, solve))
    return Reworked(outcome, fix, before, told, distance(base, grams_by_use(outcome.dish)))


def _first(asked: ReworkAsked, backend: Backend, deadline: Deadline, solve: Solve) -> tuple[Outcome, Fix | None]:
    """The first fix that leads to a plan; what the first of all led to, where none does.

    Each is tried with what is named in full amounts first, then in any.
    """
    tried: list[tuple[Outcome, Fix | None]] = []
    by = deadline.share(DISH_SHARE)
    free = replace(asked, named=tuple(replace(each, grams=0.0) for each in asked.named))
    ways = [(each, fix) for fix in asked.fixes or (None,) for each in ((asked, free) if asked.named else (free,))]
    for each, fix in ways:
        outcome = solve(each.posed(fix), backend, by.share(SHARE_OF_TIME) if len(ways) > 1 else by)
        if isinstance(outcome, Plan):
            return outcome, fix
        if each is free:
            tried.append((outcome, fix))
    return tried[0]


def _stand_ins(said: Sequence[Said], base: Base) -> dict[str, str]:
    """New items to what they stand in for: of several items, the one that there was most of."""
    found: dict[str, str] = {}
    for each in said:
        if each.instead:
            most = max(sorted(each.items), key=base.grams)
            found.update(dict.fromkeys(sorted(each.instead), most))
    return found
