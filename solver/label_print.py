"""Amounts as a nutrition label prints them, by the rules of `label_rounding`: the inverse of reading them there.

US  FDA, A Food Labeling Guide, Appendix H (October 2009). Halves are rounded up; the table does not say.
EU  European Commission, Guidance document on tolerances (December 2012), rounding guidelines, quoted in secondary
    sources. What is small is printed "<0.5 g" and not "0 g", which the guidance allows too, unless it is nothing.

The rules are for the amount that the label states: a serving in the US, 100 g or 100 ml in the EU.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal
from types import MappingProxyType

from solver.label_audit import SALT_PER_SODIUM
from solver.label_rounding import RULES, LabelLayout, LessThan, Rounding, Stretch

#: Amounts are taken to this many decimals first, so that a sum of floats just under a half counts as the half.
_DECIMALS = 9

_UNITS: Mapping[LabelLayout, Mapping[str, str]] = MappingProxyType(
    {
        # US labels print the bare number beside "Calories".
        LabelLayout.US: {"kcal": "", "g": " g", "mg": " mg"},
        LabelLayout.EU: {"kcal": " kcal", "kj": " kJ", "g": " g"},
    }
)
_LESS_THAN: Mapping[LabelLayout, str] = MappingProxyType({LabelLayout.US: "less than ", LabelLayout.EU: "<"})

#: Field and title in the order of 21 CFR 101.9(d), and of Regulation (EU) No 1169/2011, Annex XV; both from memory.
_LINES: Mapping[LabelLayout, tuple[tuple[str, str], ...]] = MappingProxyType(
    {
        LabelLayout.US: (
            ("energy_kcal", "Calories"),
            ("fat_g", "Total Fat"),
            ("saturated_fat_g", "Saturated Fat"),
            ("trans_fat_g", "Trans Fat"),
            ("cholesterol_mg", "Cholesterol"),
            ("sodium_mg", "Sodium"),
            ("total_carbohydrate_g", "Total Carbohydrate"),
            ("fibre_g", "Dietary Fiber"),
            ("sugars_g", "Total Sugars"),
            ("protein_g", "Protein"),
            ("potassium_mg", "Potassium"),
        ),
        LabelLayout.EU: (
            ("energy_kj", "Energy"),
            ("energy_kcal", "Energy"),
            ("fat_g", "Fat"),
            ("saturated_fat_g", "of which saturates"),
            ("carbohydrate_g", "Carbohydrate"),
            ("sugars_g", "of which sugars"),
            ("fibre_g", "Fibre"),
            ("protein_g", "Protein"),
            ("salt_g", "Salt"),
        ),
    }
)


@dataclass(frozen=True, slots=True)
class NutritionLine:
    """One line. name: field of the layout; title: as the layout prints it.

    text: as printed, None where the amount is not known: unknown is never printed as 0. value: unrounded, in the unit
    that ends the name.
    """

    name: str
    title: str
    text: str | None
    value: float | None


def nutrition_lines(
    per: Mapping[str, float | None], energy_kcal: float | None, energy_kj: float | None, layout: LabelLayout
) -> tuple[NutritionLine, ...]:
    """The lines of a layout in its order.

    per: nutrient name to amount, for the serving (US) or the 100 g (EU) that the label states; None or left out where
    it is not known. EU carbohydrate is "carbohydrate_g" where given, else the total less fibre, so that polyols stay
    in it, else the available. EU salt is 2.5 times the sodium.
    Raises ValueError for an amount below 0 or not finite.
    """
    amounts = {"carbohydrate_g": _eu_carbohydrate(per), "salt_g": _salt(per), **per}
    amounts |= {"energy_kcal": energy_kcal, "energy_kj": energy_kj}
    return tuple(_line(name, title, amounts.get(name), layout) for name, title in _LINES[layout])


def _line(name: str, title: str, value: float | None, layout: LabelLayout) -> NutritionLine:
    return NutritionLine(name, title, None if value is None else printed(name, value, layout), value)


def _eu_carbohydrate(per: Mapping[str, float | None]) -> float | None:
    total, fibre = per.get("total_carbohydrate_g"), per.get("fibre_g")
    if total is None or fibre is None:
        return per.get("available_carbohydrate_g")
    return max(0.0, total - fibre)


def _salt(per: Mapping[str, float | None]) -> float | None:
    sodium = per.get("sodium_mg")
    return None if sodium is None else sodium / 1000 * SALT_PER_SODIUM


def printed(name: str, value: float, layout: LabelLayout) -> str:
    """An amount as printed: "4.5 g", "less than 1 g", "<0.5 g", "1540 kJ"; US energy is the number alone.

    name: a field of the layout, such as "fat_g"; value: in the unit that ends the name.
    Raises KeyError for a name without a rule in the layout, ValueError for a value below 0 or not finite.
    """
    if not (math.isfinite(value) and value >= 0):
        raise ValueError(f"{name} is {value}; a label prints amounts from 0 up")
    rounding, unit = RULES[layout][name], _UNITS[layout][name.rpartition("_")[2]]
    amount = Decimal(repr(round(float(value), _DECIMALS)))
    less = rounding.less_than
    if less is not None and amount > 0 and _is_below(amount, less):
        return f"{_LESS_THAN[layout]}{_exact(less.number)}{unit}"
    if amount < _exact(rounding.zero_below):
        return f"0{unit}"
    return f"{_digits(_nearest(amount, rounding), rounding, layout)}{unit}"


def _is_below(amount: Decimal, rule: LessThan) -> bool:
    start, end = _exact(rule.start), _exact(rule.end)
    return start <= amount < end or (rule.end_too and amount == end)


def _nearest(amount: Decimal, rounding: Rounding) -> Decimal:
    step = _exact(_stretch(amount, rounding).step)
    return (amount / step).to_integral_value(ROUND_HALF_UP) * step


def _stretch(amount: Decimal, rounding: Rounding) -> Stretch:
    """The stretch that holds an amount; where two meet, both print it alike."""
    return next(stretch for stretch in rounding.stretches if amount <= _exact(stretch.end))


def _digits(number: Decimal, rounding: Rounding, layout: LabelLayout) -> str:
    """The EU prints the decimals of the step (9.0, then 10), the US only those that are needed (4, 4.5)."""
    if layout is LabelLayout.US:
        return f"{number.normalize():f}"
    step = min(stretch.step for stretch in rounding.stretches if number < _exact(stretch.end))
    return f"{number:.{_decimals(step)}f}"


def _decimals(step: float) -> int:
    exponent = _exact(step).as_tuple().exponent
    return max(0, -exponent) if isinstance(exponent, int) else 0


def _exact(number: float) -> Decimal:
    """The number as its digits say: 0.1 is a tenth; without trailing zeros."""
    return Decimal(repr(number)).normalize()
