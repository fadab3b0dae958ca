"""The cards of a conflict and of no decision."""

from collections.abc import Iterator

from service.cards import mind_sections as mind
from service.cards.card import AnySection, Card, Notes, Picture, Table
from service.cards.dish_sections import asked, ingredients, numbers
from service.cards.of_dishes import lead
from service.cards.reader import Reader
from service.schemas.answer import ConflictAnswer, UndecidedAnswer
from service.schemas.holds_carried import CarriedAnswer
from service.schemas.ways_out import WaysOutAnswer
from service.text_holds import carried_line


def conflict_card(answer: ConflictAnswer, reader: Reader) -> Card:
    """What cannot be had together, what would make it possible, and the nearest dish."""
    sections = (
        *_members(answer, reader),
        *(() if answer.ways_out is None else _ways_out(answer.ways_out, reader)),
        *(() if answer.tolerance_carried is None else _carried(answer.tolerance_carried, reader)),
        *_nearest(answer, reader),
        *mind.cautions(answer.cautions, reader),
        *mind.warnings(answer.warnings, reader),
        *mind.reminder(answer.reminder),
    )
    return Card(answer.title, _lead(answer.portions, reader), sections, reader.words.language, "conflict")


def undecided_card(answer: UndecidedAnswer, reader: Reader) -> Card:
    """Neither a plan nor a proof that there is none."""
    sections = (
        Notes(reader.say("Undecided"), "left", (answer.reason, answer.advice), "loud"),
        *mind.warnings(answer.warnings, reader),
        *mind.reminder(answer.reminder),
    )
    return Card(answer.title, lead(answer.portions, reader), sections, reader.words.language, "undecided")


def _lead(portions: int, reader: Reader) -> str:
    return reader.say("{portions}: no plan meets the brief", portions=lead(portions, reader))


def _members(answer: ConflictAnswer, reader: Reader) -> Iterator[AnySection]:
    heading = reader.say("These cannot be had together")
    yield Notes(heading, "left", tuple(member.text for member in answer.members), "loud")
    yield Notes("", "left", (_needed(answer, reader),))
    for other in answer.other_conflicts:
        heading = reader.say("Nor can these, apart from that")
        yield Notes(heading, "left", tuple(member.text for member in other))


def _needed(answer: ConflictAnswer, reader: Reader) -> str:
    """Whether each of the members is needed; the rest of the brief may hold another conflict."""
    if not answer.irreducible:
        return reader.say("It is not proven that each of them is needed for the conflict.")
    if len(answer.members) == 1:
        return reader.say("It alone cannot be met.")
    return reader.say("Without any one of them the others can be met.")


def _ways_out(ways: WaysOutAnswer, reader: Reader) -> Iterator[AnySection]:
    found = [*ways.changes, *([ways.together] if ways.together else []), *ways.additions]
    if found:
        texts = tuple(each.text for each in found)
        yield Notes(reader.say("Ways out, each confirmed by a plan"), "left", texts)
    if ways.no_food_helps is not None:
        yield Notes(reader.say("No food can help here"), "left", (ways.no_food_helps.text,))


def _carried(carried: CarriedAnswer, reader: Reader) -> Iterator[AnySection]:
    """How much of what the brief has to hold within the pantry can carry."""
    yield Notes(reader.say("How much the pantry can carry"), "left", (carried_line(carried),))


def _nearest(answer: ConflictAnswer, reader: Reader) -> Iterator[AnySection]:
    dish = answer.nearest
    if dish is None:
        return
    yield Notes(reader.say("The nearest dish, which misses what is marked"), "right", ())
    for section in ingredients(dish.quantities, reader):
        if isinstance(section, Table):
            yield Table(section.heading, "right", section.titles, section.rows, section.numeric)
    yield numbers(dish.portion, dish.batch, None, reader)
    for section in asked(dish, None, reader):
        heading = reader.say("What pulls against what") if isinstance(section, Picture) else section.heading
        yield Picture(heading, "right", section.drawing) if isinstance(section, Picture) else section
