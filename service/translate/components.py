"""The components of a brief or a dish, and what the cooking table says of an item in one of them."""

from collections.abc import Sequence

from service.schemas.components import ComponentBody
from service.translate.amounts import positive_grams_of
from service.translate.label_food import unweighed
from service.translate.names import refuse_equal_names, refuse_unknown, refuse_unprintable
from service.translate.place import Place
from solver.components import Component, Drippings, Placed
from solver.cooking_kinds import FAMILY, is_raw, kind_of
from solver.cooking_table import CookingTable
from solver.foods import Food
from solver.retention import RetentionTable

#: A fat of this share, g per 100 g, runs into the pan as a whole when it is cooked among pieces (our choice).
_MELTING_FAT_G = 60.0

#: Kinds of meat that curves of mixes were fitted to.
_MEAT_OF_MIXES = frozenset({"mince", "sausage"})

#: The same of a label, which says no more of what it is.
_MELTING_LABEL_G = 80.0

#: Minerals, which juices carry off.
_MINERALS = frozenset(
    f"{name}_mg" for name in ("calcium", "iron", "magnesium", "phosphorus", "potassium", "sodium", "zinc", "copper")
)


def to_components(bodies: Sequence[ComponentBody], place: Place, table: CookingTable) -> tuple[Component, ...]:
    """The components in the brief's order. One that is refused at `place` keeps its name, for the items that use it."""
    refuse_equal_names((body.name for body in bodies), place, "component")
    return tuple(_component(body, place / index, table) for index, body in enumerate(bodies))


def placed(food: Food, component: Component, table: CookingTable, retention: RetentionTable) -> Placed:
    """A food in a component: its row of the cooking table, or why there is none, and what is left of its vitamins."""
    if component.method is None:
        return Placed(component.name)
    left = _left(food, component, component.method, retention)
    if component.curve is not None:
        fits = kind_of(food.name, food.group) in _MEAT_OF_MIXES and is_raw(food.name)
        return Placed(component.name, why=component.curve.why, fits_curve=fits, retention=left)
    row = table.row(food, component.method)
    if row is not None:
        return Placed(component.name, row, row.why, retention=left)
    melts = _melts(food)
    why = f"{food.name}: {_why_no_row(food, component.method, table, melts=melts)}"
    return Placed(component.name, None, why, melts=melts, retention=left)


def _component(body: ComponentBody, place: Place, table: CookingTable) -> Component:
    before = len(place.problems)
    refuse_unprintable(body.name, place / "name")
    curves = {curve.mix: curve for curve in table.curves}
    if body.method is None:
        _refuse_without_method(body, place)
    else:
        refuse_unknown(body.method, {*curves, *FAMILY}, "unknown_method", place / "method")
    weights = [_weight(body, field, place) for field in ("cooked_weight", "drippings_weight")]
    if len(place.problems) > before:
        return Component(body.name.strip())
    return Component(
        name=body.name.strip(),
        method=body.method,
        drippings=Drippings(body.drippings or "discarded"),
        curve=curves.get(body.method or ""),
        cooked_g=weights[0],
        drippings_g=weights[1],
        finished=body.finished or any(weight is not None for weight in weights),
        form=body.form,
        minutes=body.minutes,
    )


def _refuse_without_method(body: ComponentBody, place: Place) -> None:
    for field in ("drippings", "drippings_weight", "cooked_weight", "minutes"):
        if getattr(body, field) is not None:
            detail = "Without a method nothing is cooked, so nothing runs out or shrinks."
            (place / field).refuse("not_cooked", detail, "Give the method, or leave this field out.")


def _weight(body: ComponentBody, field: str, place: Place) -> float | None:
    return positive_grams_of(getattr(body, field), unweighed(body.name), place / field)


def _left(food: Food, component: Component, method: str, retention: RetentionTable) -> dict[str, float]:
    """What cooking leaves of vitamins, minerals and alcohol. Minerals leave with the juices, so only without them."""
    found = retention.of(food, method, component.minutes)
    juices_eaten = component.drippings is not Drippings.DISCARDED
    return {nutrient: kept for nutrient, kept in found.items() if not (juices_eaten and nutrient in _MINERALS)}


def _melts(food: Food) -> bool:
    fat = food.value("fat_g")
    if food.group is None:
        return fat >= _MELTING_LABEL_G
    return fat >= _MELTING_FAT_G and (food.group == "Fats and Oils" or food.name.startswith("Butter"))


def _why_no_row(food: Food, method: str, table: CookingTable, *, melts: bool) -> str:
    if melts:
        return "a fat, which runs into the pan"
    reason = table.why_nothing(food) or f"the table has no row for it {method}"
    return f"{reason}, so it is counted as it was raw"
