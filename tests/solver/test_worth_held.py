"""A level of a changed brief with those above it held: by hand, and against solving the changed brief anew."""

from collections.abc import Iterator
from dataclasses import replace

import pytest

from reference_data import reference_folder
from solver.backends import open_backend
from solver.brief import Brief, Preference
from solver.catalogue import Catalogue
from solver.cooking_table import load_cooking_table
from solver.deadline import Deadline
from solver.levels import CHEAPEST_GAP
from solver.outcome import Checked, LevelProof, Plan
from solver.pantry import Step
from solver.quantities import QUANTITY
from solver.solve import solve
from solver.worth import Unsaid, Worth, worth
from solver.worth_ends import band_ends
from solver.worth_held import settled
from solver.worth_items import item_ends
from tests.solver import larder
from tests.solver.random_briefs import random_brief
from tests.solver.random_cooked_briefs import Larder, random_cooked_brief
from tests.solver.worths import every, planned, pure, said, worths


def test_giving_up_more_of_a_missed_wish_is_measured_with_its_miss_held() -> None:
    # By hand: 600 kcal hold 150 g of protein, 50 less than wished. A gram less wished saves a gram of protein; a gram
    # more, or a kcal less, makes the wish worse; a kcal more would only make it better.
    wish = replace(larder.between("protein_g", 200.0, None), priority=1)
    asked = larder.brief(*pure(2.0, 1.0, 1.0), targets=(larder.between("energy_kcal", 100.0, 600.0), wish))
    found = worths(replace(asked, prefer=(Preference.CHEAPEST,)))
    protein, energy = found["protein_g", "at_least"], found["energy_kcal", "at_most"]
    assert protein.more == pytest.approx(-0.02)
    assert energy.more == 0.0
    assert protein.less_reason is energy.less_reason is Unsaid.NOT_HELD


def test_a_second_preference_is_measured_with_the_first_one_held() -> None:
    # By hand: fat is the cheapest energy, so that 500 kcal are eaten, a half-band below the middle. A kcal less is
    # cheaper by a ninth of a gram of fat, but at the cost as it was the middle comes no nearer.
    asked = replace(
        larder.brief(*pure(1.0, 0.9, 1.0), targets=(larder.between("energy_kcal", 500.0, 600.0),)),
        prefer=(Preference.CHEAPEST, Preference.BALANCED),
    )
    cost, balance = every(asked)
    assert (cost.level, balance.level) == ("cheapest", "balanced")
    assert said(cost) == pytest.approx((-0.001, 0.001))
    assert balance.more == 0.0
    assert balance.less_reason is Unsaid.NOT_HELD


def test_wishes_of_a_stepped_brief_are_held_as_far_as_its_own_plan_held_them() -> None:
    # By hand: 600 kcal hold 150 g of protein, 50 less than wished, and then no fat. What a held wish leaves open to a
    # solver, a part in a million, is worth more to the next wish than that one's own part in a million.
    protein = replace(larder.between("protein_g", 200.0, None), priority=1)
    fat = replace(larder.between("fat_g", 5.0, None), priority=2)
    energy = larder.between("energy_kcal", 100.0, 600.0)
    first, second, third = pure(2.0, 1.0, 1.0)
    stepped = replace(third, step=Step(1, "piece", 10.0))
    asked = larder.brief(first, second, stepped, targets=(energy, protein, fat))
    found = worths(replace(asked, prefer=(Preference.CHEAPEST,)))
    assert found["protein_g", "at_least"].more == pytest.approx(-0.02, abs=1e-5)
    assert {one.less_reason for one in found.values()} == {Unsaid.NOT_HELD}


def test_the_middle_of_a_missed_wish_hides_no_other() -> None:
    # By hand: protein misses its wish by 50 g, six half-bands from the middle; energy is at the end of its band. With a
    # kcal more it may stay there, a half-band from its middle, and less of a miss is not what is measured.
    wish = replace(larder.between("protein_g", 200.0, 220.0), priority=1)
    found = worths(larder.brief(*pure(), targets=(larder.between("energy_kcal", 100.0, 600.0), wish)))
    assert found["energy_kcal", "at_most"].more == pytest.approx(0.0, abs=1e-6)


MINCE, LEAN = larder.macronutrients("mince", protein=15, fat=30), larder.macronutrients("lean", protein=22, fat=4)


def patties() -> Brief:
    """Linear rows alone would pretend that more fat runs out of the patties than does, to stay under the most of it."""
    items = (
        replace(larder.into(larder.item(MINCE), larder.PATTIES), price_per_g=0.004),
        replace(larder.into(larder.item(LEAN), larder.PATTIES), price_per_g=0.011),
    )
    targets = (larder.between("protein_g", 50.0, None), larder.between("fat_g", None, 26.0))
    asked = larder.kitchen(*items, targets=targets, parts=(larder.PATTIES, larder.TABLE))
    return replace(asked, prefer=(Preference.CHEAPEST,))


