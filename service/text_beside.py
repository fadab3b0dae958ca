"""What was found beside a plan or a conflict, as lines of text for the terminal."""

from collections.abc import Iterable, Iterator

from service.schemas.alternatives import AlternativeAnswer, AlternativesAnswer
from service.schemas.answer import ConflictAnswer
from service.schemas.in_the_way import InTheWayAnswer
from service.schemas.ways_out import WaysOutAnswer
from service.schemas.worth import WorthAnswer
from service.words import number


def needed(answer: ConflictAnswer) -> str:
    """Whether each of the members of a conflict is needed for it; the rest of the brief may hold another one."""
    if not answer.irreducible:
        return "It is not proven that each of them is needed for the conflict."
    alone = len(answer.members) == 1
    return "It alone cannot be met." if alone else "Without any one of them the others can be met."


def way_out_lines(ways_out: WaysOutAnswer) -> Iterator[str]:
    """Each way on a line of its own; the plans that they lead to are in the answer."""
    for change in ways_out.changes:
        yield f"- Change only {change.text}."
    if ways_out.together is not None:
        yield f"- Change together {ways_out.together.text}."
    for addition in ways_out.additions:
        yield f"- Add {addition.text}."
    if not ways_out.changes and ways_out.together is None and not ways_out.additions:
        yield "(none found: no single change, and no single food, is known to lead to a plan)"


def no_food_lines(ways_out: WaysOutAnswer) -> Iterator[str]:
    """The bound that no addition can move."""
    if ways_out.no_food_helps is not None:
        yield f"{ways_out.no_food_helps.text}."


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
    moved = number(worth.by, _singular(worth.unit) if worth.by == 1 else worth.unit)
    return f"- {worth.name}, {worth.end}: {moved} more room changes {worth.level} by: {more}; less room by: {less}"


def _singular(unit: str) -> str:
    return unit.replace("steps of", "step of").replace("points", "point").replace("pieces", "piece")


def alternative_lines(others: AlternativesAnswer) -> Iterator[str]:
    """The amounts of each, in one line, with what it loses, and why there are no more."""
    yield from (_alternative(other, others.level) for other in others.plans)
    loses = f"; each loses at most {others.most_loss:.3g} of {others.level}" if others.level else ""
    yield f"({others.ended}{loses})"


def _alternative(other: AlternativeAnswer, level: str) -> str:
    amounts = ", ".join(f"{each.name} {each.text}" for each in other.dish.quantities)
    return f"- {amounts} (differs by {', '.join(other.differs_by)}; {level} {other.loss:+.3g})"
