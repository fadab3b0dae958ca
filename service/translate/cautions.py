"""Between the contract and cautions: who eats on the way in, cautions and safe temperatures on the way out."""

from collections.abc import Callable, Iterable
from pathlib import Path
from typing import TypeAlias

from service.schemas.cautions import CautionAnswer, SafeTemperatureAnswer, SafeTemperatures
from service.schemas.eater import EaterBody
from solver.cautions.caution import Caution
from solver.cautions.safe_temperatures import Profile, SafeTemperature, load_safe_temperatures
from solver.eater import Eater

#: The chart of a profile; of its rows those that speak of a food, in words, where one is named.
TemperaturesOf: TypeAlias = Callable[[Profile, str | None], SafeTemperatures]

_LOCAL_CODES = (
    "A probe in the thickest part decides, not the clock. The codes of your place and your inspector come before this "
    "chart, and so does a licensed food safety plan. For children, in pregnancy, for the old and for the sick, take no "
    "less than it says."
)


def to_eater(body: EaterBody | None) -> Eater | None:
    """Who eats; None when nobody is described."""
    if body is None:
        return None
    return Eater(
        age_years=body.age_years,
        weight_kg=body.weight_kg,
        pregnant=body.pregnant,
        lactating=body.lactating,
        conditions=tuple(dict.fromkeys(body.conditions)),
        meals_per_day=body.meals_per_day,
        prescribed=body.prescribed,
    )


def to_cautions(cautions: Iterable[Caution]) -> list[CautionAnswer]:
    """Cautions as they go out."""
    return [CautionAnswer.model_validate(caution, from_attributes=True) for caution in cautions]


def open_temperatures(folder: Path) -> TemperaturesOf:
    """Load the chart of a folder. Raises ReferenceDataError when a table is missing or damaged."""
    table = load_safe_temperatures(folder / "safe_temperatures.csv", folder / "sources.csv")

    def temperatures_of(profile: Profile, food: str | None) -> SafeTemperatures:
        rows = [_row(row) for row in table.of(profile) if _speaks_of(row, food)]
        return SafeTemperatures(profile=profile, local_codes=_LOCAL_CODES, temperatures=rows)

    return temperatures_of


def _speaks_of(row: SafeTemperature, food: str | None) -> bool:
    """Whether every word stands in the row, plural or not; a row for any food speaks of each."""
    if row.covers_all:
        return True
    said = f"{row.kind} {row.foods}".lower()
    return all(word.removesuffix("s") in said for word in (food or "").lower().split())


def _row(row: SafeTemperature) -> SafeTemperatureAnswer:
    return SafeTemperatureAnswer(
        kind=row.kind,
        foods=row.foods,
        fahrenheit=row.fahrenheit,
        celsius=row.celsius,
        held_s=row.held_s,
        rest_min=row.rest_min,
        sign=row.sign or None,
        note=row.note or None,
        edition=row.edition,
        source=row.source,
    )
