"""Amounts that a scale can show: rounded where that is enough, narrowed where not, on the grid where it is exact."""

from dataclasses import replace

import numpy as np
import pytest

from solver.backends import open_backend
from solver.backends.base import Status
from solver.brief import Brief, Preference
from solver.chain import Chain
from solver.deadline import Deadline
from solver.formulate import Formulation
from solver.levels import levels
from solver.meets import meets, meets_musts, musts
from solver.numerics import FloatArray
from solver.pantry import PantryItem, Step
from solver.printing import Printed, binding_targets, met_sides, print_amounts, rounded, rounding_margin
from solver.solved import ChainEnd
from tests.solver import larder


def printed(brief: Brief, *, seconds: float = 10.0) -> tuple[Formulation, ChainEnd, Printed]:
    formulation, backend = larder.posed(brief), open_backend("highs")
    chain = Chain(backend, formulation)
    try:
        end = chain.run(levels(formulation), Deadline.after(10))
        return formulation, end, print_amounts(chain, end, formulation, backend, Deadline.after(seconds))
    finally:
        chain.close()


def priced(brief: Brief) -> Brief:
    pantry = tuple(replace(item, price_per_g=0.01 * (n + 1)) for n, item in enumerate(brief.pantry))
    return replace(brief, pantry=pantry, prefer=(Preference.CHEAPEST,))


def amounts(found: Printed) -> FloatArray:
    assert found.amounts is not None
    return found.amounts


def test_amounts_are_multiples_of_a_tenth_of_a_gram() -> None:
    formulation, _, found = printed(larder.brief())
    tenths = amounts(found) * formulation.layout.unit_g * 10
    assert np.abs(tenths - np.round(tenths)).max() < 1e-9


def test_where_plain_rounding_breaks_a_must_the_bands_are_narrowed() -> None:
    # Butter is cheapest, and 400.03 kcal of it are 54.95 g less a little: 54.9 g miss, 55.0 g do not.
    brief = priced(larder.brief(targets=(larder.between("energy_kcal", 400.03, 600.0),)))
    formulation, end, found = printed(brief)
    assert end.x is not None
    assert not meets_musts(formulation, rounded(formulation, end.x))
    assert meets_musts(formulation, amounts(found))
    assert binding_targets(formulation, amounts(found)) >= {"energy_kcal"}


def test_where_the_narrowed_bands_have_no_room_the_grid_finds_the_exact_amounts() -> None:
    # fat : protein is 2 : 1 only where whole tenths of a gram say so; there are such amounts, 20 g to 40 g.
    pure = larder.pantry(*larder.PURE[:2])
    ratio = larder.between("ketogenic_ratio", 2.0, 2.0)
    formulation, _, found = printed(larder.brief(*pure, targets=(larder.between("energy_kcal", 400.0, 600.0), ratio)))
    assert found.status is Status.OPTIMAL
    grams = dict(zip((item.name for item in formulation.layout.items), amounts(found), strict=True))
    assert grams["pure fat"] == pytest.approx(2 * grams["pure protein"])


def test_a_band_between_two_printable_amounts_is_proven_impossible_on_the_grid() -> None:
    only_protein = larder.pantry(larder.PURE[0])
    _, end, found = printed(larder.brief(*only_protein, targets=(larder.between("protein_g", 10.04, 10.06),)))
    assert end.x is not None, "between the grams there is a plan"
    assert (found.amounts, found.status) == (None, Status.INFEASIBLE)


def test_steps_are_kept_whole_while_the_rest_is_printed() -> None:
    stepped = PantryItem("butter", larder.BUTTER, step=Step(1, "pat", 7.3))
    formulation, _, found = printed(larder.brief(stepped, larder.item(larder.CHICKEN), larder.item(larder.BREAD)))
    whole = amounts(found)[~formulation.layout.weighed]
    assert (whole == np.round(whole)).all()
    assert meets_musts(formulation, amounts(found))


def test_the_margin_is_the_worst_that_rounding_the_items_in_use_can_do() -> None:
    formulation = larder.posed(larder.brief())
    in_use = np.array([True, False, True])
    margin = rounding_margin(formulation, in_use, musts(formulation))
    kcal = {"butter": 728.0, "chicken": 156.0, "bread": 258.0}
    items = [item.name for item in formulation.layout.items]
    worst_kcal = sum(kcal[name] * 0.05 / 100 for name, used in zip(items, in_use, strict=True) if used)
    scaled = worst_kcal * formulation.layout.row_scale[:2]
    assert margin[:2] == pytest.approx(scaled, abs=1e-6)
    assert (margin[2:] == 0).all()


def test_a_wish_that_the_optimum_meets_is_still_met_when_it_is_printed() -> None:
    # Without care half of all one-sided wishes would be printed a hair short of their end.
    for hundredths in range(40):
        wish = replace(larder.between("protein_g", 20.003 + hundredths / 100, None), priority=1)
        formulation, end, found = printed(larder.brief(targets=(larder.ENERGY, wish)))
        assert end.x is not None
        assert met_sides(formulation, end.x) == frozenset(range(len(formulation.layout.sides)))
        assert meets(formulation, amounts(found), met_sides(formulation, end.x))
