"""A table of reference data: one CSV file (UTF-8, LF) whose cells stay texts until they are asked for."""

import csv
import math
from collections.abc import Sequence
from dataclasses import dataclass
from operator import itemgetter
from pathlib import Path

import numpy as np

from solver.errors import ReferenceDataError
from solver.numerics import FloatArray


@dataclass(frozen=True, slots=True, eq=False)
class Table:
    """header: the names of the columns; rows: one list of texts a line, each as long as the header."""

    path: Path
    header: list[str]
    rows: list[list[str]]

    def texts(self, column: str) -> tuple[str, ...]:
        """One column. Raises ReferenceDataError when there is no such column."""
        return tuple(map(itemgetter(self._place(column)), self.rows))

    def numbers(self, columns: Sequence[str]) -> FloatArray:
        """Some columns as numbers, shape (rows, len(columns)); NaN where a cell is empty.

        Raises ReferenceDataError for a missing column, and for a cell that is no finite number of at least 0.
        """
        places = [self._place(column) for column in columns]
        texts = [row[place] for row in self.rows for place in places]
        try:
            cells = [float(text or "nan") for text in texts]
        except ValueError:
            raise self._no_number(places) from None
        matrix = np.array(cells, dtype=np.float64).reshape(-1, len(places))
        missing = np.isnan(matrix)
        written_nan = missing.sum() > texts.count("")
        if written_nan or not (missing | ((matrix >= 0) & (matrix < math.inf))).all():
            raise self._no_number(places)
        return matrix

    def damage(self, row: int, what: str) -> ReferenceDataError:
        """The error to raise about a row, counted from 0; it names the file and the line."""
        return ReferenceDataError(f"{self.path}, line {row + 2}: {what}")

    def _place(self, column: str) -> int:
        if column not in self.header:
            raise self.damage(-1, f"there is no column {column!r}")
        return self.header.index(column)

    def _no_number(self, places: Sequence[int]) -> ReferenceDataError:
        row, place = next((r, p) for r, cells in enumerate(self.rows) for p in places if not _is_amount(cells[p]))
        return self.damage(row, f"{self.rows[row][place]!r} in column {self.header[place]!r} is no amount")


def read_table(path: Path) -> Table:
    """Read a table. Raises ReferenceDataError when the file is missing, unreadable, empty or has ragged lines."""
    try:
        with path.open(encoding="utf-8", newline="") as stream:
            lines = list(csv.reader(stream))
    except (OSError, UnicodeDecodeError, csv.Error) as error:
        raise ReferenceDataError(f"{path}: cannot be read: {error}") from error
    if not lines:
        raise ReferenceDataError(f"{path}, line 1: there is no header")
    table = Table(path, lines[0], lines[1:])
    for row, cells in enumerate(table.rows):
        if len(cells) != len(table.header):
            raise table.damage(row, f"{len(cells)} cells under a header of {len(table.header)}")
    return table


def _is_amount(text: str) -> bool:
    try:
        return not text or 0 <= float(text) < math.inf
    except ValueError:
        return False
