"""Allergens: the two published lists, foods read by hand, and what holds over the whole food table."""

import re

import pytest

from reference_data import reference_folder
from solver.allergens import AllergenRules, Statement, allergens_of, load_allergen_rules
from solver.catalogue import Catalogue
from solver.foods import Food

RULES = load_allergen_rules(reference_folder())

#: FALCPA 2004 with the FASTER Act 2021, 21 USC 343(w); read in second-hand restatements.
US_NINE = {"milk", "egg", "fish", "crustaceans", "tree nuts", "wheat", "peanuts", "soybeans", "sesame"}

#: Regulation (EU) No 1169/2011, Annex II; read in second-hand transcriptions.
EU_FOURTEEN = {
    *("gluten cereals", "crustaceans", "egg", "fish", "peanuts", "soybeans", "milk", "tree nuts"),
    *("celery", "mustard", "sesame", "sulphites", "lupin", "molluscs"),
}

GLUTEN = {"wheat", "gluten cereals"}

#: Read by hand: a description of SR28, what it contains (common practice, no source), and why it stands here.
BY_HAND: tuple[tuple[str, set[str], str], ...] = (
    ("Butter, salted", {"milk"}, "butter is milk, and no egg, though of one food group with it"),
    ("Butter oil, anhydrous", {"milk"}, "ghee is milk"),
    ("Milk, buttermilk, fluid, cultured, lowfat", {"milk"}, "buttermilk is milk"),
    ("Cream, fluid, heavy whipping", {"milk"}, "cream is milk"),
    ("Egg, whole, raw, fresh", {"egg"}, "egg is no milk, though of one food group with it"),
    ("Eggnog", {"milk", "egg"}, "one word, two allergens"),
    ("Eggplant, raw", set(), "a vegetable"),
    ("Peanut butter, smooth style, with salt", {"peanuts"}, "no butter"),
    ("Nuts, almond butter, plain, with salt added", {"tree nuts"}, "no butter"),
    ("Oil, cocoa butter", set(), "no butter"),
    ("Nuts, coconut milk, canned (liquid expressed from grated meat and water)", set(), "no milk"),
    ("Beverages, almond milk, unsweetened, shelf stable", {"tree nuts"}, "no milk"),
    ("Beverages, rice milk, unsweetened", set(), "no milk"),
    ("Leavening agents, cream of tartar", set(), "no cream"),
    ("Squash, winter, butternut, raw", set(), "no butter and no nut"),
    ("Nuts, butternuts, dried", {"tree nuts"}, "a walnut, and no squash"),
    ("Squash, summer, scallop, raw", set(), "a shape, and no mollusc"),
    ("Squash, winter, spaghetti, raw", set(), "no wheat"),
    ("Mushrooms, oyster, raw", set(), "no oyster"),
    ("Liver cheese, pork", set(), "a sausage"),
    ("Soybean, curd cheese", {"soybeans"}, "tofu"),
    ("Salad dressing, mayonnaise, soybean oil, without salt", {"egg", "soybeans"}, "egg, though of the fats"),
    ("Soy sauce made from soy and wheat (shoyu)", {"soybeans", *GLUTEN}, "two allergens in a sauce"),
    ("Soy sauce made from soy (tamari)", {"soybeans"}, "soy alone"),
    ("Fish, surimi", {"fish"}, "what crab sticks are made of"),
    ("Crustaceans, crab, alaska king, imitation, made from surimi", {"fish"}, "crab in name only"),
    ("Mollusks, oyster, eastern, wild, raw", {"molluscs"}, "not among the US nine"),
    ("Buckwheat", set(), "no wheat"),
    ("Rye grain", {"gluten cereals"}, "gluten without wheat"),
    ("Semolina, enriched", GLUTEN, "wheat by another name"),
    ("Bread, gluten-free, white, made with rice flour, corn starch, and/or tapioca", set(), "no wheat on a claim"),
    ("Rice noodles, dry", set(), "no wheat"),
    ("Chicken, broilers or fryers, wing, meat and skin, cooked, fried, flour", GLUTEN, "coated"),
    ("Beef, New Zealand, imported, sweetbread, raw", set(), "no bread"),
    ("Spices, celery seed", {"celery"}, "a spice"),
    ("Mustard, prepared, yellow", {"mustard"}, "the EU fourteen alone"),
    ("Apricots, dried, sulfured, uncooked", {"sulphites"}, "said by its description"),
    ("Seeds, sesame butter, paste", {"sesame"}, "no butter"),
    ("Tofu, fried", {"soybeans"}, "soy"),
    ("Lupins, mature seeds, raw", {"lupin"}, "the EU fourteen alone"),
)

#: Whole words that are no milk where they stand, and that the table of words knows.
NO_MILK = re.compile(
    r"(peanut|almond|cashew|sunflower seed|sesame|cocoa|nutmeg|ucuhuba|hard) butter|bread and butter pickles"
    r"|butter replacement|butter flavor$|fruit butters|ice cream cones, "
    r"|(coconut|almond|rice) milk|without milk, dry|beverage mix for milk, powder, with added nutrients$"
    r"|liver cheese|curd cheese|mayonnaise, imitation, non-milk",
    re.IGNORECASE,
)

#: Food groups of what is made of several things.
COMPOSITE = {
    *("Baked Products", "Soups, Sauces, and Gravies", "Fast Foods", "Baby Foods", "Snacks", "Breakfast Cereals"),
    *("Meals, Entrees, and Side Dishes", "Sausages and Luncheon Meats"),
}


