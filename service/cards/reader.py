"""Who reads a card: the units that they think in, and their words."""

from dataclasses import dataclass, field
from typing import Literal, TypeAlias

from service.cards.words import Words

Kitchen: TypeAlias = Literal["metric", "us"]
Energy: TypeAlias = Literal["kcal", "kJ"]
Temperature: TypeAlias = Literal["celsius", "fahrenheit"]

#: g in an avoirdupois ounce and pound, exactly (NIST Handbook 44, Appendix C; from memory).
G_PER_OUNCE = 28.349523125
OUNCES_PER_POUND = 16

#: Minus as typographers set it.
MINUS = "\u2212"


@dataclass(frozen=True, slots=True)
class Reader:
    """kitchen: whose units weights are said in. energy, temperature: the unit of each."""

    kitchen: Kitchen = "metric"
    energy: Energy = "kcal"
    temperature: Temperature = "celsius"
    words: Words = field(default_factory=Words)

    def say(self, text: str, **values: object) -> str:
        """See `Words.say`."""
        return self.words.say(text, **values)

    def count(self, one: str, many: str, n: float, **values: object) -> str:
        """See `Words.count`."""
        return self.words.count(one, many, n, **values)

    def weight(self, grams: float) -> str:
        """A weight: grams to 0.1 g, or pounds and ounces to 0.01 oz."""
        if self.kitchen == "metric":
            return f"{grams:.1f} g"
        ounces = round(grams / G_PER_OUNCE, 2)
        pounds, rest = divmod(ounces, OUNCES_PER_POUND)
        return f"{pounds:.0f} lb {rest:.2f} oz" if pounds else f"{rest:.2f} oz"

    def degrees(self, celsius: float) -> str:
        """A temperature, to a degree."""
        if self.temperature == "celsius":
            return f"{celsius:.0f} °C"
        return f"{celsius * 9 / 5 + 32:.0f} °F"

    def of_energy(self, kcal: float, kj: float) -> str:
        """An energy, in whole units."""
        return f"{kcal:.0f} kcal" if self.energy == "kcal" else f"{kj:.0f} kJ"

    def amount(self, value: float | None, unit: str) -> str:
        """An amount of a nutrient, to 0.1 of its unit; unknown is said to be unknown."""
        return self.say("unknown") if value is None else f"{value:.1f} {unit}"

    def off(self, below: float, above: float | None) -> str:
        """How far a number may be off, in its unit: to a whole one from 10 on, to a tenth from 1 on, else to 0.01."""
        if above is not None and _short(below) == _short(above):
            return f"±{_short(above)}"
        upward = self.say("without limit") if above is None else f"+{_short(above)}"
        return f"{MINUS}{_short(below)} / {upward}"


def _short(value: float) -> str:
    return f"{value:.{0 if value >= 10 else 1 if value >= 1 else 2}f}"  # noqa: PLR2004  as said above
