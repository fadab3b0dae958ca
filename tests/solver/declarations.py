"""Declared numbers for the tests: made, and audited."""

from typing import Literal

from solver.declared import audit
from solver.declared_finding import Finding
from solver.declared_numbers import Declared
from solver.energy import Factors
from solver.label_rounding import LabelLayout, Printed
from solver.label_text import number_printed


def declared(
    layout: Literal["US", "EU"] | None = None,
    weight_g: float | None = None,
    factors: Factors | None = None,
    /,
    **values: float | Printed,
) -> Declared:
    """Each value a bare number, or as printed."""
    numbers = {name: value if isinstance(value, Printed) else number_printed(value) for name, value in values.items()}
    return Declared(numbers, None if layout is None else LabelLayout(layout), weight_g, factors)


def only(of: Declared, computed: dict[str, float | None] | None = None) -> Finding:
    """The one finding of an audit."""
    (finding,) = audit(of, computed)
    return finding


def codes(of: Declared, computed: dict[str, float | None] | None = None) -> list[str]:
    """The codes of all its findings."""
    return [finding.code for finding in audit(of, computed)]