def contained(food: Food, rules: AllergenRules = RULES) -> set[str]:
    return {code for code, told in allergens_of(food, rules).items() if told is Statement.CONTAINS}


def named(name: str, catalogue: Catalogue) -> Food:
    return catalogue.food(catalogue.ids[catalogue.names.index(name)])


def test_the_us_list_has_nine_and_the_eu_list_fourteen() -> None:
    assert len(US_NINE) == 9
    assert len(EU_FOURTEEN) == 14
    assert {code for code, allergen in RULES.allergens.items() if allergen.us_nine} == US_NINE
    assert {code for code, allergen in RULES.allergens.items() if allergen.eu_fourteen} == EU_FOURTEEN
    assert set(RULES.allergens) == US_NINE | EU_FOURTEEN


def test_molluscs_are_on_the_eu_list_alone() -> None:
    assert RULES.allergens["molluscs"].eu_fourteen
    assert not RULES.allergens["molluscs"].us_nine


def test_sulphites_alone_have_a_threshold_and_it_is_strict() -> None:
    """Annex II, 12: more than 10 mg/kg or 10 mg/L as total SO2 (second hand)."""
    assert {code: a.above_mg_per_kg for code, a in RULES.allergens.items() if a.above_mg_per_kg} == {"sulphites": 10.0}
    assert "10 itself is not above" in RULES.allergens["sulphites"].note


@pytest.mark.parametrize(("name", "contains", "_why"), BY_HAND, ids=[name for name, _, _ in BY_HAND])
def test_a_food_contains_what_was_read_by_hand(name: str, contains: set[str], _why: str, catalogue: Catalogue) -> None:
    assert contained(named(name, catalogue)) == contains


@pytest.mark.parametrize(
    ("name", "code"),
    [
        ("Cream substitute, powdered", "milk"),  # caseinate, or none
        ("Nuts, coconut meat, raw", "tree nuts"),  # on the US list until January 2025
        ("Oats", "wheat"),  # grown and milled beside it
        ("Cheese, gouda", "egg"),  # lysozyme
        ("Fish, tuna, light, canned in water, drained solids", "soybeans"),  # broth of vegetables
        ("Pork, cured, bacon, unprepared", "mustard"),
        ("Spices, curry powder", "mustard"),
        ("Spices, chili powder", "wheat"),
        ("Egg, whole, cooked, scrambled", "milk"),
        ("Crustaceans, shrimp, raw (not previously frozen)", "sulphites"),
        ("Chicken, broilers or fryers, breast, skinless, boneless, meat only, with added solution, raw", "soybeans"),
        ("Turkey breast, pre-basted, meat and skin, cooked, roasted", "milk"),
        ("Alcoholic beverage, wine, table, red", "egg"),  # fining
        ("Nuts, almonds", "peanuts"),
        ("Tomatoes, red, ripe, cooked, stewed", "wheat"),  # a recipe with bread
        ("Tomatoes, red, ripe, canned, stewed", "celery"),
    ],
)
def test_what_nobody_has_said_is_unknown(name: str, code: str, catalogue: Catalogue) -> None:
    assert allergens_of(named(name, catalogue), RULES)[code] is Statement.UNKNOWN


@pytest.mark.parametrize("food_id", ["sr28:23572", "sr28:04053", "sr28:02047", "sr28:11090", "sr28:04002"])
def test_raw_mince_olive_oil_salt_broccoli_and_lard_are_none_by_nature(food_id: str, catalogue: Catalogue) -> None:
    assert set(allergens_of(catalogue.food(food_id), RULES).values()) == {Statement.NOT_BY_NATURE}


def test_every_food_that_names_butter_cheese_or_milk_contains_milk_unless_it_is_a_trap(catalogue: Catalogue) -> None:
    foods = [catalogue.food(food_id) for food_id in catalogue.ids]
    names = [food for food in foods if re.search(r"\b(butter|cheese|milk)\b", food.name, re.IGNORECASE)]
    missed = [food.name for food in names if "milk" not in contained(food)]
    assert len(names) > 400
    assert [name for name in missed if not NO_MILK.search(name)] == []


def test_what_is_made_of_several_things_is_never_free_by_nature(catalogue: Catalogue) -> None:
    groups = set()
    for food_id in catalogue.ids:
        food = catalogue.food(food_id)
        if food.group in COMPOSITE:
            groups.add(food.group)
            assert Statement.NOT_BY_NATURE not in allergens_of(food, RULES).values(), food.name
    assert groups == COMPOSITE


def test_a_food_that_contains_wheat_contains_a_cereal_with_gluten(catalogue: Catalogue) -> None:
    for food_id in catalogue.ids:
        found = contained(catalogue.food(food_id))
        assert "wheat" not in found or "gluten cereals" in found, catalogue.food(food_id).name


def test_every_fish_crustacean_and_mollusc_of_its_group_is_one(catalogue: Catalogue) -> None:
    begins = {"Fish": "fish", "Salmon": "fish", "Mollusks": "molluscs"}
    for food_id in catalogue.ids:
        food = catalogue.food(food_id)
        code = begins.get(food.name.split(",")[0])
        if food.group == "Finfish and Shellfish Products" and code and "imitation" not in food.name:
            assert contained(food) >= {code}, food.name


def test_only_two_words_go_outward() -> None:
    assert {told: told.outward for told in Statement} == {
        Statement.CONTAINS: "contains",
        Statement.UNKNOWN: "unknown",
        Statement.NOT_BY_NATURE: "unknown",
    }
