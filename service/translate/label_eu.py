"""An EU nutrition declaration as a food: carbohydrate holds polyols but no fibre, which is never taken off."""

from collections.abc import Mapping

from service.schemas.labels import EuLabel
from service.translate.amounts import positive_grams_of, read_amount
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
from solver.energy import KJ_PER_KCAL
from solver.errors import AmountError
from solver.foods import Food, Measure, Polyols
from solver.label_audit import SALT_PER_SODIUM, Claims, doubts
from solver.label_intervals import eu_tolerance, half_of
from solver.label_rounding import EU
from solver.units import Dimension, find_unit

_LAYOUT = Layout(EU, decimal_comma=True)

#: The fields that hold values.
FIELDS = (
    *("energy_kj", "energy_kcal", "fat_g", "saturated_fat_g", "carbohydrate_g", "sugars_g", "fibre_g", "protein_g"),
    *("salt_g", "sodium_mg"),
)

#: Those of them that are nutrients as they are.
_NUTRIENTS = frozenset(FIELDS) - {"energy_kj", "carbohydrate_g", "salt_g"}

#: Fields whose zero is read as its upper bound, with the words for them.
_UPPER = {"carbohydrate_g": "carbohydrate", "sugars_g": "sugars"}


def eu_food(name: str, label: EuLabel, place: Place) -> Food | None:
    """The food that a label describes; None when something is refused at `place`."""
    before = len(place.problems)
    measures = () if label.density_g_per_ml is None else (Measure(1, "mL", label.density_g_per_ml),)
    weight_g = _weight_g(label, unweighed(name, measures), place)
    values = _LAYOUT.values(printed_fields(label, FIELDS), place)
    held = polyols_of(label, _LAYOUT, place)
    if weight_g is not None:
        refuse_wrong_unit(values, weight_g, place)
    if weight_g is None or len(place.problems) > before:
        return None
    values, polyols = within_room(values, _UPPER, weight_g), held.per_100g(weight_g)
    printed = _per_100g(label, values, weight_g)
    return food_of_label(
        name,
        _nutrients(printed, polyols),
        polyols=polyols if "carbohydrate_g" in printed else None,
        measures=measures,
        remarks=_remarks(label, values, held, weight_g),
        half_interval=_half_interval(label, values, weight_g),
        tolerance=eu_tolerance,
    )


def _weight_g(label: EuLabel, food: Food, place: Place) -> float | None:
    if label.density_g_per_ml is None and _is_volume(label):
        (place / "density_g_per_ml").refuse(
            "no_density",
            "The values are stated for a volume, and what it weighs is not known.",
            "Give density_g_per_ml, what 1 ml weighs: about 1.03 for milk, 0.92 for oil.",
        )
        return None
    return positive_grams_of(label.per, food, place / "per")


def _is_volume(label: EuLabel) -> bool:
    try:
        units = [find_unit(amount.unit) for amount in read_amount(label.per)]
    except AmountError:
        return False
    return any(unit is not None and unit.dimension is Dimension.VOLUME for unit in units)


def _per_100g(label: EuLabel, values: Mapping[str, Value], weight_g: float) -> dict[str, float]:
    """The printed fields as they are read, brought to 100 g."""
    return {name: read * 100 / weight_g for name, read in read_values(label, values, _UPPER).items()}


def _half_interval(label: EuLabel, values: Mapping[str, Value], weight_g: float) -> dict[str, float]:
    """Of what is printed, in 100 g, by nutrient; the total of carbohydrate and fibre is not printed."""
    read = read_values(label, values, _UPPER)
    half = {name: half_of(value.interval, read[name]) * 100 / weight_g for name, value in values.items()}
    available = {"available_carbohydrate_g": half["carbohydrate_g"]} if "carbohydrate_g" in half else {}
    return _as_nutrients(half) | available


def _nutrients(printed: Mapping[str, float], polyols: Polyols | None) -> dict[str, float]:
    """The nutrients in 100 g: those printed, and what others say of them."""
    return _as_nutrients(printed) | _carbohydrates(printed, polyols)


def _as_nutrients(printed: Mapping[str, float]) -> dict[str, float]:
    """All but the carbohydrates."""
    nutrients = {name: value for name, value in printed.items() if name in _NUTRIENTS}
    if "energy_kj" in printed:
        nutrients.setdefault("energy_kcal", printed["energy_kj"] / KJ_PER_KCAL)
    if "salt_g" in printed:
        nutrients.setdefault("sodium_mg", printed["salt_g"] / SALT_PER_SODIUM * 1000)
    return nutrients


def _carbohydrates(printed: Mapping[str, float], polyols: Polyols | None) -> dict[str, float]:
    if "carbohydrate_g" not in printed:
        return {}
    carbohydrate = printed["carbohydrate_g"]
    left_out = 0.0 if polyols is None else polyols.stated_g - polyols.counted_g
    total = {"total_carbohydrate_g": carbohydrate + printed["fibre_g"]} if "fibre_g" in printed else {}
    return {"available_carbohydrate_g": max(0.0, carbohydrate - left_out)} | total


def _remarks(label: EuLabel, values: Mapping[str, Value], held: HeldPolyols, weight_g: float) -> tuple[str, ...]:
    claims = Claims(weight_g, {name: value.interval for name, value in values.items()}, **held.intervals())
    by_kj = "energy_kj" in values and "energy_kcal" not in values
    kj = ("energy is printed in kJ alone; as declared it counts with 4.184 kJ to the kcal.",) if by_kj else ()
    return (*zero_remark(values, _UPPER, weight_g, label.read_zero_as), *held.remark(), *kj, *doubts(claims))
