"""How far off something is expected to be, to floating-point noise."""

from typing import cast

import pytest

from solver.plate_off_moves import OffBy


def off_by(below: float, above: float) -> OffBy:
    """An OffBy that compares approximately."""
    return OffBy(cast("float", pytest.approx(below)), cast("float", pytest.approx(above)))


def either(by: float) -> OffBy:
    """The same on both sides."""
    return off_by(by, by)
