"""What stands in for what is left out, over random dishes and all allergens; each plan by another solver as well."""

from collections.abc import Callable
from dataclasses import replace

import numpy as np
import pytest

from reference_data import reference_folder
from solver.allergens import Statement, load_allergen_rules
from solver.backends import open_backend
from solver.brief import Brief, Preference
from solver.catalogue import Catalogue
from solver.closest import Base, BaseAmount
from solver.components import Placed
from solver.deadline import Deadline
from solver.exclusions import Exclusion, ExclusionKind, excluded, statement_of
from solver.foods import Food
from solver.outcome import Plan
from solver.pantry import PantryItem
from solver.practical import Eligible, Practical, load_practical, practical_foods
from solver.rework import ReworkAsked
from solver.rework_said import Said, Says
from solver.roles import role_of
from solver.solve import solve
from solver.substitutes import LEAST_PART, Search, Substitute
from solver.targets import Target
from solver.verify import verified

RULES = load_allergen_rules(reference_folder())
ALLERGENS = tuple(RULES.allergens)
DISH = "the dish"

#: USDA SR28: butter, salmon, cheddar, onion, tap water, table salt.
FOODS = ("01001", "15236", "01009", "11282", "14411", "02047")


@pytest.fixture(scope="module")
def practical(catalogue: Catalogue) -> tuple[Practical, ...]:
    return practical_foods(catalogue, load_practical(reference_folder() / "additions.csv"))


def allowed_without(allergens: tuple[str, ...]) -> Callable[[Food], bool]:
    """Whether nobody who leaves these out has to leave a food out: what is not known is left out."""
    exclusions = [Exclusion(ExclusionKind.ALLERGEN, allergen) for allergen in allergens]
    return lambda food: not excluded([PantryItem(food.name, food)], exclusions, RULES)


def random_dish(catalogue: Catalogue, seed: int) -> ReworkAsked:
    """Four to six foods, one of them left out, and a wide band of energy around what the dish had."""
    rng = np.random.default_rng(seed)
    chosen = rng.permutation(len(FOODS))[: int(rng.integers(4, len(FOODS) + 1))]
    foods = [catalogue.food(f"sr28:{FOODS[number]}") for number in sorted(chosen)]
    amounts = [round(float(rng.uniform(10, 150)), 1) for _ in foods]
    kcal = sum(grams * food.value("energy_kcal") / 100 for grams, food in zip(amounts, foods, strict=True))
    gone = foods[int(rng.integers(len(foods)))].name
    brief = Brief(
        "a dish",
        1,
        tuple(PantryItem(food.name, food) for food in foods),
        (Target("energy", "energy_kcal", lower=0.2 * kcal, upper=2 * kcal + 400),),
        prefer=(Preference.CLOSEST,),
        base=Base(tuple(BaseAmount(food.name, DISH, grams) for food, grams in zip(foods, amounts, strict=True))),
        time_limit_s=10.0,
        collagen_part=1.0,
    )
    return ReworkAsked(brief, (Said("without it", Says.LEAVE_OUT, frozenset({gone})),))


def proposals(asked: ReworkAsked, practical: tuple[Practical, ...], *allergens: str) -> tuple[Substitute, ...]:
    search = Search(asked, None, Eligible(practical, allowed_without(allergens)), lambda _, part: Placed(part.name))
    return search.found(open_backend("highs"), Deadline.after(20))


def of(catalogue: Catalogue, gone: str) -> ReworkAsked:
    """Butter, salmon and onion, one of them left out."""
    foods = [catalogue.food(f"sr28:{number}") for number in ("01001", "15236", "11282")]
    asked = random_dish(catalogue, 0)
    base = Base(tuple(BaseAmount(food.name, DISH, 40.0) for food in foods))
    pantry = tuple(PantryItem(food.name, food) for food in foods)
    brief = replace(asked.brief, pantry=pantry, base=base, targets=(Target("e", "energy_kcal", lower=1.0),))
    said = Said("without it", Says.LEAVE_OUT, frozenset({catalogue.food(gone).name}))
    return ReworkAsked(brief, (said,))


def test_butter_is_replaced_by_other_fat_and_without_milk_by_none_of_milk(
    catalogue: Catalogue, practical: tuple[Practical, ...]
) -> None:
    free, without = (proposals(of(catalogue, "sr28:01001"), practical, *out) for out in ((), ("milk",)))
    assert free
    assert without
    assert all(role_of(each.food) is each.role is role_of(catalogue.food("sr28:01001")) for each in (*free, *without))
    assert all(each.food.group != "Dairy and Egg Products" for each in without)


def test_at_least_half_of_the_weight_stands_in(catalogue: Catalogue, practical: tuple[Practical, ...]) -> None:
    for each in proposals(of(catalogue, "sr28:01001"), practical):
        used = sum(q.grams for q in each.plan.dish.quantities if q.item.name == each.food.name)
        assert used == each.grams >= LEAST_PART * 40.0 - 0.05


@pytest.mark.parametrize("allergen", ALLERGENS)
def test_no_proposal_contains_or_may_contain_an_excluded_allergen(
    catalogue: Catalogue, practical: tuple[Practical, ...], allergen: str
) -> None:
    for seed in range(4):
        for each in proposals(random_dish(catalogue, 100 * ALLERGENS.index(allergen) + seed), practical, allergen):
            told = statement_of(PantryItem(each.food.name, each.food), allergen, RULES)
            assert told is Statement.NOT_BY_NATURE


def test_every_proposal_is_verified_and_has_a_plan_by_another_solver(
    catalogue: Catalogue, practical: tuple[Practical, ...]
) -> None:
    """The plan's own brief, with each amount of the proposal held at what was said."""
    found = [each for seed in range(6) for each in proposals(random_dish(catalogue, seed), practical)]
    assert len(found) >= 6
    for each in found:
        assert verified(each.plan.dish) is each.plan.dish
        held = tuple(
            replace(item, at_least_g=each.grams, at_most_g=each.grams) if item.name == each.food.name else item
            for item in each.plan.brief.pantry
        )
        brief = replace(each.plan.brief, pantry=held, prefer=(Preference.BALANCED,), base=None)
        assert isinstance(solve(brief, open_backend("pulp-cbc")), Plan)
