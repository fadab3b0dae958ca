"""Weights as purchased: bones, shells and peel come off by the refuse of the food table.

By hand: edible portion = as purchased x (100 - refuse) / 100, with the refuse of USDA SR28, FOOD_DES: a whole chicken
31 % (05001), pork chops with their bone 25 % (10036), a whole egg 12 % (01123), an avocado 26 % (09037).
"""

import math

import pytest

from service.translate.reference import Reference
from tests.service.briefs import Document, brief, food
from tests.service.conftest import Refusals, Translate


def bought(name: str, number: str, **fields: object) -> Document:
    return food(name, number, weighed="as purchased", **fields)


@pytest.mark.parametrize(
    ("number", "as_bought_g", "edible_g"),
    [("05001", 1800, 1242), ("10036", 1000, 750), ("01123", 57, 50.16), ("09037", 200, 148), ("01001", 250, 250)],
)
def test_what_is_not_eaten_comes_off(translate: Translate, number: str, as_bought_g: float, edible_g: float) -> None:
    (item,) = translate(brief(bought("it", number, on_hand=f"{as_bought_g} g"))).pantry
    assert item.on_hand_g == pytest.approx(edible_g)


def test_every_weight_of_the_item_is_as_it_is_bought(translate: Translate) -> None:
    weights: Document = {"on_hand": "4 lb", "at_least": "1 kg", "at_most": "1.6 kg", "least_when_used": "200 g"}
    price = {"amount": 9, "per": "1 kg"}
    (chops,) = translate(brief(bought("chops", "10036", step="200 g", price=price, **weights))).pantry
    assert chops.on_hand_g == pytest.approx(0.75 * 4 * 453.59237)
    assert (chops.at_least_g, chops.least_when_used_g) == (750, 150)
    assert chops.at_most_g == pytest.approx(1200)
    assert chops.step is not None
    assert (chops.step.amount, chops.step.unit, chops.step.grams) == (200, "g", 150)
    assert chops.price_per_g == pytest.approx(9 / 750)


def test_without_a_word_a_weight_is_of_the_edible_portion(translate: Translate) -> None:
    for said in ({}, {"weighed": "edible portion"}):
        (item,) = translate(brief(food("chops", "10036", on_hand="1 kg", **said))).pantry
        assert item.on_hand_g == 1000


def test_what_is_in_already_may_be_weighed_as_it_was_bought(translate: Translate) -> None:
    (item,) = translate(brief(bought("chops", "10036", already_in="1 kg"))).pantry
    assert (item.at_least_g, item.at_most_g) == (750, 750)


def test_the_refuse_of_54_foods_is_not_known(reference: Reference) -> None:
    """So nothing below is about a food that the table may have mended since."""
    foods = (reference.catalogue.food(food_id) for food_id in reference.catalogue.ids)
    assert sum(math.isnan(each.refuse_percent) for each in foods) == 54


@pytest.mark.parametrize("number", ["09110", "11190", "11525"])  # goji berries, cornsalad, Tahitian taro
def test_a_food_whose_refuse_nobody_knows_is_refused(refusals: Refusals, number: str) -> None:
    assert refusals(brief(bought("it", number, on_hand="1 kg"))) == [("/pantry/0/weighed", "refuse_unknown")]


def test_the_same_food_is_taken_by_its_edible_portion(translate: Translate) -> None:
    assert translate(brief(food("goji berries", "09110", on_hand="1 kg"))).pantry[0].on_hand_g == 1000


@pytest.mark.parametrize("field", ["on_hand", "at_least", "at_most", "step", "least_when_used", "already_in"])
def test_a_household_measure_is_of_what_is_eaten_and_refused_as_purchased(refusals: Refusals, field: str) -> None:
    eggs = bought("eggs", "01123", **{field: "2 large"})
    assert refusals(brief(eggs)) == [(f"/pantry/0/{field}", "measure_as_purchased")]


def test_a_price_per_measure_is_refused_as_purchased_too(refusals: Refusals) -> None:
    eggs = bought("eggs", "01123", price={"amount": 3, "per": "12 large"})
    assert refusals(brief(eggs)) == [("/pantry/0/price/per", "measure_as_purchased")]


def test_a_measure_of_what_has_no_refuse_is_taken(translate: Translate) -> None:
    (butter,) = translate(brief(bought("butter", "01001", on_hand="2 tbsp"))).pantry
    assert butter.on_hand_g == pytest.approx(28.4)


def test_a_label_has_nothing_that_comes_off(translate: Translate) -> None:
    label = {"kind": "label", "per": "100 g", "fat_g": 30, "protein_g": 20, "total_carbohydrate_g": 1}
    document = brief({"name": "tin", "source": label, "weighed": "as purchased", "on_hand": "100 g"})
    assert translate(document).pantry[0].on_hand_g == 100
