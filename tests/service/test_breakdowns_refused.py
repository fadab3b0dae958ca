"""What a breakdown is refused for, and where; and dishes in dishes as deep as anybody writes them."""

import httpx2
import pytest

from tests.service.asking import Document, breakdown_of, places_of, refusal
from tests.service.briefs import PATTIES, TABLE, brief, food, from_dish

MEAT = food("meat", "13498", amount="900 g")
SPOONED = {**PATTIES, "teaspoons": 5}
POURED_OFF = {**SPOONED, "drippings_weight": "271 g"}
DISH: Document = {"title": "patties", "ingredients": [MEAT], "components": [SPOONED]}


def division(kind: str, **fields: object) -> Document:
    return {"division": {"kind": kind, **fields}}


def shares(*names: str) -> Document:
    return division("shares", portions=[{"name": name, "parts": 1} for name in names])


def weighing(name: str, weight: str) -> Document:
    return division("weight", portions=[{"name": name, "weight": weight}])


def eating(pieces: int) -> Document:
    return division("pieces", cut_into=3, eats=[{"name": "a", "pieces": pieces}])


def declared(**fields: object) -> Document:
    return {"declared": fields}


CASES: list[tuple[Document, str, str]] = [
    ({"title": "two\nlines"}, "/title", "not_printable"),
    ({"ingredients": []}, "/ingredients", "wrong_length"),
    ({"ingredients": [food("meat", "13498")]}, "/ingredients/0/amount", "missing_field"),
    ({"ingredients": [{**MEAT, "name": " "}]}, "/ingredients/0/name", "blank"),
    ({"ingredients": [MEAT, {**MEAT, "name": "Meat "}]}, "/ingredients/1/name", "repeated_name"),
    ({"ingredients": [food("meat", "00000", amount="9 g")]}, "/ingredients/0/source/id", "unknown_food"),
    ({"ingredients": [{**MEAT, "amount": "some"}]}, "/ingredients/0/amount", "unreadable_amount"),
    ({"ingredients": [{**MEAT, "amount": "0 g"}]}, "/ingredients/0/amount", "not_positive"),
    ({"ingredients": [{**MEAT, "amount": "11 kg"}]}, "/ingredients/0/amount", "not_an_amount"),
    ({"ingredients": [{**MEAT, "goes_in": "pattys"}]}, "/ingredients/0/goes_in", "unknown_component"),
    ({"ingredients": [{**MEAT, "on_hand": "1 kg"}]}, "/ingredients/0/on_hand", "unknown_field"),
    ({"ingredients": [from_dish("rub", "rub", amount="9 g")]}, "/ingredients/0/source/name", "unknown_dish"),
    ({"ingredients": [{**MEAT, "name": f"{n}"} for n in range(201)]}, "/ingredients", "too_many"),
    ({"components": [SPOONED, TABLE]}, "/ingredients/0/goes_in", "goes_nowhere"),
    ({"components": [PATTIES]}, "/components/0/teaspoons", "missing_field"),
    ({"components": [{**SPOONED, "drippings": "served"}]}, "/components/0/teaspoons", "not_spooned_back"),
    ({"components": [{**SPOONED, "teaspoons": 1.5}]}, "/components/0/teaspoons", "wrong_type"),
    ({"components": [{**SPOONED, "teaspoons": 42}]}, "/components/0", "spoons_exceed_drippings"),
    ({"components": [{**SPOONED, "cooked_weight": "905 g"}]}, "/components/0/cooked_weight", "heavier_than_raw"),
    (
        {"components": [{**SPOONED, "drippings_weight": "271 g"}]},
        "/components/0/drippings_weight",
        "drippings_exceed_fat",
    ),
    ({"components": [{**SPOONED, "method": "singed"}]}, "/components/0/method", "unknown_method"),
    ({"count_missing_as": {"fiber_g": 0}}, "/count_missing_as/fiber_g", "unknown_nutrient"),
    ({"targets": []}, "/targets", "unknown_field"),
    ({"nutrition_as": "UK"}, "/nutrition_as", "unknown_value"),
    ({"energy_basis": "mine"}, "/energy_basis", "unknown_value"),
    ({"eater": {"conditions": ["flu"]}}, "/eater/conditions/0", "unknown_value"),
    ({"division": {}}, "/division", "missing_field"),
    (division("halves"), "/division", "unknown_value"),
    (division("equal", portions=0), "/division/portions", "out_of_range"),
    (division("equal", portions=4, scale="5 g"), "/division/scale", "unknown_value"),
    (division("pieces", cut_into=3), "/division/eats", "missing_field"),
    (eating(4), "/division/eats", "no_pieces_left"),
    (shares("a", "a"), "/division/portions/1/name", "repeated_portion"),
    (shares("leftovers"), "/division/portions/0/name", "repeated_portion"),
    (weighing("a", "2 kg"), "/division/portions", "portions_exceed_batch"),
    (weighing("a", "2 cups"), "/division/portions/0/weight", "no_density"),
    (weighing("\x07", "2 g"), "/division/portions/0/name", "not_printable"),
    (declared(energy_kcal="lots"), "/declared/energy_kcal", "unreadable_label_value"),
    (declared(energy_kcal=True), "/declared/energy_kcal", "wrong_type"),
    (declared(kcal=3), "/declared/kcal", "unknown_field"),
    (declared(per="3 cups", fat_g=3), "/declared/per", "no_density"),
    (
        declared(total_carbohydrate_g=1, available_carbohydrate_g=1),
        "/declared/available_carbohydrate_g",
        "both_carbohydrates",
    ),
    (declared(factors_kcal_per_g={"fat": 9}), "/declared/factors_kcal_per_g/protein", "missing_field"),
]


