"""What a preference needs to know of the pantry, and what makes it ambiguous."""

from collections.abc import Iterator

from solver.brief import Brief, Preference
from solver.errors import Problem


def preference_problems(brief: Brief) -> Iterator[Problem]:
    """What keeps a preference of a brief from being sought."""
    if Preference.USE_UP_FIRST in brief.prefer:
        yield from _undated(brief)
        yield from _days_and_order(brief)
    if Preference.FEWEST_PURCHASES in brief.prefer and not any(item.to_buy for item in brief.pantry):
        detail = "Little is to be bought, and no item says that it has to be."
        yield Problem("/prefer", "nothing_to_buy", detail, "Give to_buy to what is not at home.")


def _undated(brief: Brief) -> Iterator[Problem]:
    if all(item.use_by is None and item.use_up_order is None for item in brief.pantry):
        detail = "What spoils first is to be used up, and no item says when it spoils."
        yield Problem("/prefer", "undated", detail, "Give use_by or use_up_order to at least one item.")


def _days_and_order(brief: Brief) -> Iterator[Problem]:
    """A place in an order is neither before nor after a day."""
    if any(item.use_by is not None for item in brief.pantry):
        for place, item in enumerate(brief.pantry):
            if item.use_up_order is not None:
                detail = f"{item.name} has a place in an order, and others have days; neither comes first."
                at = f"/pantry/{place}/use_up_order"
                yield Problem(at, "days_and_order", detail, "Give days to all of them, or an order to all.")
