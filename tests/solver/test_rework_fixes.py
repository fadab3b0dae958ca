"""What mends a dish, by the table of fixes: in the order in which a cook tries it (common practice, no source)."""

from dataclasses import replace

import pytest

from reference_data import reference_folder
from solver.backends import open_backend
from solver.brief import Brief
from solver.catalogue import Catalogue
from solver.closest import Base, BaseAmount
from solver.components import Component, Drippings, Placed
from solver.cooking_table import load_cooking_table
from solver.outcome import Conflict, Plan
from solver.pantry import PantryItem
from solver.rework import ReworkAsked, Reworked, rework
from solver.rework_changes import Because
from solver.rework_fixes import Fix, fixes_of, load_fixes
from solver.rework_places import is_emulsion
from solver.rework_roles import roles_of
from solver.rework_said import Said, Says
from solver.targets import Target

TABLE = load_fixes(reference_folder() / "rework_fixes.csv")
DISH = "the dish"

#: Numbers in USDA SR28.
FOODS = {
    "oil": "04053",
    "butter": "01001",
    "yolk": "01125",
    "lemon juice": "09152",
    "mustard": "02046",
    "salt": "02047",
    "soy sauce": "16123",
    "cream": "01053",
    "egg": "01123",
    "parmesan": "01033",
    "cheddar": "01009",
    "cream cheese": "01017",
    "bacon": "10123",
    "lettuce": "11251",
    "mince": "23572",
}


@pytest.fixture(scope="module")
def kitchen(catalogue: Catalogue) -> dict[str, PantryItem]:
    return {name: PantryItem(name, catalogue.food(f"sr28:{number}")) for name, number in FOODS.items()}


def dish(kitchen: dict[str, PantryItem], amounts: dict[str, float]) -> Brief:
    base = Base(tuple(BaseAmount(name, DISH, grams) for name, grams in amounts.items()))
    target = Target("energy", "energy_kcal", lower=50.0)
    pantry = tuple(kitchen[name] for name in amounts)
    return Brief("a dish", 1, pantry, (target,), base=base, time_limit_s=10.0)


def fixes(brief: Brief, reason: str) -> tuple[Fix, ...]:
    assert brief.base is not None
    return fixes_of(TABLE[reason], brief, brief.base, roles_of)


def mended(brief: Brief, reason: str) -> Reworked:
    return rework(ReworkAsked(brief, fixes=fixes(brief, reason)), open_backend("highs"))


def after(done: Reworked) -> dict[str, float]:
    assert isinstance(done.outcome, Plan), done.outcome
    return {each.item.name: each.grams for each in done.outcome.dish.quantities}


MAYONNAISE = {"oil": 200.0, "yolk": 17.0, "lemon juice": 15.0, "mustard": 5.0, "salt": 2.0}
CUSTARD = {"cream": 300.0, "egg": 150.0, "parmesan": 40.0, "salt": 3.0}


def test_an_emulsion_that_is_too_stiff_is_thinned_and_gets_no_oil(kitchen: dict[str, PantryItem]) -> None:
    """By hand: a fifth more than 15 g of lemon juice is 18 g."""
    assert after(mended(dish(kitchen, MAYONNAISE), "dry")) == {**MAYONNAISE, "lemon juice": 18.0}


def test_what_is_no_emulsion_gets_oil(kitchen: dict[str, PantryItem]) -> None:
    """By hand: of 30 g of oil a fifth more is 36 g."""
    salad = {"lettuce": 200.0, "oil": 30.0}
    assert after(mended(dish(kitchen, salad), "dry")) == {"lettuce": 200.0, "oil": 36.0}


def test_an_emulsion_that_is_greasy_loses_oil(kitchen: dict[str, PantryItem]) -> None:
    assert after(mended(dish(kitchen, MAYONNAISE), "greasy")) == {**MAYONNAISE, "oil": 160.0}


@pytest.mark.parametrize(
    ("amounts", "expected"),
    [
        ({"oil": 50.0, "lettuce": 49.0}, True),
        ({"oil": 50.0, "lettuce": 51.0}, False),
        ({"butter": 60.0, "cream": 40.0}, True),
        ({"cream": 100.0}, False),
    ],
)
def test_half_of_it_fat_is_an_emulsion(
    kitchen: dict[str, PantryItem],
    amounts: dict[str, float],
    expected: bool,  # noqa: FBT001
) -> None:
    brief = dish(kitchen, amounts)
    assert brief.base is not None
    assert is_emulsion(brief.parts[0], brief, brief.base) is expected


LOAF = next(each for each in load_cooking_table(reference_folder() / "cooking").curves if each.mix == "baked loaf")


