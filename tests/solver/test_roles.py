"""What foods are in a dish for. Common practice, no source; the foods are those of the table."""

import pytest

from solver.catalogue import Catalogue
from solver.roles import Role, role_of, unlikeness


@pytest.mark.parametrize(
    ("food", "role"),
    [
        ("sr28:01001", Role.FAT),  # butter
        ("sr28:01053", Role.FAT),  # cream, heavy whipping
        ("sr28:04053", Role.FAT),  # olive oil
        ("sr28:04002", Role.FAT),  # lard
        ("sr28:23572", Role.PROTEIN),  # ground beef
        ("sr28:15236", Role.PROTEIN),  # salmon
        ("sr28:01009", Role.PROTEIN),  # cheddar
        ("sr28:01123", Role.BINDER),  # egg
        ("sr28:01125", Role.BINDER),  # egg yolk
        ("sr28:14411", Role.LIQUID),  # water
        ("sr28:02047", Role.SALT),  # table salt
        ("sr28:12536", Role.PROTEIN),  # sunflower seeds, salted: 6 g of sodium in 100 g
        ("sr28:01129", Role.PROTEIN),  # a hard-boiled egg binds no more
        ("sr28:11282", Role.BULK),  # onion
        ("sr28:11457", Role.BULK),  # spinach
    ],
)
def test_a_food_is_there_for_what_it_brings(catalogue: Catalogue, food: str, role: Role) -> None:
    assert role_of(catalogue.food(food)) is role


def test_nuts_and_fat_meat_are_not_in_a_dish_for_their_fat_alone(catalogue: Catalogue) -> None:
    assert role_of(catalogue.food("sr28:12131")) is not Role.FAT  # macadamia nuts
    assert role_of(catalogue.food("sr28:10123")) is not Role.FAT  # bacon, raw


def test_a_food_is_like_itself_and_butter_is_liker_to_lard_than_to_spinach(catalogue: Catalogue) -> None:
    butter, lard, spinach = (catalogue.food(f"sr28:{number}") for number in ("01001", "04002", "11457"))
    assert unlikeness(butter, butter) == 0
    assert unlikeness(butter, lard) == unlikeness(lard, butter) < unlikeness(butter, spinach)
