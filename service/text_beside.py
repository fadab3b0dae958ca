"""What was found beside a plan or a conflict, as lines of text for the terminal."""

from collections.abc import Iterable, Iterator

from service.schemas.alternatives import AlternativeAnswer, AlternativesAnswer
from service.schemas.in_the_way import InTheWayAnswer
from service.schemas.ways_out import WaysOutAnswer
from service.schemas.worth import WorthAnswer
from service.words import number


def way_out_lines(ways_out: WaysOutAnswer) -> Iterator[str]:
    """Each way on a line of its own; the plans that they lead to are in the answer."""
    for change in ways_out.changes:
        yield f"- Change only {change.text}."
    if ways_out.together is not None:
        yield f"- Change together {ways_out.together.text}."
    for addition in ways_out.additions:
        yield f"- Add {addition.text}."
    if ways_out.no_food_helps is not None:
        yield f"- No food helps: {ways_out.no_food_helps.text}."


def in_the_way_lines(missed: Iterable[InTheWayAnswer]) -> Iterator[str]:
    """Each wish that is missed, then what stands in its way."""
    for wish in missed:
        if not wish.members:
            yield f"{wish.text}: {wish.why}"
            continue
        unproven = "" if wish.irreducible else " (it is not proven that each of them does)"
        yield f"{wish.text}: {wish.why}{unproven}"
        yield from (f"- {member.text}" for member in wish.members)


def worth_line(worth: WorthAnswer) -> str:
    """What a unit more and a unit less room change."""
    more = worth.more_reason if worth.more is None else f"{worth.more:+.3g}"
    less = worth.less_reason if worth.less is None else f"{worth.less:+.3g}"
    moved = number(worth.by, worth.unit)
    return f"- {worth.name}, {worth.end}: {moved} more room changes {worth.level} by: {more}; less room by: {less}"


def alternative_lines(others: AlternativesAnswer) -> Iterator[str]:
    """The amounts of each, in one line, and why there are no more."""
    yield from (_alternative(other) for other in others.plans)
    yield f"({others.ended})"


def _alternative(other: AlternativeAnswer) -> str:
    amounts = ", ".join(f"{each.name} {each.text}" for each in other.dish.quantities)
    return f"- {amounts} (differs by {', '.join(other.differs_by)})"
