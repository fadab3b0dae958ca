"""Dishes of a brief that are cooked: by the cooking table, and with counted spoons of their drippings."""

from service.translate.reference import Reference
from tests.service.dishes_of_briefs import Fields, dish, foods, refusals, table


def test_a_component_is_cooked_by_the_cooking_table(reference: Reference) -> None:
    patties = dish(
        "patties",
        table("mince", "23572", "600 g", goes_in="patties"),
        table("butter", "01001", "20 g", goes_in="on top"),
        components=[{"name": "patties", "method": "broiled patty"}, {"name": "on top"}],
    )
    made = foods(reference, patties)["patties"]
    assert made.made is not None
    assert {part.food.id: part.cooked for part in made.made.ingredients} == {"sr28:23572": True, "sr28:01001": False}
    raw = (600 * 0.20 + 20 * 0.8111) / 6.2
    assert made.value("protein_g") > 17.17 * 6 / 6.2, "water and fat have gone"
    assert made.value("fat_g") < raw


def test_drippings_that_are_spooned_back_are_counted(reference: Reference) -> None:
    mince = table("mince", "13498", "900 g")
    component: Fields = {"name": "patties", "method": "broiled patty", "drippings": "spooned back"}
    assert refusals(reference, dish("x", mince, components=[component])) == [
        ("/dishes/0/components/0/teaspoons", "missing_field")
    ]
    none, some = (
        foods(reference, dish("x", mince, components=[{**component, "teaspoons": n}]))["x"].value("fat_g")
        for n in (0, 10)
    )
    assert some > none
    assert refusals(reference, dish("x", mince, components=[{**component, "teaspoons": 900}])) == [
        ("/dishes/0/components/0", "spoons_exceed_drippings")
    ]
    poured = {**component, "drippings": "served", "teaspoons": 2}
    assert refusals(reference, dish("x", mince, components=[poured])) == [
        ("/dishes/0/components/0/teaspoons", "not_spooned_back")
    ]
