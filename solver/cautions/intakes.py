"""Reference intakes: upper levels a day, and protein a day for each kg of body weight, by age and state."""

from dataclasses import dataclass
from math import inf, isnan
from pathlib import Path

from solver.eater import Eater
from solver.tables import read_table

#: The age taken for somebody who is not described, years.
_GROWN_UP = 30.0

UPPER_LEVEL, RECOMMENDED, HIGH = "upper level", "recommended intake", "high intake"


@dataclass(frozen=True, slots=True)
class Intake:
    """One row. who: in words. least_age, below_age: years. state: "", "pregnant" or "lactating". amount: in `unit`."""

    kind: str
    nutrient: str
    who: str
    least_age: float
    below_age: float
    state: str
    amount: float
    unit: str
    source: str

    def is_for(self, age: float, state: str) -> bool:
        """Whether it speaks of somebody of an age, years, and a state."""
        return self.least_age <= age < self.below_age and self.state in {"", state}


@dataclass(frozen=True, slots=True)
class Intakes:
    """All rows."""

    rows: tuple[Intake, ...]

    def of(self, kind: str, nutrient: str, eater: Eater) -> Intake | None:
        """The row for an eater, an adult's when the age is not known; the row of a state comes before that of an age.

        None when the source sets none, as for the copper of infants. That never means that any amount is safe.
        """
        age = _GROWN_UP if eater.age_years is None else eater.age_years
        state = "pregnant" if eater.pregnant else "lactating" if eater.lactating else ""
        found = [row for row in self.rows if (row.kind, row.nutrient) == (kind, nutrient) and row.is_for(age, state)]
        return max(found, key=lambda row: row.state != "", default=None)


def load_intakes(path: Path) -> Intakes:
    """The table. Raises ReferenceDataError when it is missing or damaged."""
    table = read_table(path)
    texts = zip(*map(table.texts, ("kind", "nutrient", "who", "state", "unit", "source")), strict=True)
    numbers = table.numbers(["least age years", "below age years", "amount"])
    rows = []
    for (kind, nutrient, who, state, unit, source), (least, below, amount) in zip(texts, numbers.tolist(), strict=True):
        below_age = inf if isnan(below) else below
        rows.append(Intake(kind, nutrient, who, least, below_age, state, amount, unit, source))
    return Intakes(tuple(rows))
