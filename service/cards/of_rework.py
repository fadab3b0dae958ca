"""The card of a dish made anew: what changes and why, before the card of the dish that it becomes."""

from collections.abc import Iterator

from service.cards.card import AnySection, Card, Notes, Picture, Table
from service.cards.pictures.changes import changes
from service.cards.reader import Reader
from service.cards.titles import title_of, unit_of
from service.schemas.answer import PlanAnswer
from service.schemas.dish import TotalsAnswer
from service.schemas.rework import AmountChangeAnswer, ReworkAnswer

#: What is held against each other, of a portion, beside its energy.
_COMPARED = ("fat_g", "protein_g", "available_carbohydrate_g", "sodium_mg")


def rework_card(answer: ReworkAnswer, card: Card, reader: Reader) -> Card:
    """card: of the dish that it becomes, or of why there is none."""
    sections = (*_changed(answer, reader), *_substitutes(answer, reader), *card.sections)
    return Card(card.title, card.lead, sections, card.language, "rework")


def _changed(answer: ReworkAnswer, reader: Reader) -> Iterator[AnySection]:
    if not answer.changes:
        return
    titles = (reader.say("ingredient"), reader.say("before"), reader.say("now"))
    rows = tuple((each.name, each.before, each.after) for each in answer.changes)
    yield Table(reader.say("What changes"), "left", titles, rows, numeric=2)
    yield Notes(reader.say("Why"), "left", tuple(_why(each) for each in answer.changes), "small")
    yield Picture(reader.say("Before and after"), "right", changes(answer.changes, reader))
    if isinstance(answer.answer, PlanAnswer):
        yield _numbers(answer.before.portion, answer.answer.portion, reader)


def _substitutes(answer: ReworkAnswer, reader: Reader) -> Iterator[AnySection]:
    if answer.substitutes:
        heading = reader.say("What may stand in for what is left out")
        yield Notes(heading, "left", tuple(each.text for each in answer.substitutes))


def _why(change: AmountChangeAnswer) -> str:
    return f"{change.name}: {'; '.join(why.text for why in change.why)}"


def _numbers(before: TotalsAnswer, after: TotalsAnswer, reader: Reader) -> AnySection:
    titles = (reader.say("a portion"), reader.say("before"), reader.say("now"))
    energies = (reader.of_energy(each.energy_kcal, each.energy_kj) for each in (before, after))
    rows = [(reader.say("energy"), *energies)]
    for name in _COMPARED:
        amounts = (reader.amount(each.nutrients.get(name), unit_of(name)) for each in (before, after))
        rows.append((title_of(name, reader), *amounts))
    return Table(reader.say("The numbers before and after"), "right", titles, tuple(rows), numeric=2)