def test_mixes_are_posed_as_exactly_as_the_plan_needed() -> None:
    asked = patties()
    base = settled(asked, open_backend("highs"), Deadline.after(10))
    assert base.formulation.exact == {"patties"}
    agree_with_solving_anew(asked)


def agree_with_solving_anew(asked: Brief) -> int:
    """Each change is that of the bound which solving the changed brief proves; how many were compared."""
    plan = planned(asked)
    ends = [*band_ends(plan), *item_ends(plan)]
    found = worth(plan, open_backend("highs"), Deadline.after(30))
    compared = 0
    for end, one in zip(ends, found, strict=True):
        for change, brief in ((one.more, end.looser), (one.less, end.tighter)):
            outcome = None if brief is None else solve(brief, open_backend("highs"))
            if not isinstance(outcome, Plan):
                assert change is None
                continue
            assert change == pytest.approx(bound(outcome) - bound(plan), abs=tolerance(plan, outcome)), end.name
            compared += 1
    return compared


def cheapest_level(plan: Plan) -> LevelProof:
    return next(level for level in plan.proof.levels if level.level == "cheapest")


def bound(plan: Plan) -> float:
    found = cheapest_level(plan).bound
    assert found is not None
    return found


def tolerance(*plans: Plan) -> float:
    """Proofs of stepped briefs stop at a gap of their own."""
    certain = all(cheapest_level(plan).checked is Checked.CERTIFICATE for plan in plans)
    return 2e-6 if certain else 2 * CHEAPEST_GAP + 1e-4


@pytest.mark.parametrize("stepped", [False, True])
def test_random_briefs_agree_with_solving_the_changed_brief_anew(catalogue: Catalogue, *, stepped: bool) -> None:
    asked = (random_brief(catalogue, seed, stepped=stepped) for seed in range(24) if seed % 4 != 3)
    briefs = [replace(brief, prefer=(Preference.CHEAPEST,)) for brief in asked]
    possible = [brief for brief in briefs if isinstance(solve(brief, open_backend("highs")), Plan)]
    assert sum(agree_with_solving_anew(brief) for brief in possible) > 20


def test_random_cooked_briefs_agree_with_solving_the_changed_brief_anew(catalogue: Catalogue) -> None:
    stores = Larder(catalogue, load_cooking_table(reference_folder() / "cooking"))
    asked = (random_cooked_brief(stores, seed) for seed in range(16) if seed % 4 != 3)
    briefs = [replace(brief, prefer=(Preference.CHEAPEST,)) for brief in asked]
    musts = [brief for brief in briefs if all(target.priority is None for target in brief.targets)]
    possible = [brief for brief in musts if isinstance(solve(brief, open_backend("highs")), Plan)]
    assert sum(agree_with_solving_anew(brief) for brief in possible) > 20


def random_worths(catalogue: Catalogue, backend: str = "highs") -> Iterator[tuple[Brief, Worth]]:
    for seed in range(30):
        asked = random_brief(catalogue, seed)
        plan = solve(asked, open_backend("highs"))
        if isinstance(plan, Plan):
            yield from ((asked, one) for one in worth(plan, open_backend(backend), Deadline.after(30)))


def test_more_room_is_never_worse_and_less_never_better_and_worth_falls_with_room(catalogue: Catalogue) -> None:
    found = list(random_worths(catalogue))
    assert {one.level for _, one in found} == {"balanced", "cheapest"}
    for brief, one in found:
        assert one.more is None or one.more <= 0.0
        assert one.less is None or one.less >= 0.0
        target = next((target for target in brief.targets if target.id == one.name), None)
        is_amount = target is None or QUANTITY[target.of].denominator is None
        if is_amount and one.more is not None and one.less is not None:
            # The optimum of a linear programme is convex in its right-hand sides; a ratio's end is a coefficient.
            assert one.less + one.more >= -1e-7


@pytest.mark.parametrize("backend", ["scipy-highs", "pulp-cbc"])
def test_the_referees_find_the_same(catalogue: Catalogue, backend: str) -> None:
    ours, theirs = list(random_worths(catalogue)), list(random_worths(catalogue, backend))
    for (_, one), (_, other) in zip(ours, theirs, strict=True):
        assert (one.name, one.end, one.more_reason) == (other.name, other.end, other.more_reason)
        assert (one.more or 0.0, one.less or 0.0) == pytest.approx((other.more or 0.0, other.less or 0.0), abs=2e-6)
