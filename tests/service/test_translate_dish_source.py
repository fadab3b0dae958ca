"""Dishes of a brief as foods: what a kitchen writes of them, in any order and to any depth."""

from collections.abc import Mapping
from typing import Any, TypeAlias

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pydantic import TypeAdapter, ValidationError

from reference_data import reference_folder
from service.schemas.dish_source import DishBody
from service.translate.amounts import grams_of
from service.translate.dish_source import to_dishes
from service.translate.place import Place
from service.translate.reference import Reference, open_reference
from solver.catalogue import Catalogue
from solver.errors import Problem
from solver.foods import Food

_BODIES = TypeAdapter(list[DishBody])

Fields: TypeAlias = dict[str, Any]


@pytest.fixture(scope="session")
def reference(catalogue: Catalogue) -> Reference:
    return open_reference(reference_folder(), catalogue)


def table(name: str, number: str, amount: str, **fields: object) -> Fields:
    return {"name": name, "source": {"kind": "food", "id": f"sr28:{number}"}, "amount": amount, **fields}


def from_dish(name: str, dish: str, amount: str) -> Fields:
    return {"name": name, "source": {"kind": "dish", "name": dish}, "amount": amount}


def dish(name: str, *ingredients: Fields, **fields: object) -> Fields:
    return {"name": name, "ingredients": list(ingredients), **fields}


def read(reference: Reference, *dishes: Fields) -> tuple[Mapping[str, Food | None], list[Problem]]:
    place = Place(("dishes",))
    return to_dishes(_BODIES.validate_python(list(dishes)), reference, {}, place), place.problems


def foods(reference: Reference, *dishes: Fields) -> dict[str, Food]:
    found, problems = read(reference, *dishes)
    assert problems == []
    return {name: food for name, food in found.items() if food is not None}


def refusals(reference: Reference, *dishes: Fields) -> list[tuple[str, str]]:
    _, problems = read(reference, *dishes)
    assert all(problem.detail.endswith(".") and problem.remedy.endswith(".") for problem in problems)
    return [(problem.pointer, problem.code) for problem in problems]


OIL = table("oil", "04582", "1 cup")
YOLK = table("yolk", "01125", "1 large")
VINEGAR = table("vinegar", "02053", "1 tbsp")
WATER = table("water", "14429", "500 g")
SPICES = dish("spice mix", table("paprika", "02028", "2 tbsp"), table("garlic powder", "02020", "1 tbsp"))
AIOLI = dish("aioli", from_dish("base", "mayonnaise", "1/2 cup"), table("garlic", "11215", "3 cloves"))
MAYONNAISE = dish("mayonnaise", OIL, YOLK, VINEGAR, makes="1 1/4 cups")


def test_two_spoons_of_paprika_and_one_of_garlic_powder(reference: Reference) -> None:
    mix = foods(reference, SPICES)["spice mix"]
    # USDA SR28 02028 and 02020: spoons of 6.8 and 9.7 g, 19.09 and 63.73 g available carbohydrate in 100 g.
    assert mix.value("available_carbohydrate_g") * 23.3 / 100 == pytest.approx(8.8, abs=0.05)


def test_what_a_dish_makes_is_how_it_is_measured_afterwards(reference: Reference) -> None:
    mayonnaise = foods(reference, MAYONNAISE)["mayonnaise"]
    whole = 218 + 17 + 14.9  # USDA SR28: 1 cup of oil 218 g, 1 large yolk 17 g, 1 tbsp of vinegar 14.9 g
    assert mayonnaise.made is not None
    assert sum(part.grams for part in mayonnaise.made.ingredients) == pytest.approx(100)
    assert grams_of("1 1/4 cups", mayonnaise, Place()) == pytest.approx(whole)
    assert grams_of("1 tbsp", mayonnaise, Place()) == pytest.approx(whole / 20)
    assert grams_of("0.5 cup", mayonnaise, Place()) == pytest.approx(whole * 0.4)


