"""The cards of a plan and of a breakdown."""

from collections.abc import Iterator

from service.cards import mind_sections as mind
from service.cards.card import AnySection, Card, Notes, Picture
from service.cards.dish_sections import asked, energy, ingredients, numbers, on_the_plate
from service.cards.method_sections import method
from service.cards.pictures.brings import brings
from service.cards.reader import Reader
from service.schemas.answer import PlanAnswer
from service.schemas.breakdown import BreakdownAnswer
from service.schemas.declared import FindingAnswer
from service.schemas.portions import PortionAnswer


def plan_card(answer: PlanAnswer, reader: Reader) -> Card:
    """A plan that met every must."""
    sections = (*_dish(answer, reader), *asked(answer, answer.plate_may_be_off, reader), *_ending(answer, reader))
    return Card(answer.title, lead(answer.portions, reader), sections, reader.words.language, "plan")


def breakdown_card(answer: BreakdownAnswer, reader: Reader) -> Card:
    """The numbers of a dish as it is, its portions and what was found in the numbers that were declared."""
    sections = (
        *_dish(answer, reader),
        *_divided(answer.divided, reader),
        *_findings(answer.findings, reader),
        *_ending(answer, reader),
    )
    return Card(answer.title, lead(answer.portions, reader), sections, reader.words.language, "breakdown")


def lead(portions: int, reader: Reader) -> str:
    """How many it serves."""
    return reader.count("{n} portion", "{n} portions", portions)


def _dish(answer: PlanAnswer | BreakdownAnswer, reader: Reader) -> Iterator[AnySection]:
    yield from ingredients(answer.quantities, reader)
    yield from method(answer.method_steps, answer.components, answer.cautions, reader)
    yield numbers(answer.portion, answer.batch, answer.plate_may_be_off, reader)
    yield from energy(answer.energy_distribution_percent, answer.ketogenic_ratio, reader)
    yield from mind.nutrition(answer.nutrition, reader)


def _ending(answer: PlanAnswer | BreakdownAnswer, reader: Reader) -> Iterator[AnySection]:
    yield from mind.cautions(answer.cautions, reader)
    yield from mind.allergens(answer.allergens, reader)
    yield from mind.warnings(answer.warnings, reader)
    yield from mind.exactness(answer.plate_may_be_off, reader)
    yield Picture(reader.say("Who brings what"), "below", brings(answer.brings, reader))
    yield from on_the_plate(answer.components, reader)
    yield from mind.reminder(answer.reminder)


def _divided(portions: list[PortionAnswer], reader: Reader) -> Iterator[AnySection]:
    if portions:
        texts = tuple(
            reader.say(
                "{name}: {weight}, {energy}",
                name=each.name,
                weight=reader.weight(each.weigh_out_g),
                energy=reader.of_energy(each.totals.energy_kcal, each.totals.energy_kj),
            )
            for each in portions
        )
        yield Notes(reader.say("Portions"), "right", texts)


def _findings(findings: list[FindingAnswer], reader: Reader) -> Iterator[AnySection]:
    if findings:
        yield Notes(reader.say("What does not fit"), "right", tuple(each.text for each in findings), "loud")
