"""Gelatine, collagen and pork rind, by the names of USDA SR28 and of labels."""

import pytest

from solver.catalogue import Catalogue
from solver.collagen import is_collagen
from tests.solver.larder import food


def test_the_food_table_has_three_foods_of_collagen(catalogue: Catalogue) -> None:
    found = {food_id for food_id in catalogue.ids if is_collagen(catalogue.food(food_id))}
    assert {catalogue.food(food_id).name for food_id in found} == {
        "Gelatins, dry powder, unsweetened",
        "Snacks, pork skins, plain",
        "Snacks, pork skins, barbecue-flavor",
    }


@pytest.mark.parametrize("name", ["Gelatine leaves", "collagen peptides", "Pork rinds", "pork crackling", "aspic"])
def test_labels_are_told_by_their_words(name: str) -> None:
    assert is_collagen(food(name))


@pytest.mark.parametrize(
    "name", ["chicken skin", "Chicken, skin only, raw", "gelatine-free pudding", "Gelatin desserts"]
)
def test_skin_of_poultry_and_desserts_are_not(name: str) -> None:
    assert not is_collagen(food(name))
