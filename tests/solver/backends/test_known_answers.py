"""Programmes whose answers are published, on every backend. `published/programmes/answers.toml` names the sources."""

import numpy as np
import pytest

from solver.backends.base import Status
from solver.numerics import INTEGRALITY, FloatArray
from tests.solver.backends.certificates import dual_bound, largest_violation, proves_optimality
from tests.solver.backends.every_backend import on_every_backend, solve
from tests.solver.backends.published_programmes import Published, names, published, sources

on_every_programme = pytest.mark.parametrize("name", names())


def test_every_answer_names_its_source_and_how_it_is_known() -> None:
    labels = {"seen", "quoted", "computed", "memory"}
    for name, answer in sources().items():
        assert answer["source"], name
        assert {answer["data_label"], answer["answer_label"]} <= labels, name


@on_every_backend
@on_every_programme
def test_the_published_answer_is_found(name: str, backend: str) -> None:
    known = published(name)
    answer = solve(backend, known.program)
    if known.objective is None:
        assert answer.status is Status.INFEASIBLE
        assert answer.x is None
        return
    assert answer.status is Status.OPTIMAL
    assert answer.objective is not None
    assert answer.x is not None
    assert known.objective.agrees_with(answer.objective)
    assert answer.objective == pytest.approx(float(known.program.cost @ answer.x), rel=1e-9)
    assert largest_violation(known.program, answer.x) <= 1e-7
    assert_quantities_agree(known, answer.x)


def assert_quantities_agree(known: Published, x: FloatArray) -> None:
    amounts = known.amounts(x)
    assert set(known.quantities) <= set(amounts)
    if known.quantities:
        used = {name for name, amount in amounts.items() if abs(amount) > INTEGRALITY}
        assert used == set(known.quantities)
    for name, figure in known.quantities.items():
        assert figure.agrees_with(amounts[name]), name
    totals = known.by_row(known.program.rows.times(x))
    for name, figure in known.slack_rows.items():
        assert figure.agrees_with(totals[name]), name


@on_every_backend
@pytest.mark.parametrize(
    "name", [n for n in names() if published(n).objective and not published(n).program.has_integers]
)
def test_its_duals_prove_the_optimum(name: str, backend: str) -> None:
    known = published(name)
    assert proves_optimality(known.program, solve(backend, known.program))


@on_every_backend
@pytest.mark.parametrize("name", [n for n in names() if published(n).duals or published(n).reduced_costs])
def test_published_duals_are_found(name: str, backend: str) -> None:
    known = published(name)
    answer = solve(backend, known.program)
    assert answer.row_dual is not None
    assert answer.column_dual is not None
    duals, reduced_costs = known.by_row(answer.row_dual), known.amounts(answer.column_dual)
    for row, figure in known.duals.items():
        assert figure.agrees_with(duals[row]), row
    if known.duals:
        assert {row for row, dual in duals.items() if abs(dual) > 1e-9} == set(known.duals)
    for column, figure in known.reduced_costs.items():
        assert figure.agrees_with(reduced_costs[column]), column


@on_every_backend
def test_an_integer_programme_has_no_duals(backend: str) -> None:
    answer = solve(backend, published("varied_dinners_whole").program)
    assert answer.row_dual is None
    assert answer.column_dual is None


@on_every_backend
def test_the_bound_of_an_integer_optimum_is_just_below_it(backend: str) -> None:
    answer = solve(backend, published("varied_dinners_whole").program)
    assert answer.bound == pytest.approx(119.3, abs=1e-5)


def test_the_certificate_refuses_duals_of_the_wrong_sign() -> None:
    program = published("diet_1945").program
    answer = solve("scipy-highs", program)
    assert answer.row_dual is not None
    assert dual_bound(program, answer.row_dual) == pytest.approx(0.1086622782)
    assert dual_bound(program, -answer.row_dual) == -np.inf
