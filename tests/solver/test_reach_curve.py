"""A ratio against an amount: the curve and its breakpoints against fractions, and by the range at held amounts."""

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

import pytest

from solver.catalogue import Catalogue
from solver.deadline import Deadline
from solver.reach import Pantry, asked_for, range_of
from solver.reach_curve import curve_of
from solver.reach_frontier import frontier_of
from solver.reach_outcome import Curve, Piece
from solver.targets import Target
from tests.solver.by_fractions import dot, exactly, vertices
from tests.solver.random_briefs import random_brief
from tests.solver.reaching import MUSTS, PER_100G, RATIOS, pantry, rows_of, three_foods

CASES = [("energy_kcal", "fat_share_percent"), ("protein_g", "fat_share_percent"), ("energy_kcal", "ketogenic_ratio")]


def curve(x: str, y: str, *musts: tuple[str, int | None, int | None]) -> Curve:
    asked = three_foods(*musts)
    return curve_of(pantry(asked), asked_for(asked, x), asked_for(asked, y))


def piece_at(pieces: Sequence[Piece], amount: float) -> Piece:
    return next(piece for piece in pieces if piece.start - 1e-9 <= amount <= piece.stop + 1e-9)


@pytest.mark.parametrize(("x", "y"), CASES)
def test_the_curve_is_that_of_every_slice_in_fractions(x: str, y: str) -> None:
    others = [must for must in MUSTS if must[0] not in {x, y}]
    found, rows = curve(x, y, *MUSTS), rows_of(*others)
    top, bottom, factor = RATIOS[y]
    ends = [dot(PER_100G[x], point) for point in vertices(rows)]
    assert found.most[0].start == pytest.approx(float(min(ends)), abs=1e-7)
    assert found.most[-1].stop == pytest.approx(float(max(ends)))
    for part in range(1, 60):
        amount = min(ends) + Fraction(part, 60) * (max(ends) - min(ends))
        slice_of = vertices([*rows, *exactly(PER_100G[x], amount)])
        ratios = [factor * dot(PER_100G[top], point) / dot(PER_100G[bottom], point) for point in slice_of]
        t = float(amount)
        assert piece_at(found.most, t).at(t) == pytest.approx(float(max(ratios)), rel=1e-9)
        assert piece_at(found.least, t).at(t) == pytest.approx(float(min(ratios)), rel=1e-9)


def test_breakpoints_and_pieces_of_the_fat_share_against_energy_are_known_by_hand() -> None:
    # Kcal, and those from fat: 100 g of butter 728 and 720, 200 g of chicken 312 and 72, 100 g of bread 258 and 18.
    free = curve("energy_kcal", "fat_share_percent", ("energy_kcal", 1, None))
    # Most: butter alone to 728, with chicken to 1040, with bread to 1298.
    assert [piece.stop for piece in free.most] == [pytest.approx(end, abs=1e-5) for end in (728, 1040, 1298)]
    first, second, third = free.most
    assert first.at(500.0) == pytest.approx(100 * 720 / 728)
    assert second.at(900.0) == pytest.approx(100 * (720 + 36 / 156 * (900 - 728)) / 900)
    assert third.at(1200.0) == pytest.approx(100 * (720 + 72 + 18 / 258 * (1200 - 1040)) / 1200)
    # Least: bread alone to 258, with chicken to 570, with butter to 1298.
    assert [piece.stop for piece in free.least] == [pytest.approx(end, abs=1e-5) for end in (258, 570, 1298)]
    assert free.least[2].at(1000.0) == pytest.approx(100 * (18 + 72 + 720 / 728 * (1000 - 570)) / 1000)


@pytest.mark.parametrize("seed", [0, 2, 5, 6, 9, 13])
@pytest.mark.parametrize("y", ["fat_share_percent", "ketogenic_ratio"])
def test_between_breakpoints_the_curve_is_the_range_with_the_amount_held(
    catalogue: Catalogue, seed: int, y: str
) -> None:
    asked = random_brief(catalogue, seed)
    x = asked_for(asked, "energy_kcal")
    found = curve_of(pantry(asked), x, asked_for(asked, y))
    assert found.complete
    others = tuple(target for target in asked.targets if target.id not in {x.id, y})
    for number, piece in enumerate(found.most):
        amount = piece.start + (0.2, 0.5, 0.83)[number % 3] * (piece.stop - piece.start)
        held = replace(asked, targets=(Target("held", x.of, lower=amount, upper=amount), *others))
        most = range_of(pantry(held), asked_for(asked, y)).most.value
        assert piece.at(amount) == pytest.approx(most, rel=2e-6)


def test_neighbouring_pieces_meet(catalogue: Catalogue) -> None:
    asked = random_brief(catalogue, 5)
    found = curve_of(pantry(asked), asked_for(asked, "energy_kcal"), asked_for(asked, "fat_share_percent"))
    assert len(found.least) > 3
    for side in (found.least, found.most):
        for one, following in pairwise(side):
            assert one.stop == following.start
            assert one.at(one.stop) == pytest.approx(following.at(one.stop), abs=1e-6)


def test_the_amount_may_be_named_second() -> None:
    asked = three_foods(*MUSTS)
    share, energy = asked_for(asked, "fat_share_percent"), asked_for(asked, "energy_kcal")
    found = frontier_of(pantry(asked), share, energy)
    assert isinstance(found, Curve)
    assert (found.x, found.y) == (energy, share)


def test_no_dish_and_no_time_are_told_apart() -> None:
    asked = three_foods(*MUSTS, ("fat_g", 2000, None))
    x, y = asked_for(asked, "energy_kcal"), asked_for(asked, "fat_share_percent")
    assert "cannot be met together" in (curve_of(pantry(asked), x, y).note or "")
    late = Pantry(three_foods(*MUSTS), pantry(asked).backend, Deadline.after(0))
    assert curve_of(late, x, y).note == "The time ended first."


def test_an_amount_that_cannot_vary_is_told() -> None:
    asked = three_foods(("energy_kcal", 1, None), ("protein_g", 71, 71))
    found = curve_of(pantry(asked), asked_for(asked, "energy_kcal"), asked_for(asked, "fat_share_percent"))
    assert found.note == "The amount is 1298, whatever is done."