@pytest.mark.parametrize(
    ("makes", "weighs", "asked", "weight"),
    [
        ("250 g", None, "100 g", 100.0),
        ("0.25 kg", None, "1 oz", 28.349523125),
        ("1 1/2 cups", "310 g", "1 cup", 310 / 1.5),
        ("1 cup + 2 tbsp", "310 g", "1 cup", 310 / 1.125),
        ("12 pieces", "300 g", "1 piece", 25.0),
        ("24 balls", "480 g", "2 balls", 40.0),
        ({"value": 1.5, "unit": "cups"}, "310 g", "2 tbsp", 310 / 12),
    ],
)
def test_a_weight_or_a_measure_says_what_it_makes(
    reference: Reference, makes: object, weighs: str | None, asked: str, weight: float
) -> None:
    fields = {"makes": makes} if weighs is None else {"makes": makes, "weighs": weighs}
    sauce = foods(reference, dish("sauce", OIL, WATER, **fields))["sauce"]
    assert grams_of(asked, sauce, Place()) == pytest.approx(weight)
    total = 250.0 if weighs is None else float(weighs.removesuffix(" g"))
    assert sauce.value("fat_g") == pytest.approx(218 / total * 100)


def test_a_measure_without_a_weight_says_what_is_taken_for_its_weight(reference: Reference) -> None:
    said = "mayonnaise is taken to weigh 249.9 g, what went into it and stayed, since its weight is not given."
    assert said in foods(reference, MAYONNAISE)["mayonnaise"].remarks


def test_a_dish_that_makes_a_weight_alone_has_no_cup(reference: Reference) -> None:
    sauce = foods(reference, dish("sauce", WATER, makes="250 g"))["sauce"]
    place = Place()
    assert grams_of("1 cup", sauce, place) is None
    assert [problem.code for problem in place.problems] == ["no_density"]


def test_dishes_may_come_in_any_order(reference: Reference) -> None:
    forward, backward = foods(reference, MAYONNAISE, AIOLI), foods(reference, AIOLI, MAYONNAISE)
    assert {name: food.id for name, food in forward.items()} == {name: food.id for name, food in backward.items()}
    assert list(backward) == ["aioli", "mayonnaise"]


def test_a_circle_is_refused_with_its_path(reference: Reference) -> None:
    aioli = dish("aioli", OIL, from_dish("spices", "spice mix", "5 g"))
    mix = dish("spice mix", *SPICES["ingredients"], from_dish("aioli", "aioli", "1 g"))
    found, problems = read(reference, aioli, mix, dish("dip", from_dish("aioli", "aioli", "10 g")))
    assert [(problem.pointer, problem.code) for problem in problems] == [
        ("/dishes/1/ingredients/2/source/name", "dish_circle")
    ]
    assert "aioli -> spice mix -> aioli" in problems[0].detail
    assert set(found.values()) == {None}


def test_a_dish_in_itself_is_the_smallest_circle(reference: Reference) -> None:
    _, (problem,) = read(reference, dish("aioli", OIL, from_dish("aioli", "aioli", "5 g")))
    assert problem.pointer == "/dishes/0/ingredients/1/source/name"
    assert "aioli -> aioli." in problem.detail


def test_a_long_circle_is_not_written_out(reference: Reference) -> None:
    ring = [dish(f"dish {n}", OIL, from_dish("next", f"dish {(n + 1) % 300}", "5 g")) for n in range(300)]
    _, (problem,) = read(reference, *ring)
    assert problem.code == "dish_circle"
    assert len(problem.detail) < 400
    assert "288 more" in problem.detail


def test_a_chain_of_two_hundred_dishes_is_made_whatever_its_order(reference: Reference) -> None:
    chain = [dish("dish 0", WATER, table("salt", "02047", "10 g"))]
    chain += [dish(f"dish {n}", from_dish("base", f"dish {n - 1}", "100 g"), makes="99 g") for n in range(1, 200)]
    last = foods(reference, *chain[::-1])["dish 199"]
    salt = 10 * 38758 / 100 / 510 * 100  # USDA SR28 02047: 38758 mg sodium in 100 g; water 14429 adds 3 mg
    assert last.value("sodium_mg") == pytest.approx((salt + 500 * 3 / 510) * (100 / 99) ** 199, rel=1e-9)


def test_an_unknown_dish_is_met_with_its_neighbours(reference: Reference) -> None:
    _, (problem,) = read(reference, MAYONNAISE, dish("dip", from_dish("base", "mayonaise", "5 g")))
    assert (problem.pointer, problem.code) == ("/dishes/1/ingredients/0/source/name", "unknown_dish")
    assert "mayonnaise" in problem.remedy


