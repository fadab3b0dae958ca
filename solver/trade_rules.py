"""Rules of the trade that a brief cites by name: what is counted, and its band (common practice, no source)."""

from dataclasses import dataclass
from math import isnan
from pathlib import Path

from solver.errors import ReferenceDataError
from solver.rules import By
from solver.tables import read_table


@dataclass(frozen=True, slots=True)
class TradeRule:
    """One rule. what: of the first group to the second. lower, upper: g per g; None for an open side."""

    name: str
    what: str
    by: By
    lower: float | None
    upper: float | None
    source: str


def load_trade_rules(path: Path) -> dict[str, TradeRule]:
    """The table, by name. Raises ReferenceDataError when it is missing or damaged."""
    table = read_table(path)
    ends = table.numbers(["at_least", "at_most"])
    texts = zip(*(table.texts(column) for column in ("rule", "what", "by", "source")), strict=True)
    found: dict[str, TradeRule] = {}
    for (name, what, by, source), (lower, upper) in zip(texts, ends, strict=True):
        if name in found or by not in {each.value for each in By}:
            raise ReferenceDataError(f"{path}: {name} comes twice, or counts by {by}")
        found[name] = TradeRule(name, what, By(by), _end(lower), _end(upper), source)
    return found


def _end(value: float) -> float | None:
    return None if isnan(value) else float(value)
