"""What the cooking table says of a food, as the contract has it."""

import pytest

from service.translate.reference import Reference
from service.translate.to_cooking import CookingOf, cooking_by
from solver.catalogue import Catalogue


@pytest.fixture(scope="module")
def cooking_of(reference: Reference) -> CookingOf:
    return cooking_by(reference.cooking)


def test_a_thigh_roasted_is_measured_and_hot_air_is_said_to_be_estimated(
    cooking_of: CookingOf, catalogue: Catalogue
) -> None:
    methods = {row.method: row for row in cooking_of(catalogue.food("sr28:05091")).methods}
    assert methods["roasted"].evidence == "measured"
    assert methods["hot air"].evidence == "estimated"
    assert "no pairs with hot air exist" in methods["hot air"].why


def test_mince_comes_with_its_mixes_and_a_curve_of_several_lines(cooking_of: CookingOf, catalogue: Catalogue) -> None:
    mixes = {row.mix: row for row in cooking_of(catalogue.food("sr28:23572")).mixes}
    assert len(mixes["broiled patty"].segments) == 3
    assert mixes["broiled patty"].rows == 11


def test_what_nothing_applies_to_says_why(cooking_of: CookingOf, catalogue: Catalogue) -> None:
    butter = cooking_of(catalogue.food("sr28:01001"))
    assert (butter.mixes, butter.methods) == ([], [])
    assert butter.none_because


def test_every_food_of_the_table_has_methods_or_a_reason(cooking_of: CookingOf, catalogue: Catalogue) -> None:
    for food_id in catalogue.ids[::97]:
        answer = cooking_of(catalogue.food(food_id))
        assert bool(answer.methods) == (answer.none_because is None), food_id
