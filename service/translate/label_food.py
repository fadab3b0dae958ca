"""What every label becomes: a food whose id depends on its values alone, so that equal labels are one food."""

import hashlib
import json
from collections.abc import Mapping
from dataclasses import astuple

from solver.foods import Food, Measure, Polyols
from solver.label_intervals import Tolerance, nutrient_row, tolerance_rows

_SOURCE = "label as given in the brief"


def food_of_label(
    name: str,
    per_100g: Mapping[str, float],
    *,
    polyols: Polyols | None = None,
    measures: tuple[Measure, ...] = (),
    remarks: tuple[str, ...] = (),
    half_interval: Mapping[str, float] | None = None,
    tolerance: Tolerance | None = None,
) -> Food:
    """The food. per_100g: nutrient name to the amount in 100 g; what is not there is missing.

    half_interval: of the nutrients that are printed, in 100 g; None where values are exact. tolerance: of the layout.
    """
    printed = half_interval or {}
    return Food(
        id="label:" + _digest(per_100g, polyols),
        name=name,
        group=None,
        per_100g=nutrient_row(per_100g),
        measures=measures,
        source=_SOURCE,
        total_carbohydrate_counted="total_carbohydrate_g" in per_100g and "fibre_g" not in per_100g,
        polyols=polyols,
        half_interval=None if half_interval is None else nutrient_row(printed),
        tolerance=None if tolerance is None else tolerance_rows(printed, per_100g, tolerance),
        remarks=remarks,
    )


def unweighed(name: str, measures: tuple[Measure, ...] = ()) -> Food:
    """A food of which nothing is known yet but how it is measured, to weigh the label's own amount with."""
    return food_of_label(name, {}, measures=measures)


def _digest(per_100g: Mapping[str, float], polyols: Polyols | None) -> str:
    content: list[object] = [dict(per_100g)]
    if polyols is not None:
        content.append(astuple(polyols))
    return hashlib.sha256(json.dumps(content, sort_keys=True).encode()).hexdigest()[:12]