@pytest.mark.parametrize(("changes", "pointer", "code"), CASES)
def test_each_refusal_has_its_place(client: httpx2.Client, changes: Document, pointer: str, code: str) -> None:
    document = refusal(client.post("/v1/breakdowns", json={**DISH, **changes}))
    assert (pointer, code) in places_of(document)
    assert all(each["detail"] and each["remedy"] for each in document["problems"])


@pytest.mark.parametrize(
    ("field", "hint"),
    [("portion", "portions"), ("devision", "division"), ("energy_base", "energy_basis"), ("target", None)],
)
def test_a_misspelt_field_is_met_with_the_nearest_of_a_dish(
    client: httpx2.Client, field: str, hint: str | None
) -> None:
    (problem,) = refusal(client.post("/v1/breakdowns", json={**DISH, field: 1}))["problems"]
    assert problem["pointer"] == f"/{field}"
    assert problem["remedy"].partition("The nearest is ")[2] == (f"{hint}." if hint else "")


def test_all_that_is_wrong_is_found_at_once(client: httpx2.Client) -> None:
    wrong = {**DISH, "title": " ", **shares("\x07"), **declared(energy_kcal="lots")}
    wrong["ingredients"] = [{**MEAT, "amount": "some"}]
    assert places_of(refusal(client.post("/v1/breakdowns", json=wrong))) == [
        ("/title", "blank"),
        ("/ingredients/0/amount", "unreadable_amount"),
        ("/declared/energy_kcal", "unreadable_label_value"),
        ("/division/portions/0/name", "not_printable"),
    ]


def test_nothing_without_energy_is_divided_by_energy(client: httpx2.Client) -> None:
    by_energy = division("energy", portions=[{"name": "a", "energy_kcal": 1}])
    water = {"title": "water", "ingredients": [food("water", "14411", amount="1 cup")], **by_energy}
    assert places_of(refusal(client.post("/v1/breakdowns", json=water))) == [("/division", "nothing_to_divide")]


def ring(*names: str) -> list[Document]:
    """Dishes of which each goes into the next, and the last into the first."""
    return [
        {"name": name, "ingredients": [from_dish("part", other, amount="10 g")]}
        for name, other in zip(names, (*names[1:], names[0]), strict=True)
    ]


@pytest.mark.parametrize("address", ["/v1/breakdowns", "/v1/plans"])
def test_a_circle_of_dishes_is_refused_with_its_path(client: httpx2.Client, address: str) -> None:
    rings = {"dishes": ring("stock", "sauce", "glaze")}
    bodies = {
        "/v1/breakdowns": {"title": "x", "ingredients": [from_dish("a", "stock", amount="1 g")], **rings},
        "/v1/plans": brief(from_dish("a", "stock"), food("oil", "04053"), **rings),
    }
    (problem,) = refusal(client.post(address, json=bodies[address]))["problems"]
    assert (problem["pointer"], problem["code"]) == ("/dishes/2/ingredients/0/source/name", "dish_circle")
    assert "stock -> sauce -> glaze -> stock" in problem["detail"]


def nest(depth: int) -> list[Document]:
    """Oil in a dish in a dish, so deep."""
    first: Document = {"name": "dish 0", "ingredients": [food("oil", "04053", amount="10 g")]}
    others = (
        {"name": f"dish {n}", "ingredients": [from_dish("it", f"dish {n - 1}", amount="10 g")]} for n in range(1, depth)
    )
    return [first, *others]


@pytest.mark.parametrize("turned", [False, True])
def test_two_hundred_nested_dishes_are_the_oil_inside(client: httpx2.Client, turned: bool) -> None:  # noqa: FBT001  a parameter of the test
    dishes = nest(200)[::-1] if turned else nest(200)
    whole = {"title": "deep", "ingredients": [from_dish("it", "dish 199", amount="10 g")], "dishes": dishes}
    assert breakdown_of(client, whole)["batch"]["nutrients"]["fat_g"] == pytest.approx(10)


def test_one_dish_more_is_refused(client: httpx2.Client) -> None:
    whole = {"title": "deep", "ingredients": [MEAT], "dishes": nest(201)}
    assert places_of(refusal(client.post("/v1/breakdowns", json=whole))) == [("/dishes", "wrong_length")]


def test_dishes_that_all_go_into_each_other_twice_are_answered(client: httpx2.Client) -> None:
    """Each path through these is followed once, not two to the power of their number times."""
    twice = nest(100)
    for dish in twice[1:]:
        again = dish["ingredients"][0]
        dish["ingredients"] = [again, {**again, "name": "it again"}]
    whole = {"title": "wide", "ingredients": [from_dish("it", "dish 99", amount="10 g")], "dishes": twice}
    assert breakdown_of(client, whole)["batch"]["nutrients"]["fat_g"] == pytest.approx(10)
