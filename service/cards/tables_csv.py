"""The table of an answer as comma-separated values (RFC 4180): what a scale, a list or a sheet needs of it.

One line a row, under a line of titles; an empty cell where the JSON has null.
"""

import csv
import io
from collections.abc import Iterable, Mapping, Sequence
from typing import TypeAlias

from service.schemas.answer import ConflictAnswer, PlanAnswer, UndecidedAnswer
from service.schemas.breakdown import BreakdownAnswer
from service.schemas.dish import QuantityAnswer
from service.schemas.reach import RangeAnswer, ReachAnswer
from service.schemas.rework import ReworkAnswer

_Row: TypeAlias = Mapping[str, object]

QUANTITIES = ("component", "name", "food_id", "grams", "as_purchased_grams", "text", "about", "steps")
RANGES = ("id", "of", "per", "basis", "unit", "least", "most", "at_least", "at_most")
CHANGES = ("component", "name", "known", "before", "after", "before_grams", "after_grams")


def table_csv(
    answer: PlanAnswer | ConflictAnswer | UndecidedAnswer | BreakdownAnswer | ReachAnswer | ReworkAnswer,
) -> str:
    """What was weighed out; of a conflict for the nearest dish, of reach the ranges, of a rework the changes."""
    match answer:
        case ReachAnswer():
            return _table(RANGES, map(_range, answer.ranges))
        case ReworkAnswer():
            return _table(CHANGES, (each.model_dump() for each in answer.changes))
        case _:
            return _table(QUANTITIES, (each.model_dump() for each in _quantities(answer)))


def _quantities(answer: PlanAnswer | ConflictAnswer | UndecidedAnswer | BreakdownAnswer) -> Sequence[QuantityAnswer]:
    match answer:
        case PlanAnswer() | BreakdownAnswer():
            return answer.quantities
        case ConflictAnswer():
            return () if answer.nearest is None else answer.nearest.quantities
        case UndecidedAnswer():
            return ()


def _range(each: RangeAnswer) -> _Row:
    return {**each.model_dump(), "least": each.least.value, "most": each.most.value}


def _table(columns: Sequence[str], rows: Iterable[_Row]) -> str:
    text = io.StringIO(newline="")
    writer = csv.DictWriter(text, columns, extrasaction="ignore")
    writer.writeheader()
    writer.writerows(rows)
    return text.getvalue()
