"""A dish as a food: what went in and stayed, each gram of it, and nothing else."""

from dataclasses import replace
from typing import TypeAlias

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from reference_data import reference_folder
from solver.brief import Brief, EnergyBasis
from solver.catalogue import Catalogue
from solver.components import Component, Drippings, Placed
from solver.cook import SPOON_G
from solver.cooking_table import load_cooking_table
from solver.dishes import FixedDish, food_of_dish
from solver.energy_eaten import macro_energy_kcal, macro_energy_kj
from solver.errors import Problem, UnusableBrief
from solver.foods import Food, Polyols, SpecificFactors
from solver.numerics import FloatArray
from solver.nutrients import COLUMN, NUTRIENTS
from solver.outcome import Quantity
from solver.pantry import PantryItem
from solver.tally import tally
from solver.used import Used
from tests.solver.larder import BREAD, BUTTER, CHICKEN, food, macronutrients

WATER = replace(macronutrients("water"), per_100g=np.where(np.arange(len(NUTRIENTS)) == COLUMN["water_g"], 100.0, 0.0))
SALT = food("salt", **{**dict.fromkeys(COLUMN, 0.0), "sodium_mg": 38758.0})


def of(what: Food, grams: float, name: str | None = None, placed: Placed | None = None) -> Quantity:
    item = PantryItem(name or what.name, what)
    return Quantity(item, grams, None) if placed is None else Quantity(item, grams, None, placed)


def made(*quantities: Quantity, yield_g: float | None = None, **fields: object) -> Food:
    return food_of_dish(FixedDish("dish", quantities, yield_g=yield_g, **fields), {})  # type: ignore[arg-type]


def refused(*quantities: Quantity, yield_g: float | None = None, **fields: object) -> Problem:
    with pytest.raises(UnusableBrief) as error:
        made(*quantities, yield_g=yield_g, **fields)
    (problem,) = error.value.problems
    assert problem.detail.endswith(".")
    assert problem.remedy.endswith(".")
    return problem


# ---- what a dish holds -------------------------------------------------------------------------------------


def test_two_spoons_of_paprika_and_one_of_garlic_powder_are_nearly_nine_grams_of_carbohydrate(
    catalogue: Catalogue,
) -> None:
    # USDA SR28 02028 (1 tbsp 6.8 g) and 02020 (1 tbsp 9.7 g): total less fibre, 19.09 and 63.73 g in 100 g.
    paprika, garlic = catalogue.food("sr28:02028"), catalogue.food("sr28:02020")
    mix = made(of(paprika, 2 * 6.8), of(garlic, 9.7))
    assert mix.value("available_carbohydrate_g") * 23.3 / 100 == pytest.approx(
        (13.6 * 19.09 + 9.7 * 63.73) / 100, rel=1e-9
    )
    assert mix.value("available_carbohydrate_g") * 23.3 / 100 == pytest.approx(8.8, abs=0.05)


def test_a_stock_that_is_reduced_keeps_its_salt_and_loses_only_water(catalogue: Catalogue) -> None:
    # USDA SR28 06172, chicken stock: water 92.15 g, protein 2.52 g, sodium 143 mg in 100 g; the rest by hand.
    stock = catalogue.food("sr28:06172")
    reduced = made(of(stock, 1000.0), yield_g=250.0)
    assert stock.value("sodium_mg") == 143
    assert reduced.value("sodium_mg") == pytest.approx(4 * 143)
    assert reduced.value("protein_g") == pytest.approx(4 * stock.value("protein_g"))
    assert reduced.value("water_g") * 2.5 == pytest.approx(stock.value("water_g") * 10 - 750)
    assert any("750.0 g evaporated" in remark for remark in reduced.remarks)


