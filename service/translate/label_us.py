"""A US Nutrition Facts label as a food: carbohydrate holds fibre, polyols and allulose, which are taken off."""

from collections.abc import Mapping

from service.schemas.labels import UsLabel
from service.translate.amounts import positive_grams_of
from service.translate.label_food import food_of_label, unweighed
from service.translate.label_polyols import HeldPolyols, polyols_of
from service.translate.label_values import (
    Layout,
    Value,
    printed_fields,
    read_values,
    refuse_wrong_unit,
    within_room,
    zero_remark,
)
from service.translate.place import Place
from solver.foods import Food, Polyols
from solver.label_audit import Claims, doubts
from solver.label_intervals import half_of, us_tolerance
from solver.label_rounding import US

_LAYOUT = Layout(US, decimal_comma=False)

#: The fields that hold values, each of them a nutrient.
FIELDS = (
    *("energy_kcal", "fat_g", "saturated_fat_g", "trans_fat_g", "cholesterol_mg", "sodium_mg"),
    *("total_carbohydrate_g", "fibre_g", "sugars_g", "protein_g"),
    *("vitamin_d_ug", "calcium_mg", "iron_mg", "potassium_mg"),
)

#: Fields whose zero is read as its upper bound, with the words for them.
_UPPER = {"total_carbohydrate_g": "total carbohydrate", "sugars_g": "sugars"}


def us_food(name: str, label: UsLabel, place: Place) -> Food | None:
    """The food that a label describes; None when something is refused at `place`."""
    before = len(place.problems)
    weight_g = positive_grams_of(label.serving, unweighed(name), place / "serving")
    values = _LAYOUT.values(printed_fields(label, FIELDS), place)
    held = polyols_of(label, _LAYOUT, place)
    if weight_g is not None:
        refuse_wrong_unit(values, weight_g, place)
    if weight_g is None or len(place.problems) > before:
        return None
    values, polyols = within_room(values, _UPPER, weight_g), held.per_100g(weight_g)
    per_100g = _per_100g(label, values, weight_g)
    return food_of_label(
        name,
        per_100g | _available(per_100g, polyols),
        polyols=polyols if "total_carbohydrate_g" in per_100g else None,
        remarks=_remarks(label, values, held, weight_g),
        half_interval=_half_interval(label, values, weight_g),
        tolerance=us_tolerance,
    )


def _per_100g(label: UsLabel, values: Mapping[str, Value], weight_g: float) -> dict[str, float]:
    return {name: read * 100 / weight_g for name, read in read_values(label, values, _UPPER).items()}


def _half_interval(label: UsLabel, values: Mapping[str, Value], weight_g: float) -> dict[str, float]:
    """Of what is printed, in 100 g; what is left of carbohydrate is not printed."""
    read = read_values(label, values, _UPPER)
    return {name: half_of(value.interval, read[name]) * 100 / weight_g for name, value in values.items()}


def _available(per_100g: Mapping[str, float], polyols: Polyols | None) -> dict[str, float]:
    """Total carbohydrate less fibre and less what does not count of polyols and allulose, never below none."""
    if "total_carbohydrate_g" not in per_100g:
        return {}
    left_out = per_100g.get("fibre_g", 0.0) + (0.0 if polyols is None else polyols.stated_g - polyols.counted_g)
    return {"available_carbohydrate_g": max(0.0, per_100g["total_carbohydrate_g"] - left_out)}


def _remarks(label: UsLabel, values: Mapping[str, Value], held: HeldPolyols, weight_g: float) -> tuple[str, ...]:
    claims = Claims(weight_g, {name: value.interval for name, value in values.items()}, **held.intervals())
    return (*zero_remark(values, _UPPER, weight_g, label.read_zero_as), *held.remark(), *doubts(claims))
