"""An item in use: what of a nutrient comes to the plate, one number at a time."""

from dataclasses import replace

import pytest

from solver.components import Drippings, Placed
from solver.drippings import CHOLESTEROL_MG_PER_G_FAT
from solver.outcome import Quantity
from solver.used import Kitchen, Used, in_kitchen
from tests.solver.larder import PATTIES, ROAST, TABLE, cooking_row, food, into, item, kitchen

MINCE = food("mince", protein_g=15, fat_g=30, saturated_fat_g=12, cholesterol_mg=90, sodium_mg=60, water_g=54)

ROASTED = Placed("roast", cooking_row(kept=0.6, shrunk=0.7))


def used(lost_fat_g: float = 0.0, **retention: float) -> Used:
    """200 g mince."""
    placed = Placed("patties", retention=retention)
    return Used(Quantity(item(MINCE), 200.0, None, placed), {}, lost_fat_g)


def test_what_loses_nothing_is_eaten_whole() -> None:
    whole = used()
    for nutrient in ("protein_g", "fat_g", "saturated_fat_g", "cholesterol_mg", "sodium_mg", "water_g"):
        assert whole.eaten(nutrient) == pytest.approx(2 * MINCE.value(nutrient))


def test_fat_that_is_lost_takes_its_fatty_acids_along_and_leaves_protein_and_salt() -> None:
    half = used(lost_fat_g=30.0)
    assert half.eaten("fat_g") == pytest.approx(30)
    assert half.eaten("saturated_fat_g") == pytest.approx(12)
    assert half.eaten("protein_g") == pytest.approx(30)
    assert half.eaten("sodium_mg") == pytest.approx(120)
    assert half.eaten("water_g") == pytest.approx(108), "water evaporates from the whole component"


def test_lost_fat_takes_no_more_cholesterol_than_rendered_fat_holds() -> None:
    # 90 mg in 30 g fat are 3 mg a gram, but most of it is in the lean.
    assert used(lost_fat_g=30.0).eaten("cholesterol_mg") == pytest.approx(180 - 30 * CHOLESTEROL_MG_PER_G_FAT)
    tallow = food("tallow", fat_g=100, cholesterol_mg=50)
    lost = Used(Quantity(item(tallow), 100.0, None), {}, lost_fat_g=100.0)
    assert lost.eaten("cholesterol_mg") == pytest.approx(0)


def test_retention_leaves_a_part_of_what_it_names() -> None:
    assert used(sodium_mg=0.9).eaten("sodium_mg") == pytest.approx(0.9 * 120)
    assert used(sodium_mg=0.9).eaten("protein_g") == pytest.approx(30)


def test_what_is_missing_stays_missing_or_counts_as_the_brief_says() -> None:
    assert used().eaten("iron_mg") is None
    assert Used(used().quantity, {"iron_mg": 2.0}).eaten("iron_mg") == pytest.approx(4)


def test_uncooked_is_as_it_was_weighed_out() -> None:
    raw = used(lost_fat_g=30.0, sodium_mg=0.9).uncooked
    assert raw.eaten("fat_g") == pytest.approx(60)
    assert raw.eaten("sodium_mg") == pytest.approx(120)


def cook_all(*quantities: Quantity, drippings: Drippings = Drippings.DISCARDED, spoons: int = 0) -> Kitchen:
    patties = replace(PATTIES, drippings=drippings)
    return in_kitchen(quantities, {"patties": spoons}, kitchen(targets=(), parts=(patties, ROAST, TABLE)))


IN_PATTIES = Quantity(into(item(MINCE), PATTIES), 900.0, None, Placed("patties"))
IN_ROAST = Quantity(into(item(MINCE), ROASTED), 100.0, None, ROASTED)
AT_TABLE = Quantity(into(item(MINCE), TABLE), 50.0, None, Placed(TABLE.name))


def test_every_quantity_is_cooked_where_it_is_and_comes_back_in_its_own_order() -> None:
    done = cook_all(AT_TABLE, IN_ROAST, IN_PATTIES)
    assert [each.quantity for each in done.used] == [AT_TABLE, IN_ROAST, IN_PATTIES]
    assert [each.lost_fat_g for each in done.used] == pytest.approx([0, 12, 175.5])
    assert [each.component.name for each in done.cooked] == ["patties", "roast", TABLE.name]


def test_an_item_in_two_components_is_cooked_twice() -> None:
    done = cook_all(IN_PATTIES, replace(IN_PATTIES, grams=100.0, placed=Placed(TABLE.name)))
    assert [each.lost_fat_g for each in done.used] == pytest.approx([175.5, 0])


def test_a_component_without_anything_in_it_is_not_cooked() -> None:
    assert [each.component.name for each in cook_all(AT_TABLE).cooked] == [TABLE.name]
    assert cook_all().cooked == ()


def test_what_is_spooned_back_is_not_lost() -> None:
    (one,) = cook_all(IN_PATTIES, drippings=Drippings.SPOONED_BACK, spoons=15).used
    assert one.lost_fat_g == pytest.approx(175.5 - 15 * 12.8 / 3)
    (other,) = cook_all(IN_PATTIES, drippings=Drippings.SERVED).used
    assert other.lost_fat_g == 0


def test_what_evaporates_is_water() -> None:
    done = cook_all(IN_PATTIES, AT_TABLE)
    assert done.water_lost_g == pytest.approx(900 - (0.84 * 900 - 0.9 * 270) - 175.5)
    assert done.cooked[1].evaporated_g == 0


def test_what_was_weighed_tells_how_much_evaporated() -> None:
    weighed = replace(PATTIES, cooked_g=600.0, finished=True)
    done = in_kitchen([IN_PATTIES], {}, kitchen(targets=(), parts=(weighed,)))
    assert done.water_lost_g == pytest.approx(900 - 600 - 175.5)