def test_mayonnaise_is_what_went_into_it(catalogue: Catalogue) -> None:
    oil, yolk, vinegar = (catalogue.food(f"sr28:{number}") for number in ("04582", "01125", "02053"))
    mayonnaise = made(of(oil, 220.0), of(yolk, 17.0), of(vinegar, 15.0), measure=(1.125, "cup"))
    assert mayonnaise.value("fat_g") == pytest.approx((220 * 100 + 17 * 26.54) / 252)  # SR28: oil 100 g, yolk 26.54 g
    assert 220 / 252 > 0.65  # 21 CFR 169.140: at least 65 % by weight of vegetable oil
    (cup,) = mayonnaise.measures
    assert (cup.amount, cup.unit) == (1.125, "cup")
    assert cup.grams == pytest.approx(252)


def test_each_ingredient_brings_its_own_energy() -> None:
    yolk = replace(BUTTER, id="invented:yolk", factors=SpecificFactors(4.36, 9.02, 3.68))
    sauce = made(of(yolk, 50.0), of(BREAD, 150.0))
    assert sauce.made is not None
    by_hand = [(50 * 0.01 * 4.36 + 150 * 0.1 * 4), (50 * 0.8 * 9.02 + 150 * 0.02 * 9), (50 * 0.01 * 3.68 + 150 * 2), 0]
    assert sauce.made.kcal["specific"] == pytest.approx(np.array(by_hand) / 2)
    assert sauce.made.kj["specific"] == pytest.approx(np.array(by_hand) * 4.184 / 2)
    # Regulation (EU) No 1169/2011, Annex XIV: 17, 37 and 17 kJ, and no conversion from kcal.
    assert sauce.made.kj["general"] == pytest.approx(np.array([15.5 * 17, 43 * 37, 75.5 * 17, 0]) / 2)


def test_missing_stays_missing_however_little_there_is_of_it() -> None:
    spice = food("spice", protein_g=1.0)
    dish = made(of(BREAD, 1000.0), of(spice, 0.1))
    assert dish.is_missing("fat_g")
    assert dish.value("protein_g") == pytest.approx(100.001 / 1000.1 * 100)
    assert dish.made is not None
    assert np.isnan(dish.made.kcal["general"][1])
    assert not np.isnan(dish.made.kcal["general"][0])


def test_missing_is_counted_as_asked_and_said() -> None:
    dish = food_of_dish(FixedDish("dish", (of(BREAD, 100.0), of(food("spice"), 100.0))), {"fibre_g": 40.0})
    assert dish.value("fibre_g") == pytest.approx(20)
    assert any(remark.startswith("fibre_g is missing and was counted as 40 in 100 g") for remark in dish.remarks)


def test_polyols_and_doubts_come_along() -> None:
    sweet = replace(
        BREAD, id="label:sweet", polyols=Polyols(20, 10, 0, 15), total_carbohydrate_counted=True, remarks=("Says so.",)
    )
    dish = made(of(sweet, 50.0, "jam"), of(BUTTER, 150.0))
    assert dish.polyols == Polyols(5, 2.5, 0, 3.75)
    assert dish.total_carbohydrate_counted
    assert "jam: Says so." in dish.remarks
    outer = made(of(dish, 10.0, "filling"), of(BREAD, 10.0))
    assert "jam: Says so." in outer.remarks


def test_standard_errors_add_as_squares_and_rounding_adds_as_it_is() -> None:
    error = np.full(len(NUTRIENTS), np.nan)
    error[COLUMN["fat_g"]] = 3.0
    a, b = (replace(each, standard_error=error, half_interval=error) for each in (BUTTER, BREAD))
    dish = made(of(a, 50.0), of(b, 50.0))
    assert dish.standard_error is not None
    assert dish.half_interval is not None
    assert dish.standard_error[COLUMN["fat_g"]] == pytest.approx(np.hypot(1.5, 1.5))
    assert dish.half_interval[COLUMN["fat_g"]] == pytest.approx(3.0)
    assert np.isnan(dish.standard_error[COLUMN["protein_g"]])
    assert made(of(BUTTER, 1.0)).standard_error is None
    twice = made(of(a, 50.0, "one"), of(a, 50.0, "other"))
    assert twice.standard_error is not None
    assert twice.standard_error[COLUMN["fat_g"]] == pytest.approx(3.0), "one food errs to one side"