def cooked(
    kitchen: dict[str, PantryItem], amounts: dict[str, dict[str, float]], parts: tuple[Component, ...], portions: int
) -> Brief:
    """A dish of components. amounts: component to item to grams."""
    uses = [(name, part, grams) for part, inside in amounts.items() for name, grams in inside.items()]
    base = Base(tuple(BaseAmount(*use) for use in uses))
    places: dict[str, tuple[Placed, ...]] = {}
    for name, part, _ in uses:
        places[name] = (*places.get(name, ()), Placed(part))
    pantry = tuple(replace(kitchen[name], placed=placed) for name, placed in places.items())
    target = Target("energy", "energy_kcal", lower=50.0)
    return Brief("a dish", portions, pantry, (target,), components=parts, base=base, time_limit_s=10.0)


def test_a_dry_mix_gets_what_can_be_tasted_and_no_drop(kitchen: dict[str, PantryItem]) -> None:
    """By hand: a fifth of 30 g of cream is 6 g in a kilogram for four; 5 g for each of them are 20 g."""
    brief = cooked(kitchen, {"loaf": {"mince": 900.0, "cream": 30.0}}, (Component("loaf", LOAF.mix, curve=LOAF),), 4)
    assert after(mended(brief, "dry")) == {"mince": 900.0, "cream": 50.0}


def test_a_cook_looks_into_the_mix_then_the_pan_then_the_sauce(kitchen: dict[str, PantryItem]) -> None:
    loaf = Component("loaf", LOAF.mix, Drippings.SPOONED_BACK, curve=LOAF)
    amounts = {"loaf": {"mince": 900.0, "cream": 60.0}, "table": {"butter": 40.0}}
    brief = cooked(kitchen, amounts, (loaf, Component("table")), 4)
    assert [fix.row.where for fix in fixes(brief, "dry")] == ["mix", "pan", "sauce"]


def test_a_stew_without_a_sauce_is_mended_in_its_pot(kitchen: dict[str, PantryItem]) -> None:
    """By hand: a fifth less of 40 g of butter; a fifth of 4 g of salt is less than half a gram for each of two."""
    stew = {"mince": 600.0, "butter": 40.0, "salt": 4.0, "cream": 100.0}
    brief = cooked(kitchen, {"pot": stew}, (Component("pot", "braised"),), 2)
    assert after(mended(brief, "greasy")) == {**stew, "butter": 32.0}
    assert after(mended(brief, "bland")) == {**stew, "salt": 5.0}
    assert [fix.row.where for fix in fixes(brief, "dry")] == ["cooked"]


def test_only_what_the_fix_changes_mends_and_the_rest_is_needed(kitchen: dict[str, PantryItem]) -> None:
    """More energy takes more butter, and it is bland; the butter has no part in that."""
    stew = {"mince": 300.0, "butter": 40.0, "salt": 4.0}
    brief = cooked(kitchen, {"pot": stew}, (Component("pot", "braised"),), 1)
    keep = Said("keep", Says.KEEP, frozenset({"mince"}))
    hungry = replace(brief, targets=(Target("energy", "energy_kcal", lower=1200.0),))
    done = rework(ReworkAsked(hungry, (keep,), fixes(hungry, "bland")), open_backend("highs"))
    assert after(done)["butter"] > 40.0
    assert {change.use[0]: {why.because for why in change.why} for change in done.changes} == {
        "butter": {Because.NEEDED},
        "salt": {Because.REASON},
    }


def test_what_is_cooked_in_pieces_is_mended_beside_where_there_is_something(kitchen: dict[str, PantryItem]) -> None:
    amounts = {"pot": {"mince": 600.0, "butter": 40.0}, "table": {"cream": 50.0}}
    found = fixes(cooked(kitchen, amounts, (Component("pot", "braised"), Component("table")), 2), "dry")
    assert [(fix.row.where, fix.component) for fix in found] == [("sauce", "table"), ("cooked", "pot")]


def test_where_no_fix_leads_to_a_dish_the_conflict_is_that_of_the_first(kitchen: dict[str, PantryItem]) -> None:
    brief = dish(kitchen, {"lettuce": 200.0, "cream": 60.0, "butter": 50.0})
    keep = tuple(Said(f"keep {name}", Says.KEEP, frozenset({name})) for name in ("lettuce", "cream", "butter"))
    found = fixes(brief, "greasy")
    done = rework(ReworkAsked(brief, keep, found), open_backend("highs"))
    assert isinstance(done.outcome, Conflict)
    assert len(found) > 1
    assert done.fix == found[0]


def test_beside_what_is_cooked_there_is_more_of_an_emulsion_and_it_holds(kitchen: dict[str, PantryItem]) -> None:
    """By hand: a fifth more of 60 g of butter and of 15 g of lemon juice; the yolk carries that."""
    sauce = {"butter": 60.0, "yolk": 17.0, "lemon juice": 15.0}
    parts = (Component("roast", "roasted"), Component("sauce"))
    brief = cooked(kitchen, {"roast": {"bacon": 300.0}, "sauce": sauce}, parts, 2)
    assert after(mended(brief, "dry")) == {"bacon": 300.0, **sauce, "butter": 72.0, "lemon juice": 18.0}
    herb_butter = cooked(kitchen, {"roast": {"bacon": 300.0}, "sauce": {"butter": 60.0}}, parts, 2)
    assert after(mended(herb_butter, "dry")) == {"bacon": 300.0, "butter": 72.0}


