"""How far one end of a band has to move, against arithmetic by hand."""

import pytest

from solver.backends import open_backend
from solver.brief import Brief
from solver.deadline import Deadline
from solver.nearest_end import End, nearest_end
from solver.rules import Group, Rule
from solver.targets import Target
from tests.solver import larder

BACKENDS = ("highs", "scipy-highs", "pulp-cbc")


def nearest(brief: Brief, of: str, *, is_lower: bool, backend: str = "highs") -> float | None:
    bands: tuple[Target | Rule, ...] = (*brief.targets, *brief.rules)
    band = next(each for each in bands if each.id == of)
    return nearest_end(brief, End(band, is_lower), open_backend(backend), Deadline.after(10))


def too_rich(*, protein_g: float = 35.0, share: float = 80.0) -> Brief:
    """At most 450 kcal, at least 35 g protein and 80 % fat: the fourth brief of the trade."""
    asked = (
        larder.between("energy_kcal", 400.0, 450.0),
        larder.between("fat_share_percent", share, None),
        larder.between("protein_g", protein_g, None),
    )
    return larder.brief(*larder.pantry(*larder.PURE), targets=asked)


@pytest.mark.parametrize("backend", BACKENDS)
def test_each_end_of_three_that_clash_moves_as_far_as_arithmetic_says(backend: str) -> None:
    # 35 g protein are 140 kcal: (450 - 140) / 450 of fat; 140 / 0.2 = 700 kcal; 450 * 0.2 / 4 = 22.5 g.
    brief = too_rich()
    assert nearest(brief, "fat_share_percent", is_lower=True, backend=backend) == pytest.approx(100 * 310 / 450)
    assert nearest(brief, "energy_kcal", is_lower=False, backend=backend) == pytest.approx(700.0)
    assert nearest(brief, "protein_g", is_lower=True, backend=backend) == pytest.approx(22.5)


def test_an_end_that_the_conflict_does_not_need_moved_helps_nobody() -> None:
    assert nearest(too_rich(), "energy_kcal", is_lower=True) is None


def test_an_end_that_holds_already_is_found_further_in() -> None:
    # 20 g protein are 80 kcal, so up to (450 - 80) / 450 of fat can be had.
    found = nearest(too_rich(protein_g=20.0), "fat_share_percent", is_lower=True)
    assert found == pytest.approx(100 * 370 / 450)


def test_the_ketogenic_ratio_is_found_exactly() -> None:
    # 20 g protein leave 370 kcal, 41.11 g fat: 2.0556 g to 1 g.
    asked = (
        larder.between("energy_kcal", None, 450.0),
        larder.between("ketogenic_ratio", 4.0, None),
        larder.between("protein_g", 20.0, None),
    )
    brief = larder.brief(*larder.pantry(*larder.PURE), targets=asked)
    assert nearest(brief, "ketogenic_ratio", is_lower=True) == pytest.approx(370 / 9 / 20)


def test_amounts_per_portion_stay_per_portion() -> None:
    asked = (larder.between("energy_kcal", None, 400.0), larder.between("protein_g", 150.0, None))
    brief = larder.brief(*larder.pantry(larder.PURE[0]), targets=asked, portions=3)
    assert nearest(brief, "protein_g", is_lower=True) == pytest.approx(100.0)


def test_a_rule_between_groups_moves_as_far_as_the_amounts_say() -> None:
    # 30 g protein from chicken alone are 100 g; 20 g of butter at most: 0.2 g to 1 g.
    of, to = Group(frozenset({"butter"})), Group(frozenset({"chicken"}))
    rule = Rule("butter to chicken", of, to=to, lower=0.5)
    asked = (larder.between("protein_g", 30.0, None), larder.between("fat_g", None, 20.0))
    plain = larder.brief(larder.item(larder.BUTTER), larder.item(larder.CHICKEN), targets=asked)
    brief = Brief(plain.title, 1, plain.pantry, plain.targets, rules=(rule,), time_limit_s=10.0)
    # With chicken c and butter b, g: 0.3 c + 0.01 b = 30 and 0.04 c + 0.8 b = 20.
    butter = (20 - 0.04 * 100) / (0.8 - 0.04 / 30)
    chicken = (30 - 0.01 * butter) / 0.3
    assert nearest(brief, "butter to chicken", is_lower=True) == pytest.approx(butter / chicken)