def test_allergens_are_contained_where_any_has_them_and_absent_where_all_say_so() -> None:
    a = replace(BUTTER, contains=frozenset({"milk"}), without=frozenset({"egg", "fish"}))
    b = replace(BREAD, contains=frozenset({"wheat"}), without=frozenset({"egg"}))
    dish = made(of(a, 50.0), of(b, 50.0), of(WATER, 100.0), strained_out=frozenset({"bread"}))
    assert dish.contains == {"milk", "wheat"}, "what was strained out has been in the pot"
    assert dish.without == frozenset()
    assert made(of(a, 50.0), of(b, 50.0)).without == {"egg"}


# ---- what was taken out ------------------------------------------------------------------------------------


def test_bones_that_are_strained_out_leave_none_of_their_numbers() -> None:
    bones = macronutrients("bones", protein=20, fat=15)
    stock = made(of(bones, 1000.0), of(WATER, 900.0), of(SALT, 10.0), strained_out=frozenset({"bones"}))
    assert stock.value("protein_g") == 0
    assert stock.value("sodium_mg") == pytest.approx(387.58 / 910 * 1000)
    assert any("is not known and not counted: bones." in remark for remark in stock.remarks)
    assert stock.made is not None
    assert {part.food.name: part.grams for part in stock.made.ingredients}["bones"] == 0


def test_fat_that_is_skimmed_balances() -> None:
    fatty = replace(BUTTER, per_100g=_with(BUTTER, saturated_fat_g=50.0, sodium_mg=600.0))
    lean = replace(CHICKEN, per_100g=_with(CHICKEN, saturated_fat_g=1.0, sodium_mg=80.0))
    pot = (of(fatty, 100.0), of(lean, 500.0))
    before, after = made(*pot), made(*pot, skimmed_fat_g=30.0)
    assert weight(after, "chicken", 500.0) == pytest.approx(100 + 500 - 30)
    for nutrient, lost in {"fat_g": 30.0, "saturated_fat_g": 30 * 55 / 100, "protein_g": 0.0, "sodium_mg": 0.0}.items():
        left = after.value(nutrient) * 5.7
        assert left == pytest.approx(before.value(nutrient) * 6 - lost), nutrient
    assert before.made is not None
    assert after.made is not None
    assert after.made.kcal["general"][1] * 5.7 == pytest.approx((100 - 30) * 9)


def test_more_fat_than_there_is_cannot_be_skimmed() -> None:
    problem = refused(of(BUTTER, 100.0), of(WATER, 100.0), skimmed_fat_g=80.1)
    assert (problem.pointer, problem.code) == ("/skimmed_fat", "skimmed_exceeds_fat")
    assert made(of(BUTTER, 100.0), of(WATER, 100.0), skimmed_fat_g=80.0).value("fat_g") == pytest.approx(0, abs=1e-12)


def test_of_a_marinade_counts_what_was_not_thrown_away() -> None:
    marinade = made(of(SALT, 10.0), of(WATER, 190.0))
    chicken = replace(CHICKEN, per_100g=_with(CHICKEN, sodium_mg=80.0))
    meat = made(of(chicken, 500.0), of(marinade, 200.0, "marinade"), discarded=(("marinade", 150.0),))
    assert meat.value("sodium_mg") * 5.5 == pytest.approx(5 * 80 + 50 * 0.05 * 387.58)
    assert weight(meat, "chicken", 500.0) == pytest.approx(550)


def test_no_more_can_be_thrown_away_than_went_in() -> None:
    problem = refused(of(CHICKEN, 500.0), of(WATER, 100.0), discarded=(("water", 60.0), ("water", 60.0)))
    assert problem.code == "discarded_exceeds_ingredient"


def test_a_dish_of_nothing_is_refused() -> None:
    assert refused(of(BUTTER, 100.0), strained_out=frozenset({"butter"})).code == "dish_of_nothing"
    assert refused(of(BUTTER, 100.0), discarded=(("butter", 100.0),)).code == "dish_of_nothing"
    pure = macronutrients("oil", fat=100)
    assert refused(of(pure, 100.0), skimmed_fat_g=100.0).code == "dish_of_nothing"


