"""How far the plate may be off: by hand for invented foods, the algebra of it, and how often the truth lies inside.

Root sum of squares of independent errors: JCGM 100:2008 (Guide to the Expression of Uncertainty in Measurement), 5.1.2,
cited from memory; 1.645 standard errors either way hold 90 % of a normal distribution.
"""

from dataclasses import replace
from math import hypot, inf, sqrt

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from solver.brief import Brief, EnergyBasis
from solver.catalogue import Catalogue
from solver.components import UNCOOKED, Component, Placed
from solver.foods import Food, Ingredient, Made
from solver.label_intervals import nutrient_row
from solver.numerics import FloatArray
from solver.outcome import Dish, Quantity
from solver.plate_off import EXACT, STATEMENT, PlateOff, plate_off
from solver.plate_off_moves import Kind, OffBy
from solver.verify import dish_of
from tests.solver.larder import CURVE, PATTIES, brief, cooking_row, food, into, item, macronutrients
from tests.solver.off_by import either, off_by

MINCE = macronutrients("mince", protein=15, fat=30)
BUTTER = macronutrients("butter", protein=1, fat=80, carbohydrate=1)
MIX = Placed(PATTIES.name)

AMOUNTS = st.floats(10, 1000).map(lambda grams: round(grams, 1))


def with_errors(of: Food, **standard_error: float) -> Food:
    return replace(of, standard_error=nutrient_row(standard_error))


def cooked(
    *inside: tuple[Food, float, Placed], components: tuple[Component, ...] = (), portions: int = 1
) -> tuple[Dish, Brief]:
    """Grams of each food in its place, and what they were asked for with."""
    quantities = [Quantity(into(item(of), place), grams, None, place) for of, grams, place in inside]
    asked = replace(brief(*(each.item for each in quantities), portions=portions), components=components)
    return dish_of(quantities, asked, frozenset()), asked


def off(*inside: tuple[Food, float, Placed], components: tuple[Component, ...] = (), portions: int = 1) -> PlateOff:
    return plate_off(*cooked(*inside, components=components, portions=portions))


def test_the_words_are_said() -> None:
    assert EXACT == "exact for these inputs"
    assert EXACT in STATEMENT


def test_nothing_is_off_where_nothing_is_stated_and_that_is_said() -> None:
    found = off((MINCE, 300, UNCOOKED))
    assert found.batch.energy_kcal == found.batch.values["fat_g"] == found.fat_share_points == OffBy(0, 0)
    assert found.sources == ()
    assert found.nothing_stated_for == {"protein_g": ("mince",), "fat_g": ("mince",)}


def test_a_standard_error_of_fat_by_hand() -> None:
    # 200 g with 0.5 g in 100 g: 1.645 x 0.5 x 2 = 1.645 g, 14.805 kcal, 60.865 kJ.
    found = off((with_errors(BUTTER, fat_g=0.5), 200, UNCOOKED), portions=2)
    assert found.batch.values["fat_g"] == either(1.645)
    assert found.batch.energy_kcal == either(1.645 * 9)
    assert found.batch.energy_kj == either(1.645 * 37)
    assert found.portion.energy_kcal == either(1.645 * 9 / 2)
    assert found.batch.values["protein_g"] == found.batch.grams == OffBy(0, 0)
    # 160 g of fat, 2 g of protein, 2 g of carbohydrate.
    share = 100 * 1440 / 1456
    assert found.fat_share_points == off_by(
        share - 100 * 9 * 158.355 / (9 * 158.355 + 16), 100 * 9 * 161.645 / (9 * 161.645 + 16) - share
    )
    assert found.ketogenic_ratio == either(1.645 / 4)
    assert found.nothing_stated_for == {"protein_g": ("butter",), "available_carbohydrate_g": ("butter",)}


def test_independent_errors_add_up_by_squares_and_those_of_one_food_add_up_plainly() -> None:
    one, other = with_errors(BUTTER, fat_g=0.6), with_errors(MINCE, fat_g=0.8)
    table = Component("at the table")
    apart = off((one, 100, UNCOOKED), (other, 100, UNCOOKED))
    assert apart.batch.values["fat_g"] == either(1.645 * hypot(0.6, 0.8))
    parts = (Component("pan"), table)
    placed = into(item(one), Placed("pan"), Placed(table.name))
    asked = replace(brief(placed), components=parts)
    twice = [Quantity(placed, 100.0, None, Placed(part.name)) for part in parts]
    together = plate_off(dish_of(twice, asked, frozenset()), asked)
    assert together.batch.values["fat_g"] == either(1.645 * 0.6 * 2)


