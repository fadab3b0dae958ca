"""The card of what a pantry can do."""

from collections.abc import Iterator

from service.cards import mind_sections as mind
from service.cards.card import AnySection, Card, Notes, Picture, Table
from service.cards.of_dishes import lead
from service.cards.pictures.region import region
from service.cards.reader import Reader
from service.cards.titles import title_of
from service.schemas.reach import EndAnswer, RangeAnswer, ReachAnswer
from service.words import band, number


def reach_card(answer: ReachAnswer, reader: Reader) -> Card:
    """Every range, and the region of two targets."""
    sections = (
        *_ranges(answer, reader),
        *_frontier(answer, reader),
        *mind.cautions(answer.cautions, reader),
        *mind.warnings(answer.warnings, reader),
        *mind.reminder(answer.reminder),
    )
    return Card(answer.title, lead(answer.portions, reader), sections, reader.words.language, "reach")


def _ranges(answer: ReachAnswer, reader: Reader) -> Iterator[AnySection]:
    titles = (reader.say("what"), reader.say("least"), reader.say("most"), reader.say("asked"))
    rows = tuple(_range(each, reader) for each in answer.ranges)
    yield Table(reader.say("What can be had while the other musts hold"), "left", titles, rows, numeric=2)
    notes = [f"{each.id}: {end.note}" for each in answer.ranges for end in (each.least, each.most) if end.note]
    if notes:
        yield Notes("", "left", tuple(dict.fromkeys(notes)), "small")


def _range(each: RangeAnswer, reader: Reader) -> tuple[str, ...]:
    is_open = each.at_least is None and each.at_most is None
    wanted = "" if is_open else band(each.at_least, each.at_most, each.unit)
    name = title_of(each.of, reader) if each.id == each.of else each.id
    return (name, _end(each.least, each.unit, reader), _end(each.most, each.unit, reader), wanted)


def _end(end: EndAnswer, unit: str, reader: Reader) -> str:
    return reader.say("none") if end.value is None else number(round(end.value, 2), unit)


def _frontier(answer: ReachAnswer, reader: Reader) -> Iterator[AnySection]:
    if answer.frontier is None:
        return
    drawn = region(answer.frontier, reader)
    if drawn is not None:
        yield Picture(reader.say("What is reachable of two targets"), "right", drawn)
    if answer.frontier.note is not None:
        yield Notes("", "right", (answer.frontier.note,), "small")