# ---- what it yields ----------------------------------------------------------------------------------------


def test_a_dish_weighs_no_more_than_went_in() -> None:
    problem = refused(of(BREAD, 100.0), of(WATER, 50.06), yield_g=151.0)
    assert (problem.pointer, problem.code) == ("/makes", "yield_exceeds_ingredients")
    assert "150.0 g or less" in problem.remedy
    assert weight(made(of(BREAD, 100.0), of(WATER, 50.0), yield_g=150.0), "bread", 100.0) == pytest.approx(150)


def test_dry_matter_does_not_evaporate() -> None:
    dried = replace(BREAD, per_100g=_with(BREAD, water_g=38.0))
    problem = refused(of(dried, 100.0), of(WATER, 100.0), yield_g=61.9)
    assert (problem.pointer, problem.code) == ("/makes", "yield_below_dry_matter")
    assert "Give 62.0 g or more" in problem.remedy
    assert made(of(dried, 100.0), of(WATER, 100.0), yield_g=62.0).value("water_g") == pytest.approx(0, abs=1e-9)


def test_where_water_is_missing_it_is_at_most_what_is_nothing_else() -> None:
    assert refused(of(BREAD, 100.0), yield_g=61.9).code == "yield_below_dry_matter"
    assert made(of(BREAD, 100.0), yield_g=62.1).is_missing("water_g")


def test_alcohol_that_left_is_no_water() -> None:
    wine = replace(macronutrients("wine"), per_100g=_with(macronutrients("wine"), alcohol_g=10.0, water_g=90.0))
    simmered = Component("sauce", "simmered", minutes=15)
    placed = Placed("sauce", retention={"alcohol_g": 0.4})
    sauce = made(of(wine, 100.0, placed=placed), yield_g=50.0, components=(simmered,))
    # By hand: 50 g left, 6 g of them alcohol; 4 g alcohol and 46 g water stayed.
    assert sauce.value("alcohol_g") == pytest.approx(8)
    assert sauce.value("water_g") == pytest.approx(92)


# ---- cooking -----------------------------------------------------------------------------------------------


@pytest.fixture(scope="module")
def patties(catalogue: Catalogue) -> FixedDish:
    """600 g of 80/20 mince, broiled as patties."""
    table = load_cooking_table(reference_folder() / "cooking")
    curve = next(curve for curve in table.curves if curve.mix == "broiled patty")
    component = Component("patties", "broiled patty", Drippings.DISCARDED, curve)
    mince = of(catalogue.food("sr28:23572"), 600.0, "mince", Placed("patties"))
    return FixedDish("patties", (mince,), (component,))


def test_what_is_cooked_has_kept_fat_only(patties: FixedDish) -> None:
    cooked = food_of_dish(patties, {})
    # USDA SR28 23573, ground beef 80/20, patty, cooked, broiled: 17.82 g fat in 100 g; here by the fitted curve.
    assert cooked.value("fat_g") == pytest.approx(17.8, abs=1.0)
    assert cooked.made is not None
    (mince,) = cooked.made.ingredients
    assert (mince.food.id, mince.cooked) == ("sr28:23572", True)


@pytest.mark.parametrize("drippings", list(Drippings))
def test_a_cooked_dish_has_the_numbers_that_a_plan_would_state(patties: FixedDish, drippings: Drippings) -> None:
    component = replace(patties.components[0], drippings=drippings)
    dish = replace(patties, components=(component,), spoons={"patties": 5})
    cooked = food_of_dish(dish, {})
    brief = Brief("patties", 1, (), (), components=(component,))
    sums = tally(dish.quantities, brief, dish.spoons).batch
    for nutrient, total in sums.values.items():
        if nutrient in sums.lacking:
            assert cooked.is_missing(nutrient)
        else:
            assert cooked.value(nutrient) * sums.grams / 100 == pytest.approx(total, rel=1e-9), nutrient
    assert cooked.made is not None
    assert cooked.made.kcal["general"].sum() * sums.grams / 100 == pytest.approx(sums.energy_kcal)
    assert cooked.made.kj["general"].sum() * sums.grams / 100 == pytest.approx(sums.energy_kj)