def test_fibre_that_is_off_moves_available_carbohydrate_the_other_way_and_no_energy_of_the_total() -> None:
    carbohydrate = {"total_carbohydrate_g": 60, "available_carbohydrate_g": 20, "fibre_g": 40}
    bran = food("bran", protein_g=10, fat_g=5, **carbohydrate)
    dish, asked = cooked((with_errors(bran, fibre_g=2), 100, UNCOOKED))
    found = plate_off(dish, asked)
    assert found.batch.values["available_carbohydrate_g"] == either(3.29)
    assert found.batch.values["total_carbohydrate_g"] == found.batch.energy_kcal == OffBy(0, 0)
    by_regulation = plate_off(*_on(EnergyBasis.REGULATION, with_errors(bran, fibre_g=2)))
    assert by_regulation.batch.energy_kcal == either(3.29 * (4 - 2))


def _on(basis: EnergyBasis, of: Food) -> tuple[Dish, Brief]:
    asked = replace(brief(item(of)), energy_basis=basis)
    return dish_of([Quantity(item(of), 100.0, None)], asked, frozenset()), asked


def test_stated_energy_follows_the_macronutrients_unless_it_has_an_error_of_its_own() -> None:
    stated = food("butter", energy_kcal=720, protein_g=0, fat_g=80, available_carbohydrate_g=0)
    follows = plate_off(*_on(EnergyBasis.DECLARED, with_errors(stated, fat_g=1)))
    assert follows.batch.energy_kcal == either(1.645 * 9)
    own = plate_off(*_on(EnergyBasis.DECLARED, with_errors(stated, fat_g=1, energy_kcal=4)))
    assert own.batch.energy_kcal == own.batch.values["energy_kcal"] == either(1.645 * 4)


def test_fatty_acids_without_an_error_follow_their_fat() -> None:
    suet = food("suet", fat_g=90, saturated_fat_g=45)
    follows = off((with_errors(suet, fat_g=1), 100, UNCOOKED))
    assert follows.batch.values["saturated_fat_g"] == either(1.645 / 2)
    own = off((with_errors(suet, fat_g=1, saturated_fat_g=3), 100, UNCOOKED))
    assert own.batch.values["saturated_fat_g"] == either(1.645 * 3)


def test_no_truth_is_below_nothing_and_a_ratio_to_nothing_has_no_limit() -> None:
    oil = macronutrients("oil", fat=99, protein=0.1)
    found = off((with_errors(oil, protein_g=1), 100, UNCOOKED))
    assert found.batch.values["protein_g"] == off_by(0.1, 1.645)
    assert found.ketogenic_ratio is not None
    assert found.ketogenic_ratio.above == inf


def test_a_label_tolerates_each_side_by_itself() -> None:
    fat_above = (nutrient_row({"protein_g": 0.2}), nutrient_row({"fat_g": 16.0}))
    found = off((replace(BUTTER, tolerance=fat_above, half_interval=nutrient_row({"fat_g": 0.5})), 100, UNCOOKED))
    assert found.batch.values["fat_g"] == off_by(0.5, hypot(0.5, 16))
    assert found.batch.values["protein_g"] == off_by(0.2, 0)
    assert {source.kind for source in found.sources} == {Kind.LABEL_ROUNDING, Kind.LABEL_TOLERANCE}


def test_the_largest_source_comes_first_and_says_what_it_does() -> None:
    found = off((with_errors(BUTTER, fat_g=0.1), 100, UNCOOKED), (with_errors(MINCE, protein_g=2), 100, UNCOOKED))
    assert [source.about for source in found.sources] == ["mince", "butter"]
    assert [source.energy_kcal for source in found.sources] == [either(1.645 * 8), either(1.645 * 0.9)]


@given(AMOUNTS, AMOUNTS, st.floats(0, 5), st.floats(0, 5))
def test_another_error_never_narrows(mince_g: float, butter_g: float, fat: float, protein: float) -> None:
    one = (with_errors(BUTTER, fat_g=1), butter_g, MIX)
    fewer = off(one, (MINCE, mince_g, MIX), components=(PATTIES,))
    more = off(one, (with_errors(MINCE, fat_g=fat, protein_g=protein), mince_g, MIX), components=(PATTIES,))
    for narrow, wide in zip(_all_of(fewer), _all_of(more), strict=True):
        assert wide.below >= narrow.below - 1e-9
        assert wide.above >= narrow.above - 1e-9


