"""What cannot be is refused where it stands in a dish, once, and with a remedy."""

import pytest
from pydantic import ValidationError

from service.schemas.dish_source import DishBody
from service.translate.reference import Reference
from tests.service.dishes_of_briefs import MAYONNAISE, OIL, WATER, Fields, dish, from_dish, read, refusals, table


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


def test_an_unused_dish_is_fine_and_a_refused_one_is_refused_once(reference: Reference) -> None:
    broken = dish("spice mix", table("paprika", "02028", "2 handfuls"))
    uses = dish("rub", from_dish("spices", "spice mix", "5 g"))
    found, problems = read(reference, broken, uses, MAYONNAISE)
    pointers = [(problem.pointer, problem.code) for problem in problems]
    assert pointers == [("/dishes/0/ingredients/0/amount", "unknown_measure")]
    assert found["mayonnaise"] is not None
    assert found["rub"] is None


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