def test_what_was_weighed_outranks_the_table(patties: FixedDish) -> None:
    weighed = replace(patties.components[0], cooked_g=400.0, drippings_g=60.0, finished=True)
    cooked = food_of_dish(replace(patties, components=(weighed,)), {})
    assert cooked.value("fat_g") * 4 == pytest.approx(6 * 20 - 60)
    assert any("measured" in remark for remark in cooked.remarks)


def test_no_more_can_be_spooned_back_than_ran_out(patties: FixedDish) -> None:
    component = replace(patties.components[0], drippings=Drippings.SPOONED_BACK, drippings_g=10.0, finished=True)
    dish = replace(patties, components=(component,), spoons={"patties": 3})
    assert 3 * SPOON_G > 10
    with pytest.raises(UnusableBrief) as error:
        food_of_dish(dish, {})
    assert [problem.code for problem in error.value.problems] == ["spoons_exceed_drippings"]


def test_weights_of_a_component_that_cannot_be_are_refused(patties: FixedDish) -> None:
    component = replace(patties.components[0], cooked_g=700.0, finished=True)
    with pytest.raises(UnusableBrief) as error:
        food_of_dish(replace(patties, components=(component,)), {})
    found = [(problem.pointer, problem.code) for problem in error.value.problems]
    assert found == [("/components/0/cooked_weight", "heavier_than_raw")]


# ---- who it is ---------------------------------------------------------------------------------------------


def test_the_id_and_the_numbers_depend_on_no_order_and_no_name() -> None:
    a, b, c = of(BUTTER, 33.3), of(BREAD, 21.7), of(CHICKEN, 11.9)
    one, other = made(a, b, c), replace(made(c, a, of(BREAD, 21.7, "crumbs")), name="other")
    assert one.id == other.id
    assert one.id.startswith("dish:")
    assert len(one.id) == len("dish:") + 12
    assert np.array_equal(one.per_100g, other.per_100g, equal_nan=True)


@pytest.mark.parametrize(
    "other",
    [
        made(of(BUTTER, 33.4), of(WATER, 20.0)),
        made(of(BUTTER, 33.3), of(WATER, 20.0), yield_g=50.0),
        made(of(BUTTER, 33.3), of(WATER, 20.0), skimmed_fat_g=1.0),
        made(of(BUTTER, 33.3), of(WATER, 20.0), strained_out=frozenset({"water"})),
        made(of(BUTTER, 33.3), of(WATER, 20.0), discarded=(("water", 1.0),)),
        made(of(BUTTER, 33.3), of(WATER, 20.0), measure=(1.0, "cup")),
    ],
)
def test_another_dish_has_another_id(other: Food) -> None:
    assert made(of(BUTTER, 33.3), of(WATER, 20.0)).id != other.id


# ---- nesting -----------------------------------------------------------------------------------------------

#: A food, or the parts of a dish with their grams and how much of its water evaporates, 0 to 1.
Tree: TypeAlias = "int | tuple[list[tuple[Tree, float]], float]"

LEAVES = (
    *(BUTTER, CHICKEN, BREAD, WATER, SALT),
    food("gap", protein_g=3.0, water_g=50.0, sodium_mg=7.0),
    replace(BREAD, id="x:1", factors=SpecificFactors(3.5, None, 3.9), polyols=Polyols(5, 3, 2, 4)),
    replace(CHICKEN, id="x:2", factors=SpecificFactors(4.27, 9.02, None)),
)

_GRAMS = st.floats(1.0, 500.0)


def _dishes_of(inside: st.SearchStrategy[Tree]) -> st.SearchStrategy[Tree]:
    return st.tuples(st.lists(st.tuples(inside, _GRAMS), min_size=1, max_size=3), st.sampled_from([0.0, 0.5, 0.99]))


