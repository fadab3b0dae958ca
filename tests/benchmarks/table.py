"""The table that the command prints: one row a measure, with the reach beside what was found."""

import sys
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Row:
    """found, reach: in words; met: whether the one is within the other."""

    measure: str
    found: str
    reach: str
    met: bool


def at_most(measure: str, found: float, reach: float, *, unit: str = "x", note: str = "") -> Row:
    """A row that is met when little enough was found."""
    return Row(measure, f"{found:.2f}{unit}{note}", f"at most {reach:g}{unit}", found <= reach)


def at_least(measure: str, found: float, reach: float, *, unit: str = "x", note: str = "") -> Row:
    """A row that is met when enough was found."""
    return Row(measure, f"{found:.2f}{unit}{note}", f"at least {reach:g}{unit}", found >= reach)


def say(row: Row) -> None:
    """One line of the table."""
    sys.stdout.write(f"| {row.measure} | {row.found} | {row.reach} | {'met' if row.met else 'not met'} |\n")
    sys.stdout.flush()


def say_head() -> None:
    """The head of the table."""
    sys.stdout.write("| measure | found | reach | |\n| --- | --- | --- | --- |\n")
