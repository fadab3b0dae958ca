"""The pantry of a brief as the solver's items."""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import date

from service.schemas.brief import PantryItemBody, PriceBody
from service.translate.at_home import refuse_unsuited
from service.translate.dish_food import food_of_source
from service.translate.goes_in import placed_of
from service.translate.names import refuse_equal_names, refuse_unprintable
from service.translate.place import Place
from service.translate.reference import Reference
from service.translate.weighing import Weighing, weighing
from solver.components import Component
from solver.foods import Food
from solver.pantry import PantryItem

_LIMITS = ("on_hand", "at_least", "at_most", "step", "least_when_used")


def to_pantry(
    bodies: Sequence[PantryItemBody],
    components: Sequence[Component],
    dishes: Mapping[str, Food | None],
    reference: Reference,
    place: Place,
) -> tuple[PantryItem, ...]:
    """The items in the brief's order. Those that are refused at `place` are left out. dishes: by name."""
    refuse_equal_names((body.name for body in bodies), place, "item")
    items = (_item(body, components, dishes, reference, place / index) for index, body in enumerate(bodies))
    return tuple(item for item in items if item is not None)


def _item(
    body: PantryItemBody,
    components: Sequence[Component],
    dishes: Mapping[str, Food | None],
    reference: Reference,
    place: Place,
) -> PantryItem | None:
    refuse_unprintable(body.name, place / "name")
    food = food_of_source(body.name.strip(), body.source, dishes, reference, place / "source")
    if food is None:
        return None
    refuse_unsuited(body, place)
    weigh = weighing(body, food, place)
    item = PantryItem(
        name=body.name.strip(),
        food=food,
        on_hand_g=weigh.grams("on_hand"),
        at_least_g=weigh.grams("at_least") or 0.0,
        at_most_g=weigh.grams("at_most"),
        step=weigh.step(),
        least_when_used_g=weigh.positive_grams("least_when_used"),
        price_per_g=_price_per_g(body.price, weigh),
        placed=placed_of(body, food, components, reference, place),
        use_by=_use_by(body.use_by, place / "use_by"),
        use_up_order=body.use_up_order,
        to_buy=body.to_buy,
        edible_g_per_g=weigh.edible,
    )
    return item if body.already_in is None else _settled(item, body, weigh, place)


def _settled(item: PantryItem, body: PantryItemBody, weigh: Weighing, place: Place) -> PantryItem | None:
    """What is in already: a single step of its own weight, so that it is never rounded."""
    for field in _LIMITS:
        if getattr(body, field) is not None:
            detail = "What is in already has no other limit."
            (place / field).refuse("already_in_and_limits", detail, "Leave out this field, or already_in.")
    if len(item.placed) > 1:
        detail = "What is in already is in one component, and goes_in names several."
        (place / "goes_in").refuse("already_in_several", detail, "Name the one that it is in.")
    grams = weigh.positive_grams("already_in")
    if grams is None or body.already_in is None:
        return None
    step = weigh.whole(body.already_in, grams)
    return replace(item, on_hand_g=grams, at_least_g=grams, at_most_g=grams, step=step, least_when_used_g=None)


def _use_by(text: str | None, place: Place) -> date | None:
    if text is None:
        return None
    try:
        return date.fromisoformat(text)
    except ValueError:
        place.refuse("not_a_date", "It is no day of the calendar.", 'Write it as "2026-11-28": year, month, day.')
        return None


def _price_per_g(price: PriceBody | None, weigh: Weighing) -> float | None:
    if price is None:
        return None
    weight = weigh.positive_of(price.per, "price", "per")
    return None if weight is None else price.amount / weight
