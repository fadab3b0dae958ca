"""What cooking makes of a component, by hand, with an invented curve and invented rows."""

from dataclasses import replace

import pytest

from solver.components import UNCOOKED, Component, Drippings, Placed
from solver.cook import BEYOND_RANGE, SPOON_G, Content, cook, cooked_part, rendered_part
from solver.cooked import CookedComponent, Evidence
from solver.foods import Food
from tests.solver.larder import CURVE, PATTIES, PURE, ROAST, TABLE, cooking_row, food, macronutrients

MINCE = macronutrients("mince", protein=15, fat=30)
LEAN = macronutrients("lean", protein=22, fat=4)
TALLOW = macronutrients("tallow", fat=100)

ROASTED = Placed("roast", cooking_row(kept=0.6, shrunk=0.7), "a pair of this food")


def content(of: Food, grams: float, placed: Placed = UNCOOKED, missing_fat_g: float = 0.0) -> Content:
    return Content(of.name, of, grams, placed, missing_fat_g)


def of_mix(component: Component = PATTIES, spoons: int = 0) -> CookedComponent:
    """900 g mince of 30 % fat: of 270 g the lean of 630 g holds 0.15, 94.5 g."""
    return cook(component, [content(MINCE, 900)], spoons)


def test_what_is_not_cooked_is_eaten_as_it_was_weighed() -> None:
    done = cook(TABLE, [content(MINCE, 100), content(TALLOW, 20)])
    assert (done.raw_g, done.cooked_g, done.eaten_g) == (120, 120, 120)
    assert (done.fat_g, done.rendered_g, done.lost_g, done.evaporated_g) == (50, 0, 0, 0)
    assert (done.cooked_half_g, done.rendered_half_g) == (0, 0)


def test_a_mix_keeps_what_its_lean_can_hold_and_the_rest_runs_out() -> None:
    done = of_mix()
    assert done.kept_g == pytest.approx(94.5)
    assert done.rendered_g == done.lost_g == pytest.approx(175.5)
    assert done.cooked_g == pytest.approx(0.84 * 900 - 0.9 * 270)
    assert done.evaporated_g == pytest.approx(900 - 513 - 175.5)
    assert (done.weight, done.fat) == (Evidence.ESTIMATED, Evidence.ESTIMATED)


def test_a_mix_is_not_the_sum_of_its_items() -> None:
    alone = cook(PATTIES, [content(LEAN, 500)])
    with_tallow = cook(PATTIES, [content(LEAN, 500), content(TALLOW, 100)])
    assert alone.rendered_g == 0
    # 480 g lean hold 72 g of fat, the middle line 0.05 x 600 + 0.4 x 120 = 78 g; 120 g went in.
    assert with_tallow.rendered_g == pytest.approx(120 - 72)
    assert [item.rendered_g for item in with_tallow.items] == pytest.approx([48 * 20 / 120, 48 * 100 / 120])


def test_tallow_in_a_mix_that_holds_no_more_runs_out_to_the_last_gram() -> None:
    more = cook(PATTIES, [content(MINCE, 900), content(TALLOW, 50)])
    assert more.rendered_g - of_mix().rendered_g == pytest.approx(50)


def test_in_a_mix_only_the_whole_has_a_weight_and_an_interval() -> None:
    (item,) = of_mix().items
    assert item.cooked_g is None
    assert item.rendered_half_g == 0
    assert of_mix().rendered_half_g == pytest.approx(9)
    assert of_mix().cooked_half_g == pytest.approx(72)


@pytest.mark.parametrize(("tallow_g", "in_range"), [(0.0, True), (1.0, True), (20.0, False)])
def test_fat_outside_the_range_of_the_curve_widens_the_intervals(tallow_g: float, *, in_range: bool) -> None:
    done = cook(PATTIES, [content(MINCE, 900), content(TALLOW, tallow_g)])
    width = 1.0 if in_range else BEYOND_RANGE
    assert done.rendered_half_g == pytest.approx(width * CURVE.fat_kept_half_interval_g_per_g * done.raw_g)
    assert done.cooked_half_g == pytest.approx(width * CURVE.yield_half_interval_g_per_g * done.raw_g)
    assert ("outside the range" in done.why) is not in_range


def test_a_mix_of_too_little_fat_is_outside_the_range_as_well() -> None:
    assert "outside the range" in cook(PATTIES, [content(macronutrients("white", protein=20, fat=1), 100)]).why


