"""The table of safe temperatures in the centre of the food, by profile and class.

A row is stated in the unit of its source; the other is derived, and is never below it. A chart that prints 160 F as
71 C is short by a fifth of a degree F: 160 F is 71.11 C, so it is 71.2 C here.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from math import ceil, isnan
from pathlib import Path
from typing import Literal, TypeAlias

from solver.errors import ReferenceDataError
from solver.tables import read_table

Profile: TypeAlias = Literal["us consumer", "us retail", "uk"]

#: The rules of one place and purpose; charts of different profiles are never mixed.
PROFILES: tuple[Profile, ...] = ("us consumer", "us retail", "uk")

#: Kitchens at home in the United States: what is meant where nothing is said.
US_CONSUMER: Profile = "us consumer"

#: A row for every class of a profile that has no other.
_ANY = "any"

#: A class that only some charts tell apart, and the row it has in the others.
_LIKE: Mapping[str, str] = {"roast": "whole cut"}


def at_least_celsius(fahrenheit: float) -> float:
    """The Celsius of a Fahrenheit temperature, rounded up to 0.1, so that it is never below its source."""
    return ceil((Fraction(str(fahrenheit)) - 32) * 50 / 9) / 10


def at_least_fahrenheit(celsius: float) -> float:
    """The Fahrenheit of a Celsius temperature, rounded up to a whole degree."""
    return float(ceil(Fraction(str(celsius)) * 9 / 5 + 32))


@dataclass(frozen=True, slots=True)
class SafeTemperature:
    """Least temperature in the centre. kind: the class ("minced"). foods: what it covers, in words.

    fahrenheit, celsius: None, both, where the chart goes by eye; then `sign` says by what. held_s: how long it is held,
    s; rest_min: how long the food rests afterwards, min; each None where the chart names no time. note: "" when none.
    edition: of the chart. source: its id.
    """

    profile: str
    kind: str
    foods: str
    fahrenheit: float | None
    celsius: float | None
    held_s: float | None
    rest_min: float | None
    sign: str
    note: str
    edition: str
    source: str

    @property
    def covers_all(self) -> bool:
        """Whether it is the one row of its profile, for every class."""
        return self.kind == _ANY

    @property
    def severity(self) -> tuple[float, float, float]:
        """The higher, the more it asks: degrees, then time at that, then rest."""
        return (self.fahrenheit or 0.0, self.held_s or 0.0, self.rest_min or 0.0)


@dataclass(frozen=True, slots=True)
class SafeTemperatures:
    """All rows, in the order of the table."""

    rows: tuple[SafeTemperature, ...]

    def of(self, profile: str) -> tuple[SafeTemperature, ...]:
        """The rows of one profile."""
        return tuple(row for row in self.rows if row.profile == profile)

    def row(self, profile: str, kind: str) -> SafeTemperature:
        """The row of a class. Raises KeyError when the profile covers no such class."""
        by_kind = {row.kind: row for row in self.of(profile)}
        return next(by_kind[each] for each in (kind, _LIKE.get(kind, ""), _ANY) if each in by_kind)


def load_safe_temperatures(path: Path, sources: Path) -> SafeTemperatures:
    """The table, with the edition of each source. Raises ReferenceDataError when one is missing or damaged."""
    table, editions = read_table(path), _editions(sources)
    texts = [table.texts(column) for column in ("profile", "class", "foods", "sign", "note", "source")]
    numbers = table.numbers(["least F", "least C", "held s", "rest min"])
    rows: list[SafeTemperature] = []
    for place, (profile, kind, foods, sign, note, source) in enumerate(zip(*texts, strict=True)):
        fahrenheit, celsius, held, rest = (None if isnan(cell) else float(cell) for cell in numbers[place])
        if profile not in PROFILES or source not in editions or (fahrenheit is celsius is None) != _by_eye_alone(sign):
            raise table.damage(place, "an unknown profile or source, or neither a temperature nor a sign to go by")
        both = _both(fahrenheit, celsius)
        rows.append(SafeTemperature(profile, kind, foods, *both, held, rest, sign, note, editions[source], source))
    _refuse_repeated(path, rows)
    return SafeTemperatures(tuple(rows))


def _both(fahrenheit: float | None, celsius: float | None) -> tuple[float | None, float | None]:
    if fahrenheit is not None:
        return fahrenheit, at_least_celsius(fahrenheit)
    return (None, None) if celsius is None else (at_least_fahrenheit(celsius), celsius)


def _by_eye_alone(sign: str) -> bool:
    """A sign that begins with "or" stands beside a temperature."""
    return bool(sign) and not sign.startswith("or ")


def _refuse_repeated(path: Path, rows: list[SafeTemperature]) -> None:
    if len({(row.profile, row.kind) for row in rows}) < len(rows):
        raise ReferenceDataError(f"{path}: a profile has a class twice")


def _editions(path: Path) -> dict[str, str]:
    table = read_table(path)
    columns = (table.texts(column) for column in ("source", "title", "publisher", "edition"))
    return {
        source: f"{publisher}: {title} ({edition})" for source, title, publisher, edition in zip(*columns, strict=True)
    }
