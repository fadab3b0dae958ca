"""An invented food row, for tests of the build."""

from dataclasses import replace

from reference_data.from_sr28.ascii_files import FoodRow

_PLAIN = FoodRow(
    number="99001",
    group="0100",
    description="Cheese, invented",
    manufacturer="",
    refuse_description="",
    refuse="0",
    nitrogen_factor="6.38",
    protein_factor="4.27",
    fat_factor="8.79",
    carbohydrate_factor="3.87",
)


def food_row(**changes: str) -> FoodRow:
    """A plain cheese but for the changes."""
    return replace(_PLAIN, **changes)
