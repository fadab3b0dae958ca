"""An audit of the numbers that are declared for a dish or food: can they be true together, and of this food?

Every declared number is the interval of all amounts that would be printed so. Each finding is about one statement and
says what was declared, what follows from the others, how far apart they are, and whether rounding alone can explain it.
Which of the numbers is wrong nobody knows. What is not declared is not doubted.
"""

from collections.abc import Iterator, Mapping

from solver.declared_computed import computed_findings
from solver.declared_energy import energy_findings
from solver.declared_finding import Finding
from solver.declared_numbers import Declared
from solver.declared_parts import part_findings
from solver.declared_shares import share_findings


def audit(declared: Declared, computed: Mapping[str, float | None] | None = None) -> tuple[Finding, ...]:
    """All findings, those that rounding cannot explain first; none for numbers that go together.

    computed: our own numbers for the same amount, by the names of `declared_numbers.FIELDS`; None where there are
    none, or not known where left out.
    """
    return tuple(sorted(_findings(declared, computed or {}), key=lambda finding: finding.rounding_explains))


def _findings(declared: Declared, computed: Mapping[str, float | None]) -> Iterator[Finding]:
    yield from energy_findings(declared)
    yield from part_findings(declared)
    yield from share_findings(declared)
    yield from computed_findings(declared, computed)