def test_bland_gets_half_a_gram_a_portion_at_least(kitchen: dict[str, PantryItem]) -> None:
    """By hand: a fifth of 2 g of salt is 0.4 g for four; half a gram for each of them is 2 g."""
    brief = replace(dish(kitchen, {"cream": 600.0, "egg": 200.0, "salt": 2.0}), portions=4)
    assert after(mended(brief, "bland"))["salt"] == pytest.approx(4.0)


def test_greasy_takes_what_is_rich_before_a_trifle_of_fat(kitchen: dict[str, PantryItem]) -> None:
    """By hand: a fifth of 20 g of butter in 720 g is 4 g, less than a hundredth of it; of 50 g it is more."""
    amounts = {"lettuce": 500.0, "cream": 200.0}
    assert fixes(dish(kitchen, {**amounts, "butter": 20.0}), "greasy")[0].row.of == "rich"
    assert fixes(dish(kitchen, {**amounts, "butter": 50.0}), "greasy")[0].row.of == "fat"


def test_the_share_of_salt_that_is_left_can_be_read(kitchen: dict[str, PantryItem]) -> None:
    (share,) = fixes(dish(kitchen, CUSTARD), "salty")[-1].rules
    assert share.upper == round(share.upper or 0.0, 5) > 0


def test_salty_takes_the_salt_first_even_where_more_cream_would_be_nearer(kitchen: dict[str, PantryItem]) -> None:
    """The share of salt of all sources falls by a fifth, and only the salt changes."""
    brief = dish(kitchen, CUSTARD)
    found = after(mended(brief, "salty"))
    assert {name: grams for name, grams in found.items() if name != "salt"} == {
        name: grams for name, grams in CUSTARD.items() if name != "salt"
    }
    sodium = {name: kitchen[name].food.value("sodium_mg") for name in CUSTARD}
    was, now = (
        sum(grams * sodium[name] for name, grams in amounts.items()) / sum(amounts.values())
        for amounts in (CUSTARD, found)
    )
    assert 0.78 * was <= now <= 0.8 * was


def test_where_the_salt_is_not_enough_all_of_it_goes_and_then_something_else(kitchen: dict[str, PantryItem]) -> None:
    """By hand: of the 5.1 g in it half a gram is salt itself, and a fifth of 5.1 g is more than that."""
    bake = {"cheddar": 200.0, "cream cheese": 150.0, "egg": 100.0, "salt": 0.5}
    found = after(mended(dish(kitchen, bake), "salty"))
    assert "salt" not in found
    assert found["cheddar"] < 200.0
    assert found["cream cheese"] >= 150.0


def test_soy_sauce_counts_as_the_salt_that_goes_in(kitchen: dict[str, PantryItem]) -> None:
    found = after(mended(dish(kitchen, {"lettuce": 200.0, "oil": 30.0, "soy sauce": 20.0}), "salty"))
    assert found["soy sauce"] < 16.5
    assert (found["lettuce"], found["oil"]) == (200.0, 30.0)


@pytest.mark.parametrize(
    ("amounts", "less"),
    [
        (CUSTARD, {"cream", "parmesan"}),
        ({"mince": 500.0, "bacon": 100.0, "cheddar": 50.0}, {"bacon", "cheddar"}),
        ({"cream": 100.0, "butter": 30.0, "lettuce": 100.0}, {"butter"}),
    ],
)
def test_greasy_takes_what_is_rich_where_there_is_no_pure_fat(
    kitchen: dict[str, PantryItem], amounts: dict[str, float], less: set[str]
) -> None:
    """By hand: cream has 36 g of fat in 100 g, bacon 40, cheddar 33, parmesan 26 and is none; mince of 20 % is none."""
    found = after(mended(dish(kitchen, amounts), "greasy"))
    changed = {name for name, grams in amounts.items() if found.get(name, 0.0) != grams}
    assert changed
    assert changed <= less
    assert all(found.get(name, 0.0) < amounts[name] for name in changed)


def test_cream_cheese_keeps_a_dish_from_being_dry(kitchen: dict[str, PantryItem]) -> None:
    bake = {"cheddar": 200.0, "cream cheese": 150.0, "egg": 100.0}
    assert after(mended(dish(kitchen, bake), "dry")) == {**bake, "cream cheese": 180.0}


@pytest.mark.parametrize(
    ("name", "roles"),
    [
        ("oil", {"fat", "rich"}),
        ("cream", {"liquid", "rich", "moist"}),
        ("cream cheese", {"rich", "moist"}),
        ("cheddar", {"rich"}),
        ("lemon juice", {"liquid", "acid"}),
        ("soy sauce", {"salt"}),
        ("salt", {"salt", "spice"}),
        ("mince", set()),
    ],
)
def test_what_a_food_does_for_the_taste(kitchen: dict[str, PantryItem], name: str, roles: set[str]) -> None:
    assert roles_of(kitchen[name].food) == roles
