"""The pantry of a brief as the solver's items."""

from collections import Counter

from service.schemas.brief import FoodSource, PantryItemBody, PriceBody
from service.search.index import FoodSearch
from service.search.nearest import nearest_foods
from service.translate.amounts import grams_of, positive_grams_of, step_of
from service.translate.labels import label_food
from service.translate.names import refuse_unprintable
from service.translate.place import Place
from solver.catalogue import Catalogue
from solver.foods import Food
from solver.pantry import PantryItem


def to_pantry(
    bodies: list[PantryItemBody], catalogue: Catalogue, place: Place, search: FoodSearch | None = None
) -> tuple[PantryItem, ...]:
    """The items in the brief's order. Those that are refused at `place` are left out."""
    _refuse_equal_names(bodies, place)
    items = (_item(body, catalogue, place / index, search) for index, body in enumerate(bodies))
    return tuple(item for item in items if item is not None)


def _refuse_equal_names(bodies: list[PantryItemBody], place: Place) -> None:
    seen: Counter[str] = Counter()
    for index, body in enumerate(bodies):
        key = body.name.strip().casefold()
        seen[key] += 1
        if seen[key] > 1:
            detail, remedy = "Another item has this name.", "Give each item a name of its own."
            (place / index / "name").refuse("repeated_name", detail, remedy)


def _item(body: PantryItemBody, catalogue: Catalogue, place: Place, search: FoodSearch | None) -> PantryItem | None:
    refuse_unprintable(body.name, place / "name")
    food = _food(body, catalogue, place / "source", search)
    if food is None:
        return None
    return PantryItem(
        name=body.name.strip(),
        food=food,
        on_hand_g=grams_of(body.on_hand, food, place / "on_hand"),
        at_least_g=grams_of(body.at_least, food, place / "at_least") or 0.0,
        at_most_g=grams_of(body.at_most, food, place / "at_most"),
        step=step_of(body.step, food, place / "step"),
        least_when_used_g=positive_grams_of(body.least_when_used, food, place / "least_when_used"),
        price_per_g=_price_per_g(body.price, food, place / "price"),
    )


def _food(body: PantryItemBody, catalogue: Catalogue, place: Place, search: FoodSearch | None) -> Food | None:
    source = body.source
    if not isinstance(source, FoodSource):
        return label_food(body.name.strip(), source, place)
    if source.id in catalogue:
        return catalogue.food(source.id)
    remedy = "Ids look like sr28:01123."
    if search is not None and not place.is_full:
        remedy = nearest_foods(source.id, catalogue, search, body.name)
    (place / "id").refuse("unknown_food", "No reference food has this id.", remedy)
    return None


def _price_per_g(price: PriceBody | None, food: Food, place: Place) -> float | None:
    if price is None:
        return None
    weight = positive_grams_of(price.per, food, place / "per")
    return None if weight is None else price.amount / weight
