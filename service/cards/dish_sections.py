"""The sections of a dish: what to weigh out, what it comes to, and whether it meets what was asked."""

from collections.abc import Iterator, Sequence
from itertools import compress

from service.cards.card import AnySection, Notes, Picture, Place, Table
from service.cards.pictures.bands import bands
from service.cards.pictures.plate import plate
from service.cards.pictures.strip import strip
from service.cards.reader import Reader
from service.cards.titles import title_of, unit_of
from service.schemas.cooked import CookedAnswer
from service.schemas.dish import DishAnswer, DistributionAnswer, QuantityAnswer, TargetAnswer, TotalsAnswer
from service.schemas.plate_off import OffByAnswer, PlateOffAnswer
from service.schemas.rules import RuleAnswer
from service.words import band, number

#: What every card says of a portion, in this order.
NUTRIENTS = (
    "fat_g",
    "saturated_fat_g",
    "protein_g",
    "total_carbohydrate_g",
    "fibre_g",
    "available_carbohydrate_g",
    "sodium_mg",
    "cholesterol_mg",
)


def ingredients(quantities: Sequence[QuantityAnswer], reader: Reader) -> Iterator[AnySection]:
    """One table for each component, in the order of what goes in."""
    components = dict.fromkeys(each.component for each in quantities)
    for component in components:
        rows = tuple(_ingredient(each, reader) for each in quantities if each.component == component)
        heading = reader.say("Weigh out") if len(components) == 1 else component
        yield Table(heading, "left", (reader.say("ingredient"), reader.say("amount"), ""), rows)


def _ingredient(each: QuantityAnswer, reader: Reader) -> tuple[str, ...]:
    by_measure = not each.text.endswith(" g")
    exact = reader.weight(each.grams)
    if by_measure:
        return (each.name, each.text, _aside(each, exact, reader))
    return (each.name, exact, _aside(each, each.about or "", reader))


def _aside(each: QuantityAnswer, otherwise: str, reader: Reader) -> str:
    if each.as_purchased_grams is None:
        return otherwise
    bought = reader.say("{weight} as purchased", weight=reader.weight(each.as_purchased_grams))
    return ", ".join(part for part in (otherwise, bought) if part)


def numbers(portion: TotalsAnswer, batch: TotalsAnswer, off: PlateOffAnswer | None, reader: Reader) -> AnySection:
    """What a portion and, where that is more, the batch come to, and how far a portion may be off, if that is known."""
    rows: list[tuple[str, ...]] = [
        (
            reader.say("weight"),
            reader.weight(portion.grams),
            "" if off is None else _off(off.portion.grams, reader.say("exact"), reader),
            reader.weight(batch.grams),
        ),
        (
            reader.say("energy"),
            reader.of_energy(portion.energy_kcal, portion.energy_kj),
            _energy_off(off, reader),
            reader.of_energy(batch.energy_kcal, batch.energy_kj),
        ),
        *(_nutrient(name, portion, batch, off, reader) for name in NUTRIENTS),
    ]
    titles = ("", reader.say("a portion"), reader.say("may be off"), reader.say("the batch"))
    told = (True, True, off is not None, batch != portion)
    rows = [tuple(compress(row, told)) for row in rows]
    return Table(reader.say("What it comes to"), "right", tuple(compress(titles, told)), tuple(rows), sum(told) - 1)


def _energy_off(off: PlateOffAnswer | None, reader: Reader) -> str:
    if off is None:
        return ""
    energy = off.portion.energy_kcal if reader.energy == "kcal" else off.portion.energy_kj
    return _off(energy, reader.say("not stated"), reader)


def _off(by: OffByAnswer, none: str, reader: Reader) -> str:
    """none: what to say where no source of the number says that it may be off."""
    return none if by.below == by.above == 0 else reader.off(by.below, by.above)


def _nutrient(
    name: str, portion: TotalsAnswer, batch: TotalsAnswer, off: PlateOffAnswer | None, reader: Reader
) -> tuple[str, ...]:
    stated = None if off is None else off.portion.nutrients.get(name)
    by = "" if stated is None else _off(stated, reader.say("not stated"), reader)
    return (title_of(name, reader), _sum(name, portion, reader), by, _sum(name, batch, reader))


def _sum(name: str, totals: TotalsAnswer, reader: Reader) -> str:
    said = reader.amount(totals.nutrients.get(name), unit_of(name))
    is_part = name in totals.lacking and totals.nutrients.get(name) is not None
    return reader.say("at least {amount}", amount=said) if is_part else said


def energy(shares: DistributionAnswer | None, ratio: float | None, reader: Reader) -> Iterator[AnySection]:
    """Where the energy comes from: the strip, and the ketogenic ratio."""
    if shares is not None:
        drawn = strip(shares, reader)
        yield Picture(reader.say("Of the energy"), "right", drawn)
    if ratio is not None:
        yield Notes("", "right", (reader.say("ketogenic ratio {ratio} : 1", ratio=f"{ratio:.2f}"),))


def asked(dish: DishAnswer, off: PlateOffAnswer | None, reader: Reader, place: Place = "right") -> Iterator[AnySection]:
    """The targets and rules, and where each target lies."""
    rows = (*(_target(each, reader) for each in dish.targets), *(_rule(each, reader) for each in dish.rules))
    titles: tuple[str, ...] = (reader.say("asked"), reader.say("has"), reader.say("wanted"), "")
    if any(target.worst_case is not None for target in dish.targets):
        titles = (*titles, reader.say("at its worst"))
        worst = (*map(_worst, dish.targets), *("" for _ in dish.rules))
        rows = tuple((*row, said) for row, said in zip(rows, worst, strict=True))
    yield Table(reader.say("What was asked"), place, titles, rows)
    if any(target.value is not None for target in dish.targets):
        yield Picture(reader.say("Where each target lies"), place, bands(dish.targets, off, reader))


def _target(each: TargetAnswer, reader: Reader) -> tuple[str, ...]:
    has = reader.say("undefined") if each.value is None else number(round(each.value, 2), each.unit)
    name = title_of(each.of, reader) if each.id == each.of else each.id
    return (name, has, band(each.at_least, each.at_most, each.unit), _verdict(each, 2, reader))


def _worst(each: TargetAnswer) -> str:
    """The least and the most within what the plan holds for."""
    worst = each.worst_case
    if worst is None:
        return ""
    return band(round(worst.lowest, 2), None if worst.highest is None else round(worst.highest, 2), each.unit)


def _rule(each: RuleAnswer, reader: Reader) -> tuple[str, ...]:
    has = reader.say("undefined") if each.value is None else number(round(each.value, 4), each.unit)
    return (each.id, has, band(each.at_least, each.at_most, each.unit), _verdict(each, 4, reader))


def _verdict(each: TargetAnswer | RuleAnswer, digits: int, reader: Reader) -> str:
    if each.met:
        return reader.say("met, at its limit") if each.binding else reader.say("met")
    if each.miss is None:
        return reader.say("not met: {reason}", reason=each.reason)
    unit = reader.say("percentage points") if each.unit == "%" else each.unit
    return reader.say("missed by {miss}", miss=number(round(each.miss, digits), unit))


def on_the_plate(components: Sequence[CookedAnswer], reader: Reader) -> Iterator[AnySection]:
    """What cooking does, where anything is cooked."""
    if any(each.method is not None for each in components):
        yield Picture(reader.say("From the board to the plate"), "below", plate(components, reader))
