"""Ends of bands that press on a plan, and what one unit of them is."""

from dataclasses import replace

import pytest

from solver.brief import Preference
from solver.outcome import MemberKind
from solver.pantry import PantryItem
from solver.rules import Group, Rule
from solver.targets import Target
from solver.worth import Unsaid
from solver.worth_ends import FINEST, fitting
from tests.solver import larder
from tests.solver.worths import batch, cheapest, priced, pure, said, worths


def test_balance_is_measured_from_the_middles_that_were_asked_for() -> None:
    # By hand: 150 g protein are 600 kcal, a half-band of 50 above 550; a gram less is 4 / 50 of it. More room above
    # 600 kcal does not move the middle, and less leaves no room for the protein.
    asked = (larder.between("energy_kcal", 500.0, 600.0), larder.between("protein_g", 150.0, None))
    found = worths(larder.brief(*pure(), targets=asked))
    protein, energy = found["protein_g", "at_least"], found["energy_kcal", "at_most"]
    assert (protein.level, protein.unit, protein.by) == ("balanced", "g a portion", 1.0)
    assert protein.more == pytest.approx(-0.08)
    assert protein.less_reason is Unsaid.NO_PLAN
    assert (energy.more, energy.less_reason) == (0.0, Unsaid.NO_PLAN)
    assert set(found) == {("protein_g", "at_least"), ("energy_kcal", "at_most")}


def test_a_band_that_is_a_point_gets_no_middle_when_it_opens() -> None:
    asked = (larder.between("energy_kcal", 600.0, 600.0), larder.between("protein_g", 100.0, 140.0))
    found = worths(larder.brief(*pure(), targets=asked))
    assert {key: one.more for key, one in found.items()} == {
        ("energy_kcal", "at_least"): 0.0,
        ("energy_kcal", "at_most"): 0.0,
    }


def test_a_rule_that_binds_is_worth_what_its_group_costs() -> None:
    # By hand: 500 g of mince ask for 50 g of egg, a tenth; a hundredth more or less is 5 g of it.
    mince = replace(priced("mince", 0.5, protein_g=20.0), at_least_g=500.0)
    rule = Rule("binder", Group(frozenset({"egg"})), to=Group(frozenset({"mince"})), lower=0.1)
    asked = cheapest(mince, priced("egg", 1.0, protein_g=12.0), targets=(batch("protein_g", 50.0),))
    one = worths(replace(asked, rules=(rule,)))["binder", "at_least"]
    assert (one.kind, one.by, one.unit) == (MemberKind.RULE, 0.01, "g for each g")
    assert said(one) == pytest.approx((-0.05, 0.05))


@pytest.mark.parametrize(
    ("lower", "upper", "unit"),
    [(500.0, None, 1.0), (5.0, None, 1.0), (1.5, None, 0.1), (0.1, None, 0.01), (90, 91, 0.1)],
)
def test_a_unit_is_never_more_than_half_of_what_it_is_taken_from(
    lower: float, upper: float | None, unit: float
) -> None:
    protein = PantryItem("protein", larder.PURE[0], price_per_g=0.01)
    one = worths(cheapest(protein, targets=(batch("protein_g", lower, upper),)))["protein_g", "at_least"]
    assert one.by == pytest.approx(unit)
    assert said(one) == pytest.approx((-0.01 * unit, 0.01 * unit))


@pytest.mark.parametrize(
    ("of", "end", "by", "unit"),
    [("fat_share_percent", 75.0, 1.0, "percentage points"), ("ketogenic_ratio", 2.0, 0.1, "of the ratio")],
)
def test_shares_move_by_a_percentage_point_and_ratios_by_a_tenth(of: str, end: float, by: float, unit: str) -> None:
    asked = larder.brief(
        *pure(1.0, 4.0, 9.0), targets=(larder.between("energy_kcal", 400.0, None), Target(of, of, lower=end))
    )
    one = worths(replace(asked, prefer=(Preference.CHEAPEST,)))[of, "at_least"]
    assert (one.by, one.unit) == (by, unit)
    assert said(one) == pytest.approx([cost(of, end + move) - cost(of, end) for move in (-by, by)])


def cost(of: str, end: float) -> float:
    """400 kcal of protein at 0.01 and fat at 0.04 a gram, with just that share, or ratio, of fat."""
    share = end / 100 if of == "fat_share_percent" else 9 * end / (9 * end + 4)
    return 400 * (share / 9 * 0.04 + (1 - share) / 4 * 0.01)


def test_at_least_nothing_is_no_end() -> None:
    protein = PantryItem("protein", larder.PURE[0], price_per_g=0.01)
    targets = (batch("protein_g", 100.0), batch("fat_g", 0.0, 10.0))
    assert set(worths(cheapest(protein, targets=targets))) == {("protein_g", "at_least")}


@pytest.mark.parametrize(
    ("room", "unit"),
    [([], 1.0), ([0.0], 1.0), ([2.0], 1.0), ([1.9], 0.1), ([30.0, 0.19], 0.01), ([0.0, 0.0019], 1 / 10**FINEST)],
)
def test_a_unit_goes_twice_into_the_room_or_is_a_finer_one_and_naught_is_no_room(
    room: list[float], unit: float
) -> None:
    assert fitting(1.0, room) == unit