def trees(depth: int) -> st.SearchStrategy[Tree]:
    leaf: st.SearchStrategy[Tree] = st.integers(0, len(LEAVES) - 1)
    inside = leaf if depth == 1 else leaf | trees(depth - 1)
    return _dishes_of(inside)


def grown(tree: Tree) -> tuple[Food, list[tuple[Food, float]], float]:
    """The dish nested as the tree says, the foods in all of it, and what it weighs."""
    if isinstance(tree, int):
        return LEAVES[tree], [(LEAVES[tree], 1.0)], 1.0
    parts, dried = tree
    leaves: list[tuple[Food, float]] = []
    quantities = []
    for number, (inside, grams) in enumerate(parts):
        part, own, weight = grown(inside)
        quantities.append(of(part, grams, f"part {number}"))
        leaves += [(leaf, amount * grams / weight) for leaf, amount in own]
    raw = sum(quantity.grams for quantity in quantities)
    water = sum(each.grams * np.nan_to_num(each.item.food.value("water_g")) / 100 for each in quantities)
    weight = max(raw - dried * water, 1.0)
    return made(*quantities, yield_g=float(weight)), leaves, float(weight)


@settings(max_examples=150)
@given(st.integers(1, 4).flatmap(trees))
def test_a_dish_flattened_equals_the_dish_nested(tree: Tree) -> None:
    nested, leaves, weight = grown(tree)
    flat = made(*(of(leaf, grams, str(number)) for number, (leaf, grams) in enumerate(leaves)), yield_g=weight)
    np.testing.assert_allclose(nested.per_100g, flat.per_100g, rtol=1e-9, atol=1e-9)
    assert nested.made is not None
    assert flat.made is not None
    for basis in EnergyBasis:
        for energy in ("kcal", "kj"):
            ours, theirs = getattr(nested.made, energy)[basis.value], getattr(flat.made, energy)[basis.value]
            np.testing.assert_allclose(ours, theirs, rtol=1e-9, atol=1e-9)
    assert [part.food.id for part in nested.made.ingredients] == [part.food.id for part in flat.made.ingredients]
    for ours, theirs in zip(nested.made.ingredients, flat.made.ingredients, strict=True):
        assert ours.grams == pytest.approx(theirs.grams, rel=1e-9)


@settings(max_examples=50)
@given(st.integers(1, 4).flatmap(trees), _GRAMS)
def test_a_dish_on_a_plate_has_the_energy_of_what_is_in_it(tree: Tree, grams: float) -> None:
    nested, leaves, weight = grown(tree)
    if any(leaf.name == "gap" for leaf, _ in leaves):
        return
    whole = [Used(of(nested, grams), {})]
    apart = [Used(of(leaf, amount * grams / weight), {}) for leaf, amount in leaves]
    for basis in EnergyBasis:
        assert macro_energy_kcal(whole, basis).total == pytest.approx(macro_energy_kcal(apart, basis).total, rel=1e-9)
        kj = macro_energy_kj(apart, basis)
        if kj is not None:
            found = macro_energy_kj(whole, basis)
            assert found is not None
            assert found.total == pytest.approx(kj.total, rel=1e-9)


def test_a_dish_that_doubles_through_two_hundred_others_is_made_at_once() -> None:
    dish = made(of(BUTTER, 10.0), of(WATER, 90.0))
    for _ in range(200):
        dish = made(of(dish, 10.0, "one"), of(dish, 10.0, "other"))
    assert dish.value("fat_g") == pytest.approx(8)
    assert dish.made is not None
    assert len(dish.made.ingredients) == 2


def _with(of_food: Food, **values: float) -> FloatArray:
    row = of_food.per_100g.copy()
    for nutrient, value in values.items():
        row[COLUMN[nutrient]] = value
    return row


def weight(dish: Food, name: str, grams: float) -> float:
    """What a dish weighs, of which so much of an ingredient is known to have gone in and stayed."""
    assert dish.made is not None
    (part,) = (part for part in dish.made.ingredients if part.food.name == name)
    return 100 * grams / part.grams
