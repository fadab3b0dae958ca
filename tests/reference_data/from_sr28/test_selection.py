import pytest

from reference_data.from_sr28.selection import Dropped, names_a_brand, why_dropped
from tests.reference_data.from_sr28.invented import food_row


@pytest.mark.parametrize(
    "description",
    [
        "Cheese, cheddar",
        "USDA Commodity, cheese, reduced fat",
        "Beverages, chocolate almond milk, fortified with vitamin D2 and E",
        "Chicken, rotisserie, BBQ, breast meat only",
        "Beverages, coffee, brewed, espresso, restaurant-prepared",
        'Beef, short loin, separable lean only, trimmed to 1/8" fat, all grades, raw',
    ],
)
def test_a_generic_food_stays(description: str) -> None:
    assert why_dropped(food_row(description=description)) is None


@pytest.mark.parametrize(
    ("changes", "reason"),
    [
        ({"manufacturer": "Invented Dairies, Inc."}, Dropped.MANUFACTURER),
        ({"group": "3600"}, Dropped.RESTAURANT),
        ({"description": "Soup, clear, corner restaurant"}, Dropped.RESTAURANT),
        ({"description": "Fast Food, Pizza Chain, thin crust"}, Dropped.RESTAURANT),
        ({"description": "Snacks, INVENTED'S crisps"}, Dropped.BRAND),
        ({"description": "Snacks, I&B crisps"}, Dropped.BRAND),
        ({"number": "01200"}, Dropped.BRAND_READ),
    ],
)
def test_a_food_that_names_a_maker_a_restaurant_or_a_brand_goes(changes: dict[str, str], reason: Dropped) -> None:
    assert why_dropped(food_row(**changes)) is reason


def test_a_measure_that_names_a_brand_goes_and_others_stay() -> None:
    assert names_a_brand("jar Invented Stage 2 (4 oz)")
    assert not names_a_brand("cup, shredded")
    assert not names_a_brand("NLEA serving")
    assert not names_a_brand("steak (Yield from 448 g raw meat)")