def test_pieces_keep_their_own_part_of_their_own_fat() -> None:
    done = cook(ROAST, [content(MINCE, 200, ROASTED), content(LEAN, 100, replace(ROASTED, row=cooking_row(1.0, 0.75)))])
    assert [item.rendered_g for item in done.items] == pytest.approx([0.4 * 60, 0])
    assert [item.cooked_g for item in done.items] == pytest.approx([140, 75])
    assert [done.raw_g, done.cooked_g] == pytest.approx([300, 215])
    assert done.rendered_half_g == pytest.approx(0.1 * 60 + 0.1 * 4)
    assert done.cooked_half_g == pytest.approx(0.05 * 300)


def test_pieces_never_weigh_more_than_what_did_not_run_out() -> None:
    fat_back = macronutrients("fat back", fat=90)
    assert cooked_part(ROAST, 0.9, Placed("roast", cooking_row(0.2, 0.7))) == pytest.approx(1 - 0.9 * 0.8)
    assert cook(ROAST, [content(fat_back, 100, Placed("roast", cooking_row(0.2, 0.7)))]).evaporated_g == pytest.approx(
        0
    )


def test_a_fat_among_pieces_melts_into_the_pan_as_a_whole() -> None:
    done = cook(ROAST, [content(TALLOW, 20, Placed("roast", melts=True))])
    assert (done.rendered_g, done.cooked_g) == (20, 0)
    assert rendered_part(PATTIES, Placed("patties", melts=True)) == 0, "in a mix the curve says it"


def test_pieces_without_a_row_keep_all_and_nothing_is_known_of_it() -> None:
    done = cook(ROAST, [content(MINCE, 100, Placed("roast", why="no pairs"))])
    assert (done.rendered_g, done.cooked_g) == (0, 100)
    assert done.rendered_half_g == 30
    assert done.cooked_half_g == 100, "the water is not known"
    assert done.why == "no pairs"


def test_pieces_are_matched_where_every_row_is_measured() -> None:
    guess = replace(ROASTED, row=cooking_row(0.6, 0.7, measured=False))
    assert cook(ROAST, [content(MINCE, 100, ROASTED)]).fat is Evidence.MATCHED
    assert cook(ROAST, [content(MINCE, 100, ROASTED), content(LEAN, 100, guess)]).fat is Evidence.ESTIMATED


@pytest.mark.parametrize(
    ("drippings", "spoons", "returned"),
    [(Drippings.DISCARDED, 0, 0.0), (Drippings.SERVED, 0, 175.5), (Drippings.SPOONED_BACK, 18, 18 * SPOON_G)],
)
def test_drippings_are_gone_or_eaten_or_come_back_by_the_teaspoon(
    drippings: Drippings, spoons: int, returned: float
) -> None:
    done = of_mix(replace(PATTIES, drippings=drippings), spoons)
    assert done.returned_g == pytest.approx(returned)
    assert done.lost_g == pytest.approx(175.5 - returned)
    assert done.eaten_g == pytest.approx(513 + returned)
    assert sum(item.lost_g for item in done.items) == pytest.approx(done.lost_g)


def test_what_counts_for_missing_fat_is_cooked_like_fat() -> None:
    unknown = food("unlabelled", protein_g=15)
    assert cook(PATTIES, [content(unknown, 900, missing_fat_g=30)]).rendered_g == pytest.approx(175.5)
    assert cook(PATTIES, [content(unknown, 900)]).rendered_g == 0


@pytest.mark.parametrize("component", [PATTIES, ROAST, TABLE])
def test_nothing_comes_to_nothing(component: Component) -> None:
    done = cook(component, [content(food, 0.0) for food in PURE])
    assert (done.raw_g, done.cooked_g, done.rendered_g, done.lost_g) == (0, 0, 0, 0)


@pytest.mark.parametrize(
    ("of_food", "lacks"),
    [
        (food("salt", water_g=0.2, fat_g=0.0), False),
        (food("oil", water_g=0.0, fat_g=100.0), True),
        (food("broth", water_g=99.0, fat_g=0.0), True),
        (food("a label", fat_g=0.0), True),  # whose water nobody states
    ],
)
def test_a_row_is_lacking_where_there_is_something_to_lose(of_food: Food, lacks: bool) -> None:  # noqa: FBT001
    done = cook(Component("pan", "pan-fried"), [Content(of_food.name, of_food, 100.0, Placed("pan"))])
    assert [item.lacks_row for item in done.items] == [lacks]
