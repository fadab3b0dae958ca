"""The smallest addition of one food: known by construction, equal to brute force, and confirmed elsewhere."""

from dataclasses import replace

import numpy as np
import pytest

from reference_data import reference_folder
from solver.addition_search import AdditionSearch
from solver.additions import MOST_ADDED_G, Addition, Offered, additions
from solver.backends import open_backend
from solver.backends.base import Limits, Status
from solver.brief import Brief, Preference
from solver.catalogue import Catalogue
from solver.deadline import Deadline
from solver.foods import Food
from solver.nearest_end import exactly_posed
from solver.outcome import Conflict, Plan
from solver.pantry import PantryItem, Step
from solver.practical import Eligible, Practical, load_practical, practical_foods
from solver.solve import solve
from tests.solver import larder
from tests.solver.random_briefs import random_brief

OIL = larder.macronutrients("oil", fat=100)
CREAM = larder.macronutrients("cream", protein=2, fat=36, carbohydrate=3)
LEAN = larder.macronutrients("lean", protein=25, fat=2)


def kinds(*foods: Food) -> tuple[Practical, ...]:
    return tuple(Practical(food, food.name) for food in foods)


def conflict_of(brief: Brief, backend: str = "highs") -> Conflict:
    outcome = solve(brief, open_backend(backend))
    assert isinstance(outcome, Conflict), outcome
    return outcome


def proposed(brief: Brief, *foods: Food, but: frozenset[str] = frozenset()) -> tuple[Addition, ...]:
    eligible = Eligible(kinds(*foods), lambda food: food.name not in but)
    return additions(conflict_of(brief), eligible, open_backend("highs"), Deadline.after(20))


def too_lean() -> Brief:
    """At least 30 g protein from lean meat, at least 60 % of the energy from fat."""
    asked = (larder.between("protein_g", 30.0, None), larder.between("fat_share_percent", 60.0, None))
    return larder.brief(larder.item(LEAN), targets=asked)


def test_the_least_oil_that_makes_a_lean_dish_rich_is_that_of_arithmetic() -> None:
    # 120 g of lean meat: 30 g protein, 120 kcal, and 2.4 g fat; 60 % fat want 180 kcal, 20 g of fat.
    first, *_ = proposed(too_lean(), OIL, larder.BREAD)
    assert first.food is OIL
    assert first.proven
    assert first.least_g == pytest.approx(20 - 2.4)
    assert first.least_g <= first.grams <= first.least_g + 0.6


def test_the_food_that_needs_the_fewest_grams_comes_first_and_what_cannot_help_not_at_all() -> None:
    found = proposed(too_lean(), CREAM, larder.BREAD, OIL, larder.PURE[0])
    assert [addition.food.name for addition in found] == ["oil", "cream"]
    # Cream c, lean m, g: 0.02 c + 0.25 m = 30; 9 (0.36 c + 0.02 m) = 1.5 * 4 (30 + 0.03 c).
    c = (180 - 9 * 0.02 * 120) / (9 * 0.36 - 9 * 0.02 * 0.08 - 6 * 0.03)
    assert found[1].least_g == pytest.approx(c)


def test_of_one_kind_one_is_proposed() -> None:
    fats = (Practical(OIL, "fat"), Practical(larder.PURE[1], "fat"), Practical(CREAM, "cream"))
    eligible = Eligible(fats, lambda _: True)
    found = additions(conflict_of(too_lean()), eligible, open_backend("highs"), Deadline.after(20))
    assert [addition.food.name for addition in found] == ["oil", "cream"]


def test_what_the_brief_excludes_is_not_proposed() -> None:
    assert [each.food.name for each in proposed(too_lean(), OIL, CREAM, but=frozenset({"oil"}))] == ["cream"]


def test_what_is_in_the_pantry_is_not_proposed_again() -> None:
    asked = too_lean()
    short = replace(asked, pantry=(*asked.pantry, PantryItem("oil", OIL, on_hand_g=5.0)))
    assert [each.food.name for each in proposed(short, OIL, CREAM)] == ["cream"]


