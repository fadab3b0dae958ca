"""What a volume weighs, by the food's own measures: a food that has a cup has its tablespoon.

A measure of the same volume is preferred, then the one nearest in size. The nearest, since a table rounds each measure
for itself: butter is listed with 14.2 g to the tablespoon and 227 g to the cup, sixteen of one are not quite the other.

A volume without a qualifier means the food's measures without one; "cup" before "cup (1 serving)", whose weight is a
label's and rounded to the gram. Where the food has the volume with qualifiers only
(diced, melted, shredded), it has as many weights, and unless these agree the volume is refused as ambiguous.
"""

import math

from solver.measure_rows import (
    SAME_ROW,
    SAME_WEIGHT,
    Rows,
    Unweighable,
    agreed_g,
    matching,
    refuse_disagreement,
)
from solver.units import Unit

#: A cup with a qualifier and a tablespoon without may differ this much and still be the same food: 5 g for a
#: tablespoon stands for anything from 4.5 to 5.5 g.
SAME_FOOD = 0.10


def volume_g(unit: Unit, qualifier: tuple[str, ...], rows: Rows) -> float:
    """Grams of one volume, for the words of a qualifier such as "shredded" or for none.

    Raises `Unweighable`: no_density, unknown_measure, ambiguous_measure.
    """
    volumes = tuple(row for row in rows if row.said.is_volume)
    if not volumes:
        raise Unweighable(
            "no_density", f"What a {unit.name} of this food weighs is unknown: it has no measured volume."
        )
    if not qualifier:
        return _plain_g(unit, volumes)
    found = matching(qualifier, volumes)
    if not found:
        raise Unweighable("unknown_measure", f"The food has no {unit.name} with these words.")
    return _agreed_kinds_g(unit, found)


def _plain_g(unit: Unit, volumes: Rows) -> float:
    plain = tuple(row for row in volumes if row.said.is_plain)
    qualified = tuple(row for row in volumes if not row.said.is_plain and row.said.unit is unit)
    if any(row.said.unit is unit for row in plain) or (plain and not qualified):
        return _nearest_g(unit, plain)
    if not plain:
        return _agreed_kinds_g(unit, volumes)
    weight = _agreed_kinds_g(unit, qualified)
    refuse_disagreement((weight, _nearest_g(unit, plain)), SAME_FOOD, f"a plain {unit.name}")
    return weight


def _agreed_kinds_g(unit: Unit, volumes: Rows) -> float:
    """The weight on which all kinds (diced, shredded) agree, by the kind that is measured nearest to the unit."""
    kinds = {row.said.words: tuple(other for other in volumes if other.said.words == row.said.words) for row in volumes}
    refuse_disagreement([_nearest_g(unit, kind) for kind in kinds.values()], SAME_WEIGHT, f"a {unit.name}")
    nearest = min(volumes, key=lambda row: _distance(unit, row.said.unit))
    return _nearest_g(unit, kinds[nearest.said.words])


def _nearest_g(unit: Unit, volumes: Rows) -> float:
    """Grams of one `unit` by the volume nearest to it in size, of rows that are all of one kind."""
    nearest = min((row.said.unit for row in volumes), key=lambda other: _distance(unit, other))
    same = [row for row in volumes if row.said.unit is nearest]
    unremarked = [row for row in same if not row.said.words]
    weight = agreed_g(unremarked or same, SAME_ROW, f"a {unit.name}")
    return weight if nearest is None or nearest is unit else weight * (unit.size / nearest.size)


def _distance(unit: Unit, other: Unit | None) -> float:
    """How far apart two volumes are, as the logarithm of their ratio."""
    return math.inf if other is None else abs(math.log(other.size / unit.size))
