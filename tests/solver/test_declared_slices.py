"""The closed form of what carbohydrate and its parts can bring, against a solver."""

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy.optimize import linprog

from solver.declared_slices import carbohydrate_energy
from solver.energy import GENERAL_KCAL, REGULATION_KCAL, REGULATION_KJ, Factors
from solver.label_rounding import Printed
from solver.numerics import FloatArray
from tests.solver.declarations import declared


def extreme(cost: FloatArray, limits: list[tuple[float, float]]) -> float:
    """The least cost of carbohydrate and its three parts, which are together no more than it."""
    found = linprog(cost, A_ub=[[-1, 1, 1, 1]], b_ub=[0], bounds=limits)
    assert found.fun is not None
    return float(found.fun)


@given(
    st.floats(0, 40),
    st.lists(st.floats(0, 30), min_size=3, max_size=3),
    st.sampled_from([GENERAL_KCAL, REGULATION_KCAL, REGULATION_KJ, Factors(1.83, 8.37, 1.33, 7, fibre=2)]),
)
def test_the_energy_of_carbohydrate_and_its_parts_is_that_of_the_linear_programme(
    total: float, parts: list[float], factors: Factors
) -> None:
    names = ("fibre_g", "polyols_g", "allulose_g")
    held = {name: Printed(round(part), 0) for name, part in zip(names, parts, strict=True)}
    of = declared(total_carbohydrate_g=round(total), **held)
    intervals = [of.known(name).interval for name in ("total_carbohydrate_g", *names)]
    assume(sum(interval.low for interval in intervals[1:]) <= intervals[0].high)
    fibre = factors.carbohydrate if factors.fibre is None else factors.fibre
    gains = [own - factors.carbohydrate for own in (fibre, factors.polyol, factors.allulose)]
    cost = np.array([factors.carbohydrate, *gains])
    limits = [(interval.low, interval.high) for interval in intervals]
    ends = [sign * extreme(sign * cost, limits) for sign in (1, -1)]
    known = carbohydrate_energy(of, factors, is_total=True)
    assert known is not None
    assert (known.interval.low, known.interval.high) == pytest.approx(ends, abs=1e-6)
