"""What a brief leaves out, and why; what stays in although nobody has spoken of it."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from reference_data import reference_folder
from solver.allergens import load_allergen_rules
from solver.catalogue import Catalogue
from solver.exclusions import Excluded, Exclusion, ExclusionKind, excluded, notes
from solver.foods import Food, Ingredient, Made
from solver.nutrients import NUTRIENTS
from solver.pantry import PantryItem

RULES = load_allergen_rules(reference_folder())
MILK = Exclusion(ExclusionKind.ALLERGEN, "milk")
MILK_IF_SAID = replace(MILK, unknown_allowed=True)
DAIRY = Exclusion(ExclusionKind.FOOD_GROUP, "Dairy and Egg Products")
PAPRIKA = Exclusion(ExclusionKind.FOOD, "paprika")


def label(name: str, *, contains: str = "", without: str = "") -> Food:
    values = np.full(len(NUTRIENTS), np.nan)
    stated, denied = frozenset(filter(None, [contains])), frozenset(filter(None, [without]))
    return Food("label:x", name, None, values, contains=stated, without=denied)


def dish(*foods: Food) -> Food:
    ingredients = tuple(Ingredient(food, 10.0, cooked=False) for food in foods)
    return replace(label("rub"), id="dish:x", made=Made({}, {}, ingredients))


@pytest.fixture
def larder(catalogue: Catalogue) -> dict[str, PantryItem]:
    ids = {"butter": "01001", "egg": "01123", "mince": "23572", "rub red": "02028", "sausage": "07036", "oil": "04053"}
    items = {name: PantryItem(name, catalogue.food(f"sr28:{number}")) for name, number in ids.items()}
    paprika, butter = catalogue.food("sr28:02028"), catalogue.food("sr28:01001")
    items["house rub"] = PantryItem("house rub", dish(paprika, catalogue.food("sr28:02047")))
    items["glaze"] = PantryItem("glaze", dish(catalogue.food("sr28:04053"), butter))
    items["farm loaf"] = PantryItem("farm loaf", label("farm loaf"))
    items["oat drink"] = PantryItem("oat drink", label("oat drink", without="milk"))
    return items


def why(items: dict[str, PantryItem], *exclusions: Exclusion) -> dict[str, str]:
    return {each.item: each.why for each in excluded(list(items.values()), exclusions, RULES)}


def test_an_allergen_leaves_out_what_contains_it_and_what_nobody_has_spoken_of(larder: dict[str, PantryItem]) -> None:
    assert why(larder, MILK) == {
        "butter": "contains milk",
        "sausage": "nobody has said whether it contains milk",
        "glaze": "contains milk, in its ingredient Butter, salted",
        "farm loaf": "nobody has said whether it contains milk",
    }


def test_what_is_unknown_stays_where_the_brief_allows_it_and_a_note_says_so(larder: dict[str, PantryItem]) -> None:
    assert list(why(larder, MILK_IF_SAID)) == ["butter", "glaze"]
    assert notes(list(larder.values()), [MILK_IF_SAID], RULES) == (
        "milk: nobody has said whether these contain it; the brief lets them stay: sausage, farm loaf.",
    )
    assert notes(list(larder.values()), [MILK], RULES) == ()


def test_egg_is_no_milk_though_it_is_of_the_same_food_group(larder: dict[str, PantryItem]) -> None:
    assert "egg" not in why(larder, MILK)
    assert why(larder, replace(DAIRY, name="dairy and egg products")) == {
        "butter": "is of the food group Dairy and Egg Products",
        "egg": "is of the food group Dairy and Egg Products",
        "glaze": "its ingredient Butter, salted is of the food group Dairy and Egg Products",
    }
    note = "Dairy and Egg Products is left out; a label has no food group, so these stay: farm loaf, oat drink."
    assert notes(list(larder.values()), [DAIRY], RULES) == (note,)


def test_a_named_food_is_left_out_by_name_description_ingredient_and_id(larder: dict[str, PantryItem]) -> None:
    larder["smoked paprika"] = PantryItem("smoked paprika", label("smoked paprika"))
    assert why(larder, PAPRIKA) == {
        "rub red": "is Spices, paprika, which has paprika in its name",
        "house rub": "its ingredient Spices, paprika has paprika in its name",
        "smoked paprika": "has paprika in its name",
    }
    assert list(why(larder, replace(PAPRIKA, name="sr28:02028"))) == ["rub red", "house rub"]


def test_a_named_food_matches_whole_words_in_any_order(larder: dict[str, PantryItem]) -> None:
    assert list(why(larder, replace(PAPRIKA, name="ground beef"))) == ["mince"]
    assert list(why(larder, replace(PAPRIKA, name="EGGS"))) == ["egg"]
    assert why(larder, replace(PAPRIKA, name="pap")) == {}
    assert why(larder, replace(PAPRIKA, name=" , ")) == {}


def test_what_may_hold_a_named_food_unseen_is_noted(larder: dict[str, PantryItem]) -> None:
    note = (
        "paprika is left out; what these are made of is not known, so they may hold it: sausage, farm loaf, oat drink."
    )
    assert notes(list(larder.values()), [PAPRIKA, PAPRIKA], RULES) == (note,)


def test_a_note_names_ten_items_and_counts_the_others() -> None:
    items = [PantryItem(f"tin {number}", label("tin")) for number in range(13)]
    assert notes(items, [PAPRIKA], RULES)[0].endswith("tin 8, tin 9 and 3 more.")


def test_the_cooks_own_name_for_a_food_may_add_an_allergen(catalogue: Catalogue) -> None:
    mince = PantryItem("mince with cheese", catalogue.food("sr28:23572"))
    assert why({"mince": mince}, MILK_IF_SAID) == {"mince with cheese": "contains milk"}


def test_an_item_is_left_out_once_for_the_first_reason(larder: dict[str, PantryItem]) -> None:
    found = excluded([larder["butter"]], [DAIRY, MILK], RULES)
    assert found == (Excluded("butter", DAIRY, "is of the food group Dairy and Egg Products"),)


def test_nothing_is_left_out_when_nothing_is_excluded(larder: dict[str, PantryItem]) -> None:
    assert excluded(list(larder.values()), [], RULES) == ()
    assert notes(list(larder.values()), [], RULES) == ()


@given(data=st.data())
def test_allowing_the_unknown_never_leaves_out_more_and_a_dish_never_less_than_what_is_in_it(
    data: st.DataObject, catalogue: Catalogue
) -> None:
    code = data.draw(st.sampled_from(list(RULES.allergens)))
    foods = [catalogue.food(food_id) for food_id in data.draw(st.lists(st.sampled_from(catalogue.ids), min_size=1))]
    asked = Exclusion(ExclusionKind.ALLERGEN, code)
    items = [PantryItem(str(number), food) for number, food in enumerate(foods)]
    strict, lenient = (excluded(items, [each], RULES) for each in (asked, replace(asked, unknown_allowed=True)))
    assert {each.item for each in lenient} <= {each.item for each in strict}
    of_dish = excluded([PantryItem("dish", dish(*foods))], [asked], RULES)
    assert bool(of_dish) == bool(strict)


def test_a_food_whose_name_holds_the_word_is_left_out_and_the_reason_says_so(larder: dict[str, PantryItem]) -> None:
    olives = Exclusion(ExclusionKind.FOOD, "olives")
    assert why(larder, olives)["oil"] == "is Oil, olive, salad or cooking, which has olives in its name"
    named = {"olive oil": replace(larder["oil"], name="olive oil"), "olives": replace(larder["egg"], name="olives")}
    assert why(named, olives) == {"olive oil": "has olives in its name", "olives": "is called olives"}