def test_a_fat_that_only_goes_into_the_patties_may_be_added_at_the_table() -> None:
    mince = larder.into(larder.item(larder.macronutrients("mince", protein=18, fat=20)), larder.PATTIES)
    tallow = larder.into(PantryItem("oil", OIL, on_hand_g=500.0), larder.PATTIES)
    asked = (
        larder.between("protein_g", 30.0, None),
        larder.between("fat_share_percent", 80.0, None),
        larder.between("energy_kcal", None, 900.0),
    )
    found = proposed(larder.kitchen(mince, tallow, targets=asked, parts=(larder.PATTIES,)), OIL)
    assert [(each.food.name, each.component) for each in found] == [("oil", "at the table")]


def test_no_more_is_proposed_than_a_plate_takes() -> None:
    watery = larder.macronutrients("watery", fat=1)
    assert proposed(too_lean(), watery) == ()


def test_a_food_that_lacks_what_a_target_needs_is_not_proposed() -> None:
    unknown = larder.food("unknown", fat_g=100.0, protein_g=0.0)
    assert [each.food.name for each in proposed(too_lean(), unknown, OIL)] == ["oil"]


def test_where_no_food_can_help_none_is_proposed() -> None:
    asked = (
        larder.between("energy_kcal", None, 450.0),
        larder.between("fat_share_percent", 80.0, None),
        larder.between("protein_g", 35.0, None),
    )
    assert proposed(larder.brief(larder.item(LEAN), targets=asked), *larder.PURE, OIL, CREAM) == ()


def test_to_a_dish_that_is_cooked_it_is_added_at_the_table() -> None:
    # Mixed into the patties the fat would run out again.
    mince = larder.into(larder.item(larder.macronutrients("mince", protein=18, fat=20)), larder.PATTIES)
    asked = (larder.between("protein_g", 30.0, None), larder.between("fat_share_percent", 80.0, None))
    found = proposed(larder.kitchen(mince, targets=asked, parts=(larder.PATTIES,)), OIL)
    assert [each.component for each in found] == ["at the table"]
    added = next(each for each in found[0].plan.dish.quantities if each.item.food is OIL)
    assert added.placed.component == "at the table"


def test_a_component_that_is_not_cooked_takes_it() -> None:
    mince = larder.into(larder.item(larder.macronutrients("mince", protein=18, fat=20)), larder.PATTIES)
    asked = (larder.between("protein_g", 30.0, None), larder.between("fat_share_percent", 80.0, None))
    sauce = replace(larder.TABLE, name="sauce")
    found = proposed(larder.kitchen(mince, targets=asked, parts=(larder.PATTIES, sauce)), OIL)
    assert [each.component for each in found] == ["sauce"]


def test_the_cheapest_plan_is_not_sought_with_a_food_without_a_price() -> None:
    asked = too_lean()
    priced = replace(asked, pantry=(replace(asked.pantry[0], price_per_g=0.01),), prefer=(Preference.CHEAPEST,))
    assert proposed(priced, OIL)[0].plan.brief.prefer == (Preference.BALANCED,)


def test_with_steps_the_least_is_sought_in_whole_steps() -> None:
    # An egg holds 6 g protein: two give 12 g, three 18 g; 14 to 16 g need 2 g from the 25 g in 100 g of lean meat.
    egg = PantryItem("egg", larder.macronutrients("egg", protein=12, fat=10), step=Step(1, "large", 50.0))
    brief = larder.brief(egg, targets=(larder.between("protein_g", 14.0, 16.0),))
    first, *_ = proposed(brief, LEAN, OIL)
    assert first.food is LEAN
    assert first.least_g == pytest.approx(8.0, abs=0.1)


def test_without_time_nothing_is_proposed() -> None:
    eligible = Eligible(kinds(OIL), lambda _: True)
    assert additions(conflict_of(too_lean()), eligible, open_backend("highs"), Deadline.after(0)) == ()


@pytest.mark.parametrize("stepped", [False, True])
def test_the_first_of_sixty_foods_is_that_of_brute_force(catalogue: Catalogue, stepped: bool) -> None:  # noqa: FBT001
    compared = 0
    for seed in range(3, 600, 4):
        brief = random_brief(catalogue, seed, stepped=stepped)
        if not isinstance(solve(brief, open_backend("highs")), Conflict):
            continue
        foods = _some_foods(catalogue, seed, 12 if stepped else 60)
        best = min(_least_g(brief, each) for each in foods)
        search = _search(brief, foods)
        found = search.best(lambda _: True)
        search.close()
        if found is None:
            assert best == np.inf, seed
            continue
        assert found.proven
        # In whole steps the search stops within a thousandth of 100 g.
        assert found.least_g == pytest.approx(best, abs=0.11 if stepped else 1e-3, rel=1e-5), seed
        compared += 1
        if compared == (5 if stepped else 15):
            return
    raise AssertionError(compared)