def test_a_label_and_an_unknown_food(reference: Reference) -> None:
    label = {"kind": "label", "per": "100 g", "fat_g": 20, "protein_g": 1, "total_carbohydrate_g": 3, "fibre_g": 0}
    cream = {"name": "cream", "source": label, "amount": "50 g"}
    assert foods(reference, dish("dip", cream, WATER))["dip"].value("fat_g") == pytest.approx(10 / 5.5)
    unknown = dish("dip", {"name": "x", "source": {"kind": "food", "id": "sr28:99999"}, "amount": "5 g"})
    assert refusals(reference, unknown) == [("/dishes/0/ingredients/0/source/id", "unknown_food")]


def test_an_unused_dish_is_fine_and_a_refused_one_is_refused_once(reference: Reference) -> None:
    broken = dish("spice mix", table("paprika", "02028", "2 handfuls"))
    uses = dish("rub", from_dish("spices", "spice mix", "5 g"))
    found, problems = read(reference, broken, uses, MAYONNAISE)
    pointers = [(problem.pointer, problem.code) for problem in problems]
    assert pointers == [("/dishes/0/ingredients/0/amount", "unknown_measure")]
    assert found["mayonnaise"] is not None
    assert found["rub"] is None


def test_stock_of_bones_strained_and_skimmed(reference: Reference) -> None:
    wings, butter = table("wings", "05100", "1 kg"), table("butter", "01001", "50 g")
    stock = dish("stock", wings, WATER, butter, strained_out=["wings"], skimmed_fat="30 g", makes="250 g")
    made = foods(reference, stock)["stock"]
    assert made.value("fat_g") * 2.5 == pytest.approx(0.5 * 81.11 - 30)  # USDA SR28 01001: 81.11 g fat in 100 g


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


@pytest.mark.parametrize(
    ("fields", "refusal"),
    [
        ({"makes": "5 kg"}, ("makes", "yield_exceeds_ingredients")),
        ({"makes": "3 cups", "weighs": "5 kg"}, ("weighs", "yield_exceeds_ingredients")),
        ({"makes": "100 g"}, ("makes", "yield_below_dry_matter")),
        ({"makes": "250 g", "weighs": "250 g"}, ("weighs", "two_weights")),
        ({"makes": "a lot"}, ("makes", "unreadable_amount")),
        ({"makes": "12"}, ("makes", "unknown_measure")),
        ({"makes": "0 g"}, ("makes", "not_positive")),
        ({"makes": "0 cups"}, ("makes", "not_positive")),
        ({"makes": "0.000001 tsp"}, ("makes", "not_an_amount")),
        ({"makes": "1000000 cups", "weighs": "230 g"}, ("makes", "not_an_amount")),
        ({"makes": "1 cup"}, ("makes", "yield_needs_weight")),
        ({"makes": "1 cup, cooked down"}, ("makes", "yield_needs_weight")),
        ({"makes": "1 cup", "weighs": "600 g"}, ("weighs", "not_an_amount")),
        ({"makes": "2 cups + 3 pieces"}, ("makes", "several_parts")),
        ({"weighs": "2 cups"}, ("weighs", "no_density")),
        ({"strained_out": ["bones"]}, ("strained_out/0", "unknown_ingredient")),
        ({"discarded": [{"name": "bones", "amount": "1 g"}]}, ("discarded/0/name", "unknown_ingredient")),
        ({"discarded": [{"name": "water", "amount": "501 g"}]}, ("discarded", "discarded_exceeds_ingredient")),
        ({"skimmed_fat": "219 g"}, ("skimmed_fat", "skimmed_exceeds_fat")),
        ({"skimmed_fat": "1 cup"}, ("skimmed_fat", "no_density")),
        ({"strained_out": ["water", "oil"]}, ("", "dish_of_nothing")),
        ({"name": " "}, ("name", "blank")),
    ],
)
def test_what_cannot_be_is_refused_where_it_is(reference: Reference, fields: Fields, refusal: tuple[str, str]) -> None:
    at = f"/dishes/0/{refusal[0]}" if refusal[0] else "/dishes/0"
    assert refusals(reference, {**dish("sauce", OIL, WATER), **fields}) == [(at, refusal[1])]


