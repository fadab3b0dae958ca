"""Everything that leads out of a conflict: the smallest changes, the smallest additions, or that no food can help.

Where several conflicts stand side by side no single change is enough; then the changes that the nearest plan asks for
are one way out together.
"""

from dataclasses import dataclass, replace

from solver.additions import WANTED, Addition, additions
from solver.additions_at_home import additions_at_home
from solver.backends.base import Backend
from solver.changes import Change, smallest_changes
from solver.deadline import Deadline
from solver.no_food_helps import Bound, no_food_helps
from solver.outcome import Conflict
from solver.practical import Eligible
from solver.together import Together, changes_together

#: Part of the time left that the changes may take; the rest is for the additions.
CHANGES_SHARE = 0.5

#: Part of the time left after them that additions of what is at home may take.
AT_HOME_SHARE = 0.5


@dataclass(frozen=True, slots=True)
class WaysOut:
    """changes, additions: each confirmed by a plan, the smallest first; empty where none was found in time.

    additions: those of what is at home, but held back, come before those of what is not.

    together: only where no single change was found; None as well where the nearest plan leads to none.
    no_food_helps: then `additions` is empty; None where that is not so or not known.
    """

    changes: tuple[Change, ...]
    together: Together | None
    additions: tuple[Addition, ...]
    no_food_helps: Bound | None


def ways_out(conflict: Conflict, eligible: Eligible, backend: Backend, deadline: Deadline) -> WaysOut:
    """Look for them until the deadline. eligible: what may be proposed as an addition."""
    changes = smallest_changes(conflict, backend, deadline.share(CHANGES_SHARE))
    together = None if changes else changes_together(conflict, backend, deadline.share(CHANGES_SHARE))
    bound = no_food_helps(conflict.brief, backend, deadline)
    added = () if bound is not None else _additions(conflict, eligible, backend, deadline)
    return WaysOut(changes, together, added, bound)


def _additions(conflict: Conflict, eligible: Eligible, backend: Backend, deadline: Deadline) -> tuple[Addition, ...]:
    """What is at home first, then what is not."""
    at_home = additions_at_home(conflict, backend, deadline.share(AT_HOME_SHARE), WANTED)
    found = {each.food.id for each in at_home}
    other = replace(eligible, foods=tuple(each for each in eligible.foods if each.food.id not in found))
    if conflict.brief.holds is not None and conflict.brief.holds.most_off is not None:
        return at_home  # over a whole table there are too many ways to be off for a bound that is one
    return at_home + additions(conflict, other, backend, deadline)