def _some_foods(catalogue: Catalogue, seed: int, count: int) -> tuple[Practical, ...]:
    rng = np.random.default_rng(seed + 1_000_000)
    return kinds(*(catalogue.food(catalogue.ids[n]) for n in rng.choice(len(catalogue), count, replace=False)))


def _search(brief: Brief, foods: tuple[Practical, ...]) -> AdditionSearch:
    offered = Offered.of(brief, Eligible(foods, lambda _: True))
    return AdditionSearch(offered.brief, offered.names, open_backend("highs"), Deadline.after(20))


def _least_g(brief: Brief, food: Practical) -> float:
    """The least grams of one food, posed alone and solved by the referee."""
    offered = Offered.of(brief, Eligible((food,), lambda _: True))
    formulation = exactly_posed(offered.brief)
    column = [n for n, use in enumerate(formulation.layout.uses) if use.item.name in offered.names]
    if not column:
        return float(np.inf)
    cost = np.zeros(formulation.layout.width)
    cost[column] = 1.0
    session = open_backend("scipy-highs").open(formulation.program)
    session.set_cost(cost)
    raw = session.solve(Limits(Deadline.after(20), 1e-6))
    session.close()
    assert raw.status in {Status.OPTIMAL, Status.INFEASIBLE}
    return float(np.inf) if raw.objective is None else 100 * raw.objective


@pytest.mark.parametrize(
    ("base", "targets", "first"),
    [
        ("11250", (("protein_g", 25.0, None), ("sodium_mg", None, 300.0)), "Pork, ground, 96% lean / 4% fat"),
        ("11250", (("protein_g", 25.0, None), ("iron_mg", 3.5, None)), "Beef, round, top round steak"),
        ("15015", (("fat_share_percent", 70.0, None), ("saturated_fat_g", None, 6.0)), "Oil, olive"),
        ("15015", (("fat_share_percent", 70.0, None), ("polyunsaturated_fat_g", 8.0, None)), "Oil, sunflower"),
    ],
)
def test_what_is_proposed_first_is_plain(
    catalogue: Catalogue, base: str, targets: tuple[tuple[str, float | None, float | None], ...], first: str
) -> None:
    """To lettuce, or to cod: no veal, none of the leanest cuts of 318, no oil of flaxseed or almonds."""
    pantry = PantryItem("base", catalogue.food(f"sr28:{base}"), at_least_g=150.0, on_hand_g=200.0)
    conflict = conflict_of(larder.brief(pantry, targets=tuple(larder.between(*target) for target in targets)))
    practical = practical_foods(catalogue, load_practical(reference_folder() / "additions.csv"))
    found = additions(conflict, Eligible(practical, lambda _: True), open_backend("highs"), Deadline.after(20), 1)
    assert [way.food.name[: len(first)] for way in found] == [first]


def test_every_addition_to_a_random_conflict_is_practical_and_holds_on_another_backend(catalogue: Catalogue) -> None:
    highs, scipy, found = open_backend("highs"), open_backend("scipy-highs"), 0
    eligible = Eligible(
        practical_foods(catalogue, load_practical(reference_folder() / "additions.csv")), lambda _: True
    )
    for seed in range(3, 160, 4):
        brief = random_brief(catalogue, seed)
        outcome = solve(brief, highs)
        if not isinstance(outcome, Conflict):
            continue
        ways = additions(outcome, eligible, highs, Deadline.after(20))
        least = [way.least_g for way in ways]
        assert least == sorted(least)
        assert len({way.kind for way in ways}) == len(ways)
        for way in ways:
            assert way.least_g <= way.grams <= MOST_ADDED_G * brief.portions * 1.3
            assert isinstance(solve(way.plan.brief, scipy), Plan), (seed, way.food.name)
            found += 1
    assert found > 10
