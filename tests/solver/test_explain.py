"""Conflicts whose reason is known by construction, with their proof and their nearest plan."""

import pytest

from solver.backends import open_backend
from solver.brief import Brief
from solver.catalogue import Catalogue
from solver.outcome import Checked, Conflict, MemberKind, Undecided
from solver.pantry import PantryItem, Step
from solver.solve import solve
from tests.solver import larder
from tests.solver.kept import kept
from tests.solver.random_briefs import random_brief

BACKENDS = ("highs", "scipy-highs", "pulp-cbc")


def conflict(brief: Brief, backend: str = "highs") -> Conflict:
    outcome = solve(brief, open_backend(backend))
    assert isinstance(outcome, Conflict), outcome
    return outcome


def members(brief: Brief, backend: str = "highs") -> set[tuple[MemberKind, str | None]]:
    found = conflict(brief, backend)
    assert found.irreducible
    return {(member.kind, member.name) for member in found.members}


def target(name: str) -> tuple[MemberKind, str | None]:
    return MemberKind.TARGET, name


@pytest.mark.parametrize("backend", BACKENDS)
def test_too_much_protein_and_fat_for_the_energy_is_a_conflict_of_just_these_three(backend: str) -> None:
    # Arithmetic: at 450 kcal, 35 g protein leave (450 - 140) / 450 = 68.9 % for fat, whatever is eaten.
    pure = larder.pantry(*larder.PURE)
    asked = (
        larder.between("energy_kcal", 445.0, 450.0),
        larder.between("fat_share_percent", 80.0, None),
        larder.between("protein_g", 35.0, None),
        larder.between("total_carbohydrate_g", None, 20.0),
    )
    found = conflict(larder.brief(*pure, targets=asked), backend)
    assert members(larder.brief(*pure, targets=asked), backend) == {
        target("energy_kcal"),
        target("fat_share_percent"),
        target("protein_g"),
    }
    assert found.checked is Checked.CERTIFICATE


def test_the_nearest_plan_keeps_what_can_be_kept_and_says_what_it_misses() -> None:
    asked = (larder.between("energy_kcal", 445.0, 450.0), larder.between("protein_g", 200.0, None))
    nearest = conflict(larder.brief(*larder.pantry(*larder.PURE), targets=asked)).nearest
    assert nearest is not None
    energy, protein = nearest.targets
    assert energy.met
    # 450 kcal of protein are 112.5 g; the miss is what is left to 200 g, to the 0.1 g that is printed.
    assert protein.miss == pytest.approx(87.5, abs=0.1)


@pytest.mark.parametrize("backend", BACKENDS)
def test_the_one_short_stock_is_named_among_many(backend: str) -> None:
    short = PantryItem("chicken", larder.CHICKEN, on_hand_g=50.0)
    others = [PantryItem(f"butter {n}", larder.BUTTER, on_hand_g=1000.0) for n in range(12)]
    asked = (larder.between("protein_g", 30.0, None), larder.between("fat_g", None, 20.0))
    found = members(larder.brief(short, *others, targets=asked), backend)
    assert found == {(MemberKind.ON_HAND, "chicken"), target("protein_g"), target("fat_g")}


@pytest.mark.parametrize("backend", BACKENDS)
def test_steps_are_the_reason_where_the_relaxed_brief_has_a_plan(backend: str) -> None:
    # An egg of 50 g holds 6 g: 6 or 12 g protein can be had, 9 g cannot.
    egg = PantryItem("egg", larder.macronutrients("egg", protein=12, fat=10), step=Step(1, "large", 50.0))
    brief = larder.brief(egg, targets=(larder.between("protein_g", 8.0, 10.0),))
    assert members(brief, backend) == {(MemberKind.STEPS, None), target("protein_g")}
    assert conflict(brief, backend).checked is Checked.CLAIM


def test_a_least_amount_when_used_counts_as_a_step() -> None:
    chicken = PantryItem("chicken", larder.CHICKEN, least_when_used_g=100.0)
    brief = larder.brief(chicken, targets=(larder.between("protein_g", 10.0, 20.0),))
    assert members(brief) == {(MemberKind.STEPS, None), target("protein_g")}


def test_an_amount_that_must_be_used_is_named() -> None:
    chicken = PantryItem("chicken", larder.CHICKEN, at_least_g=200.0)
    brief = larder.brief(chicken, targets=(larder.between("protein_g", None, 20.0),))
    assert members(brief) == {(MemberKind.LEAST_AMOUNT, "chicken"), target("protein_g")}


def test_a_limit_that_the_brief_sets_is_told_from_what_is_on_hand() -> None:
    chicken = PantryItem("chicken", larder.CHICKEN, on_hand_g=900.0, at_most_g=50.0)
    brief = larder.brief(chicken, targets=(larder.between("protein_g", 30.0, None),))
    assert members(brief) == {(MemberKind.MOST_AMOUNT, "chicken"), target("protein_g")}


def test_a_band_narrower_than_a_scale_can_show_names_the_printing() -> None:
    brief = larder.brief(*larder.pantry(larder.PURE[0]), targets=(larder.between("protein_g", 10.04, 10.06),))
    assert members(brief) == {(MemberKind.PRINTING, None), target("protein_g")}


def test_dropping_any_one_member_of_a_random_conflict_makes_the_rest_possible(catalogue: Catalogue) -> None:
    highs, checked = open_backend("highs"), 0
    for seed in range(3, 240, 4):
        brief = random_brief(catalogue, seed, stepped=seed % 8 == 3)
        outcome = solve(brief, highs)
        if isinstance(outcome, Conflict):
            assert outcome.irreducible
            only = kept(brief, outcome.members)
            assert isinstance(solve(only, highs), Conflict), seed
            for member in outcome.members:
                rest = tuple(other for other in outcome.members if other != member)
                assert not isinstance(solve(kept(brief, rest), highs), Conflict | Undecided), (seed, member)
                checked += 1
    assert checked > 60
