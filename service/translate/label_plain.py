"""A label without a layout: its values are taken as exact, and what is missing stays missing.

Only where they are doubted is each allowed to be rounded, by the coarser rules, those of the US: whoever leaves out the
layout may well have read the numbers off a label.

US labels state carbohydrate with its fibre, EU labels without; the two field names keep them apart, and fibre is
never taken from an amount that does not hold it.
"""

from collections.abc import Mapping
from decimal import Decimal

import numpy as np

from service.schemas.labels import PlainLabel
from service.translate.amounts import positive_grams_of
from service.translate.label_food import food_of_label, unweighed
from service.translate.names import refuse_unknown
from service.translate.place import Place
from solver.foods import Food
from solver.label_audit import Claims, doubts
from solver.label_rounding import US, Interval, Printed, may_stand_for
from solver.nutrients import COLUMN, NUTRIENTS

#: No more than this of anything fits into 100 g; the excess allowed is floating-point noise of the scaling.
_MOST_GRAMS = 100 * (1 + 1e-9)


def plain_food(name: str, label: PlainLabel, place: Place) -> Food | None:
    """The food that plain values describe; None when something is refused at `place`."""
    before = len(place.problems)
    per_g = positive_grams_of(label.per, unweighed(name), place / "per")
    stated = _stated(label, place)
    _refuse_both_carbohydrates(stated, place)
    if per_g is None or len(place.problems) > before:
        return None
    values = {nutrient: value * 100 / per_g for nutrient, value in stated.items()}
    _refuse_impossible(values, place)
    if len(place.problems) > before:
        return None
    return food_of_label(name, values | _derived(values), remarks=doubts(_claims(stated, per_g)))


def _stated(label: PlainLabel, place: Place) -> dict[str, float]:
    """Nutrient name to the value for the stated weight; only what is given."""
    fields = label.model_dump(exclude={"kind", "per", "contains", "without"}, exclude_none=True)
    return {
        name: float(value)
        for name, value in fields.items()
        if not refuse_unknown(name, COLUMN, "unknown_nutrient", place / name)
    }


def _refuse_both_carbohydrates(stated: Mapping[str, float], place: Place) -> None:
    if {"total_carbohydrate_g", "available_carbohydrate_g"} <= stated.keys():
        (place / "available_carbohydrate_g").refuse(
            "both_carbohydrates",
            "Carbohydrate is stated with its fibre and without.",
            "Keep the one that the label prints: US labels the total, EU labels the available.",
        )


def _refuse_impossible(values: Mapping[str, float], place: Place) -> None:
    for nutrient in NUTRIENTS:
        if nutrient.unit == "g" and values.get(nutrient.name, 0.0) > _MOST_GRAMS:
            detail = "More than the whole weight that the label states its values for."
            (place / nutrient.name).refuse("exceeds_weight", detail, "Compare the value and `per` with the label.")
    if values.get("fibre_g", 0.0) > values.get("total_carbohydrate_g", np.inf):
        (place / "fibre_g").refuse(
            "exceeds_carbohydrate",
            "More fibre than carbohydrate that includes it.",
            "If the label states carbohydrate without fibre, as EU labels do, name it available_carbohydrate_g.",
        )


def _claims(stated: Mapping[str, float], per_g: float) -> Claims:
    """What is claimed of the stated weight. Alcohol has energy that the check of labels does not count."""
    claims = {name: _as_printed(name, value) for name, value in stated.items()}
    if "available_carbohydrate_g" in claims:
        claims["carbohydrate_g"] = claims["available_carbohydrate_g"]
    if stated.get("alcohol_g", 0.0) > 0:
        claims.pop("energy_kcal", None)
    return Claims(per_g, claims)


def _as_printed(name: str, value: float) -> Interval:
    exponent = Decimal(repr(value)).normalize().as_tuple().exponent
    decimals = -exponent if isinstance(exponent, int) else 0
    return may_stand_for(Printed(value, max(decimals, 0)), US.get(name))


def _derived(values: Mapping[str, float]) -> dict[str, float]:
    """The carbohydrate that the label does not print. Without fibre the total stands for the available."""
    if "total_carbohydrate_g" in values:
        return {"available_carbohydrate_g": values["total_carbohydrate_g"] - values.get("fibre_g", 0.0)}
    if {"available_carbohydrate_g", "fibre_g"} <= values.keys():
        return {"total_carbohydrate_g": values["available_carbohydrate_g"] + values["fibre_g"]}
    return {}
