"""Conflicts of cooked briefs: the stock of an item that may go into two components, and irreducible sets."""

from dataclasses import replace

import pytest

from reference_data import reference_folder
from solver.backends import open_backend
from solver.brief import Brief
from solver.catalogue import Catalogue
from solver.components import Drippings
from solver.cooking_table import load_cooking_table
from solver.outcome import Conflict, MemberKind, Plan, Undecided
from solver.pantry import PantryItem, Step
from solver.solve import solve
from tests.solver.kept import kept
from tests.solver.larder import PATTIES, TABLE, between, into, item, kitchen, macronutrients
from tests.solver.random_cooked_briefs import Larder, random_cooked_brief

MINCE, TALLOW = macronutrients("mince", protein=20, fat=20), macronutrients("tallow", fat=100)

Named = set[tuple[MemberKind, str | None]]


def conflict(brief: Brief, backend: str = "highs") -> Conflict:
    outcome = solve(brief, open_backend(backend))
    assert isinstance(outcome, Conflict), outcome
    assert outcome.irreducible
    return outcome


def named(found: Conflict) -> Named:
    return {(member.kind, member.name) for member in found.members}


def assert_irreducible(brief: Brief, found: Conflict) -> None:
    """By solving again: the members alone have no plan, and without any one of them there is one."""
    highs = open_backend("highs")
    assert isinstance(solve(kept(brief, found.members), highs), Conflict)
    for member in found.members:
        rest = tuple(other for other in found.members if other != member)
        assert isinstance(solve(kept(brief, rest), highs), Plan), member


def short_of_tallow(tallow: PantryItem) -> Brief:
    mince = replace(into(item(MINCE), PATTIES), on_hand_g=5000.0)
    targets = (between("protein_g", None, 30.0), between("fat_g", 60.0, None))
    return kitchen(mince, into(tallow, PATTIES, TABLE), targets=targets, parts=(PATTIES, TABLE))


@pytest.mark.parametrize("backend", ["highs", "scipy-highs", "pulp-cbc"])
def test_what_is_on_hand_of_an_item_in_two_components_is_named_once(backend: str) -> None:
    # 30 g protein are 150 g mince, which keep at most 18 g; with 20 g of tallow that is no 60 g.
    brief = short_of_tallow(replace(item(TALLOW), on_hand_g=20.0))
    found = conflict(brief, backend)
    assert named(found) == {
        (MemberKind.ON_HAND, "tallow"),
        (MemberKind.TARGET, "protein_g"),
        (MemberKind.TARGET, "fat_g"),
    }
    assert_irreducible(brief, found)


def test_the_stock_of_both_places_together_is_the_limit() -> None:
    # 42 g at the table would do, so 42 g in all do, and 41 g do not, though there are two places for them.
    for on_hand_g, outcome in ((42.1, Plan), (41.0, Conflict)):
        brief = short_of_tallow(replace(item(TALLOW), on_hand_g=on_hand_g))
        assert type(solve(brief, open_backend("highs"))) is outcome


def test_a_least_amount_of_an_item_in_two_components_is_named() -> None:
    # In the patties most of it would run out, so it is the fat that cannot be had less of: 100 g go in somewhere.
    tallow = replace(into(replace(item(TALLOW), at_least_g=100.0), TABLE, PATTIES), on_hand_g=200.0)
    brief = kitchen(
        tallow,
        targets=(between("fat_g", None, 50.0), between("energy_kcal", 1.0, None)),
        parts=(replace(PATTIES, drippings=Drippings.SERVED), TABLE),
    )
    found = conflict(brief)
    assert named(found) == {(MemberKind.LEAST_AMOUNT, "tallow"), (MemberKind.TARGET, "fat_g")}
    assert_irreducible(brief, found)


def test_steps_of_an_item_in_two_components_are_the_reason_where_they_are() -> None:
    tallow = replace(into(item(TALLOW), TABLE, PATTIES), step=Step(1, "lump", 50.0))
    served = replace(PATTIES, drippings=Drippings.SERVED)
    brief = kitchen(tallow, targets=(between("fat_g", 60.0, 90.0),), parts=(served, TABLE))
    found = conflict(brief)
    assert named(found) == {(MemberKind.STEPS, None), (MemberKind.TARGET, "fat_g")}


def test_a_least_amount_when_used_is_of_both_places_together() -> None:
    tallow = replace(into(item(TALLOW), TABLE, PATTIES), least_when_used_g=80.0)
    brief = kitchen(
        tallow,
        into(item(MINCE), TABLE),
        targets=(between("fat_g", 30.0, 60.0), between("protein_g", None, 1.0)),
        parts=(replace(PATTIES, drippings=Drippings.SERVED), TABLE),
    )
    assert (MemberKind.STEPS, None) in named(conflict(brief))


def test_dropping_any_one_member_of_a_random_cooked_conflict_makes_the_rest_possible(catalogue: Catalogue) -> None:
    highs, checked = open_backend("highs"), 0
    larder = Larder(catalogue, load_cooking_table(reference_folder() / "cooking"))
    for seed in range(3, 120, 4):
        brief = random_cooked_brief(larder, seed, stepped=seed % 8 == 3)
        outcome = solve(brief, highs)
        if isinstance(outcome, Conflict):
            assert isinstance(solve(kept(brief, outcome.members), highs), Conflict), seed
            for member in outcome.members:
                rest = tuple(other for other in outcome.members if other != member)
                without = solve(kept(brief, rest), highs)
                # Where fats differ in what is asked for, the rest may be possible by one of them and not be found.
                assert isinstance(without, Plan if outcome.irreducible else Plan | Undecided), (seed, member)
                checked += outcome.irreducible
    assert checked > 20
