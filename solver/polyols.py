"""Polyols by kind, and allulose: what of each counts as available carbohydrate.

Total carbohydrate of a US label and carbohydrate of an EU label both hold them. How much of them is to count is for
whoever eats to choose; the defaults are a table of reference data, each row with its source. An amount whose kind is
not stated counts in full, and maltitol is never fully left out.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from solver.foods import Polyols
from solver.tables import read_table

ERYTHRITOL, ALLULOSE = "erythritol", "allulose"


@dataclass(frozen=True, slots=True)
class PolyolKind:
    """counted: the share that counts as available carbohydrate, 0 to 1, unless a label's reader says otherwise."""

    name: str
    counted: float
    may_be_left_out: bool


def load_polyols(path: Path) -> dict[str, PolyolKind]:
    """The table, by kind. Raises ReferenceDataError when it is missing or damaged."""
    table = read_table(path)
    names, leaves = table.texts("kind"), table.texts("may be left out")
    shares = table.numbers(["counted g/g"])[:, 0]
    rows = zip(names, shares, leaves, strict=True)
    return {name: PolyolKind(name, float(share), leave == "yes") for name, share, leave in rows}


def combined(grams: Mapping[str, float], counted: Mapping[str, float]) -> Polyols:
    """What is held, from grams by kind and the share of each kind that counts."""
    polyols = sum(amount for name, amount in grams.items() if name not in {ERYTHRITOL, ALLULOSE})
    return Polyols(
        polyols_g=polyols,
        erythritol_g=grams.get(ERYTHRITOL, 0.0),
        allulose_g=grams.get(ALLULOSE, 0.0),
        counted_g=sum(amount * counted[name] for name, amount in grams.items()),
    )
