"""Everything that leads out of a conflict: the smallest changes, the smallest additions, or that no food can help.

Where several conflicts stand side by side no single change is enough; then the changes that the nearest plan asks for
are one way out together.
"""

from dataclasses import dataclass

from solver.additions import Addition, additions
from solver.backends.base import Backend
from solver.changes import Change, smallest_changes
from solver.deadline import Deadline
from solver.no_food_helps import Bound, no_food_helps
from solver.outcome import Conflict
from solver.practical import Eligible
from solver.together import Together, changes_together

#: Part of the time left that the changes may take; the rest is for the additions.
CHANGES_SHARE = 0.5


@dataclass(frozen=True, slots=True)
class WaysOut:
    """changes, additions: each confirmed by a plan, the smallest first; empty where none was found in time.

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
    added = () if bound is not None else additions(conflict, eligible, backend, deadline)
    return WaysOut(changes, together, added, bound)