@given(AMOUNTS, AMOUNTS)
def test_twice_the_batch_is_off_by_twice_as_much_and_its_shares_by_the_same(mince_g: float, butter_g: float) -> None:
    foods = with_errors(MINCE, fat_g=1, protein_g=0.4), with_errors(BUTTER, fat_g=0.7)
    once = off((foods[0], mince_g, MIX), (foods[1], butter_g, MIX), components=(PATTIES,), portions=1)
    twice = off((foods[0], 2 * mince_g, MIX), (foods[1], 2 * butter_g, MIX), components=(PATTIES,), portions=2)
    for name, each in once.batch.values.items():
        assert twice.batch.values[name] == off_by(2 * each.below, 2 * each.above)
        assert twice.portion.values[name] == off_by(each.below, each.above)
    for one, other in zip(_shares_of(once), _shares_of(twice), strict=True):
        assert other == off_by(one.below, one.above)


def _shares_of(found: PlateOff) -> list[OffBy]:
    shares = found.fat_share_points, found.protein_share_points, found.carbohydrate_share_points, found.ketogenic_ratio
    return [share for share in shares if share is not None]


def _all_of(found: PlateOff) -> list[OffBy]:
    return [found.batch.grams, found.batch.energy_kcal, *found.batch.values.values(), *_shares_of(found)]


def test_nine_truths_in_ten_lie_inside_what_is_stated() -> None:
    """2,000 truths: a pan of mince whose curve, fat and protein are off, and a butter whose label was rounded."""
    mince = with_errors(MINCE, fat_g=1.2, protein_g=0.6)
    butter = replace(BUTTER, half_interval=nutrient_row({"fat_g": 2.5, "protein_g": 0.5}))
    inside = (mince, 900.0, MIX), (butter, 100.0, UNCOOKED)
    components = (PATTIES, Component(UNCOOKED.component))
    dish, asked = cooked(*inside, components=components)
    found = plate_off(dish, asked)
    drawn = np.random.default_rng(20260101)
    fat_in, protein = drawn.normal(0.3, 0.012, 2000), drawn.normal(0.15, 0.006, 2000)
    kept = np.min([one.a_g_per_g * 900 + one.b_g_per_g * 900 * fat_in for one in CURVE.segments], axis=0)
    fat = kept + drawn.normal(0, 9 / 1.645, 2000) + drawn.uniform(77.5, 82.5, 2000)
    truths = _fat_share(fat, 900 * protein + drawn.uniform(0.5, 1.5, 2000), 1.0)
    stated, share = found.fat_share_points, _fat_share(np.array([94.5 + 80]), np.array([135 + 1.0]), 1.0)[0]
    assert stated is not None
    held = np.mean((truths >= share - stated.below) & (truths <= share + stated.above))
    assert 0.9 - 3 * sqrt(0.9 * 0.1 / 2000) <= held <= 0.96  # no wider than it need be either


def _fat_share(fat: FloatArray, protein: FloatArray, carbohydrate: float) -> FloatArray:
    return 100 * 9 * fat / (9 * fat + 4 * protein + 4 * carbohydrate)


def test_a_food_of_the_table_by_its_published_standard_errors(catalogue: Catalogue) -> None:
    # USDA SR28, 01123 egg: standard errors of protein 0.102 g, fat 0.115 g, sodium 1.138 mg; none of carbohydrate.
    found = off((catalogue.food("sr28:01123"), 100, UNCOOKED))
    assert found.batch.values["protein_g"] == either(1.645 * 0.102)
    assert found.batch.values["fat_g"] == either(1.645 * 0.115)
    assert found.batch.values["sodium_mg"] == either(1.645 * 1.138)
    assert found.batch.energy_kcal == either(1.645 * hypot(4 * 0.102, 9 * 0.115))
    assert found.nothing_stated_for == {"available_carbohydrate_g": (catalogue.food("sr28:01123").name,)}


def test_a_dish_in_the_dish_is_as_far_off_as_its_foods() -> None:
    butter = with_errors(BUTTER, fat_g=0.5)
    half_butter = macronutrients("sauce", protein=0.5, fat=40, carbohydrate=0.5)
    energy = dict.fromkeys((basis.value for basis in EnergyBasis), np.array([2.0, 360.0, 2.0, 0.0]))
    sauce = replace(half_butter, made=Made(energy, energy, (Ingredient(butter, 50.0, cooked=False),)))
    nested, flat = off((sauce, 200, UNCOOKED)), off((butter, 100, UNCOOKED))
    assert nested.batch == flat.batch
    assert nested.sources[0].about == "butter in sauce"


def test_a_roast_renders_more_fat_in_proportion() -> None:
    roast = Component("roast", "roasted")
    place = Placed("roast", cooking_row(kept=0.6, shrunk=0.7), "a pair of this food")
    found = off((with_errors(MINCE, fat_g=1), 100, place), components=(roast,))
    # The cooking itself may be off by 0.1 of 30 g.
    assert found.batch.values["fat_g"] == either(hypot(0.6 * 1.645, 3.0))
