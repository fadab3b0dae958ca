"""What a cook would add, and what nobody would (common practice, no source)."""

import pytest

from reference_data import reference_folder
from solver.catalogue import Catalogue
from solver.practical import Practical, PracticalRule, load_practical, practical_foods


@pytest.fixture(scope="module")
def rules() -> tuple[PracticalRule, ...]:
    return load_practical(reference_folder() / "additions.csv")


@pytest.fixture(scope="module")
def foods(catalogue: Catalogue, rules: tuple[PracticalRule, ...]) -> tuple[Practical, ...]:
    return practical_foods(catalogue, rules)


@pytest.mark.parametrize(
    "name",
    [
        "Oil, olive, salad or cooking",
        "Lard",
        "Butter, salted",
        "Cream, fluid, heavy whipping",
        "Cheese, cheddar",
        "Egg, whole, cooked, hard-boiled",
        "Beef, ground, 80% lean meat / 20% fat, patty, cooked, broiled",
        "Fish, salmon, sockeye, cooked, dry heat",
        "Avocados, raw, all commercial varieties",
        "Broccoli, cooked, boiled, drained, without salt",
        "Spinach, raw",
        "Salt, table",
    ],
)
def test_a_cook_would_add_it(foods: tuple[Practical, ...], name: str) -> None:
    assert name in {each.food.name for each in foods}


@pytest.mark.parametrize(
    "word",
    [
        *("babyfood", "dehydrated", "powder", "freeze", "hydrogenated", "industrial", "fast food"),
        *("breaded", "batter", "liver", "giblets", "variety meats", "enhanced", "with added solution", "substitute"),
        *("imitation", "sweetened", "candied", "pokeberry", "cassava", "mayonnaise", "margarine", "shortening"),
        *("veal", "oil, flaxseed", "oil, grapeseed", "oil, hazelnut", "lean only", "select", "imported", "pot roast"),
        *("dry roasted, with salt", ", blanched", "toasted", "stewed"),
    ],
)
def test_nobody_would_add_it(foods: tuple[Practical, ...], catalogue: Catalogue, word: str) -> None:
    assert any(word in name.casefold() for name in catalogue.names)
    assert not [each.food.name for each in foods if word in each.food.name.casefold()]


def test_no_dish_sauce_snack_sweet_drink_or_baby_food_is_among_them(foods: tuple[Practical, ...]) -> None:
    never = {"Baby Foods", "Fast Foods", "Meals, Entrees, and Side Dishes", "Soups, Sauces, and Gravies", "Sweets"}
    never |= {"Snacks", "Beverages", "Baked Products", "Breakfast Cereals", "Restaurant Foods"}
    assert not never & {each.food.group for each in foods}


def test_meat_fish_and_eggs_are_cooked_or_canned_since_they_are_eaten_as_they_are(foods: tuple[Practical, ...]) -> None:
    kinds = {"poultry", "beef", "pork", "lamb", "veal", "fish", "shellfish", "egg"}
    animal = [each.food.name for each in foods if each.kind in kinds]
    assert len(animal) > 60
    assert all("cooked" in name or "canned" in name for name in animal)
    assert not [name for name in animal if ", raw" in name]


def test_every_row_of_the_table_finds_a_food(catalogue: Catalogue, rules: tuple[PracticalRule, ...]) -> None:
    described = list(zip(catalogue.groups, catalogue.names, strict=True))
    idle = [rule.begins for rule in rules if not any(rule.fits(group, name) for group, name in described)]
    assert not idle


def test_each_food_is_there_once_and_the_first_of_every_kind_comes_first(foods: tuple[Practical, ...]) -> None:
    ids = [each.food.id for each in foods]
    assert len(ids) == len(set(ids))
    kinds = list(dict.fromkeys(each.kind for each in foods))
    assert [each.kind for each in foods[: len(kinds)]] == kinds
    assert foods[0].food.name == "Oil, olive, salad or cooking"


def test_a_beginning_is_whole_words() -> None:
    rule = PracticalRule("Fruits", "fruit", "apples", (), ("juice",))
    assert rule.fits("Fruits", "Apples, raw")
    assert not rule.fits("Fruits", "Applesauce")
    assert not rule.fits("Fruits", "Apples, juice")
    assert not rule.fits("Vegetables", "Apples, raw")
    assert not rule.fits("Fruits", "Apples, dehydrated")
