"""Reads the published programmes and their answers; `answers.toml` describes the form of the tables."""

import csv
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass, replace
from decimal import Decimal
from functools import cache
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from solver.program import LinearProgram, Rows

PUBLISHED = Path(__file__).parents[2] / "published"


@dataclass(frozen=True, slots=True, eq=False)
class Figure:
    """A printed number; `tolerance` is half a unit of its last digit (of its 7th when it is printed whole)."""

    value: float
    tolerance: float

    @staticmethod
    def printed(number: Decimal | int) -> "Figure":
        exponent = Decimal(number).as_tuple().exponent if isinstance(number, Decimal) else -6
        assert isinstance(exponent, int), "a published figure is finite"
        return Figure(float(number), 0.500001 * 10.0**exponent)

    def agrees_with(self, value: float) -> bool:
        return abs(value - self.value) <= self.tolerance + 1e-9 * abs(self.value)


@dataclass(frozen=True, slots=True, eq=False)
class Published:
    """A programme with names and its published answer. objective: None when it is known to be infeasible."""

    columns: tuple[str, ...]
    rows: tuple[str, ...]
    program: LinearProgram
    objective: Figure | None
    quantities: Mapping[str, Figure]
    slack_rows: Mapping[str, Figure]
    duals: Mapping[str, Figure]
    reduced_costs: Mapping[str, Figure]

    def amounts(self, x: NDArray[np.float64]) -> dict[str, float]:
        return dict(zip(self.columns, x.tolist(), strict=True))

    def by_row(self, values: NDArray[np.float64]) -> dict[str, float]:
        return dict(zip(self.rows, values.tolist(), strict=True))


@cache
def _answers() -> dict[str, dict[str, object]]:
    text = (PUBLISHED / "programmes" / "answers.toml").read_text(encoding="utf-8")
    return tomllib.loads(text, parse_float=Decimal)


def names() -> list[str]:
    return list(_answers())


def sources() -> dict[str, dict[str, object]]:
    return _answers()


def published(name: str) -> Published:
    answer = _answers()[name]
    columns, rows, program = _read(PUBLISHED / "programmes" / str(answer.get("data", f"{name}.csv")))
    if answer.get("equations"):
        program = replace(program, row_upper=program.row_lower)
    if answer.get("whole"):
        program = replace(program, integer=np.ones(len(columns), dtype=np.bool_))
    objective = answer.get("objective")
    assert objective is None or isinstance(objective, Decimal | int)
    return Published(
        columns,
        rows,
        program,
        None if objective is None else Figure.printed(objective),
        *(_figures(answer.get(part, {})) for part in ("quantities", "slack_rows", "duals", "reduced_costs")),
    )


def _figures(table: object) -> dict[str, Figure]:
    assert isinstance(table, dict)
    return {name: Figure.printed(number) for name, number in table.items()}


def _read(path: Path) -> tuple[tuple[str, ...], tuple[str, ...], LinearProgram]:
    with path.open(encoding="utf-8", newline="") as file:
        (_, _, _, _, *rows), *lines = list(csv.reader(file))
    *items, lower, upper = lines
    assert (lower[0], upper[0]) == ("at least", "at most"), path.name
    program = LinearProgram(
        cost=_numbers([line[1] for line in items], 0.0),
        rows=Rows.from_dense(np.array([_numbers(line[4:], 0.0) for line in items]).T),
        row_lower=_numbers(lower[4:], -np.inf),
        row_upper=_numbers(upper[4:], np.inf),
        column_lower=_numbers([line[2] for line in items], 0.0),
        column_upper=_numbers([line[3] for line in items], np.inf),
        integer=np.zeros(len(items), dtype=np.bool_),
    )
    return tuple(line[0] for line in items), tuple(rows), program


def _numbers(cells: list[str], empty: float) -> NDArray[np.float64]:
    return np.array([float(cell) if cell else empty for cell in cells])