@pytest.mark.parametrize(
    ("goes_in", "components", "code"),
    [
        ("pot", None, "no_components"),
        (None, ["pot", "pan"], "goes_nowhere"),
        ("tray", ["pot", "pan"], "unknown_component"),
    ],
)
def test_an_ingredient_goes_into_one_component(
    reference: Reference, goes_in: str | None, components: list[str] | None, code: str
) -> None:
    named = None if components is None else [{"name": name} for name in components]
    asked = dish("sauce", {**WATER, "goes_in": goes_in}, components=named)
    assert refusals(reference, asked) == [("/dishes/0/ingredients/0/goes_in", code)]


def test_names_are_unique(reference: Reference) -> None:
    assert refusals(reference, MAYONNAISE, {**MAYONNAISE, "name": "Mayonnaise "}) == [
        ("/dishes/1/name", "repeated_name")
    ]
    assert refusals(reference, dish("sauce", OIL, {**WATER, "name": "Oil"})) == [
        ("/dishes/0/ingredients/1/name", "repeated_name")
    ]


_NAMES = st.sampled_from(["a", "b", "c"])
_AMOUNTS = st.sampled_from(["1 g", "250 g", "1 cup", "2 tbsp", "0 g", "1", "1000000 kg", "0.001 mg", "1 cup + 1 piece"])
_LABELS: list[Fields] = [
    {"kind": "label", "per": "100 g", **values}
    for values in ({}, {"fat_g": 100.0}, {"water_g": 100.0, "energy_kcal": 1e6}, {"fat_g": 0.0})
]
_SOURCES = st.one_of(
    st.builds(lambda name: {"kind": "dish", "name": name}, _NAMES),
    st.sampled_from(["sr28:01001", "sr28:14429", "sr28:23572", "sr28:02047", "x"]).map(
        lambda food: {"kind": "food", "id": food}
    ),
    st.sampled_from(_LABELS),
)
_COMPONENTS = st.fixed_dictionaries(
    {"name": _NAMES},
    optional={
        "method": st.sampled_from(["broiled patty", "roasted", "simmered", "x"]),
        "drippings": st.sampled_from(["discarded", "served", "spooned back"]),
        "cooked_weight": _AMOUNTS,
        "drippings_weight": _AMOUNTS,
        "teaspoons": st.integers(0, 9),
    },
)
_DISHES = st.fixed_dictionaries(
    {
        "name": _NAMES,
        "ingredients": st.lists(
            st.fixed_dictionaries(
                {"name": _NAMES, "source": _SOURCES, "amount": _AMOUNTS}, optional={"goes_in": _NAMES}
            ),
            min_size=1,
            max_size=3,
        ),
    },
    optional={
        "components": st.lists(_COMPONENTS, min_size=1, max_size=2),
        "makes": _AMOUNTS,
        "weighs": _AMOUNTS,
        "strained_out": st.lists(_NAMES, min_size=1, max_size=2),
        "skimmed_fat": _AMOUNTS,
        "discarded": st.lists(st.fixed_dictionaries({"name": _NAMES, "amount": _AMOUNTS}), min_size=1, max_size=2),
    },
)


@settings(max_examples=300, deadline=None)
@given(dishes=st.lists(_DISHES, min_size=1, max_size=4))
def test_any_dishes_are_made_or_refused(reference: Reference, dishes: list[Fields]) -> None:
    found, problems = read(reference, *dishes)
    assert problems or all(food is not None for food in found.values())
    for food in found.values():
        if food is not None:
            assert all(value >= 0 for value in food.per_100g if value == value)  # noqa: PLR0124  NaN is missing
            assert food.value("fat_g") <= 100 * (1 + 1e-6) or food.is_missing("fat_g")


@pytest.mark.parametrize(
    "fields",
    [
        {"ingredients": []},
        {"ingredients": [{**OIL, "source": {"kind": "recipe", "name": "x"}}]},
        {"ingredients": [{**OIL, "source": {"kind": "dish"}}]},
        {"makes": 250},
        {"strained_out": []},
        {"yields": "250 g"},
    ],
)
def test_a_dish_out_of_shape_is_refused_by_the_schema(fields: Fields) -> None:
    with pytest.raises(ValidationError):
        DishBody.model_validate({**MAYONNAISE, **fields})
