"""A value as a label prints it in words: "12 g", "1,200 mg", "<0.5 g", "less than 1 g", "trace"."""

import math
import re
from decimal import Decimal

from solver.errors import AmountError
from solver.label_rounding import Printed

_MASS_G = {"g": 1.0, "mg": 1e-3, "ug": 1e-6, "µg": 1e-6, "μg": 1e-6, "mcg": 1e-6}
_ENERGY = {"kcal": "kcal", "cal": "kcal", "calories": "kcal", "kj": "kj"}

_TRACE = re.compile(r"trace(s)?( amounts?)?", re.IGNORECASE)
_VALUE = re.compile(
    r"(?P<less>(contains )?less than|<)? ?(?P<number>\d[\d.,]*) ?(?P<unit>[a-zµμ]+)?",
    re.IGNORECASE,
)

_REMEDY = 'Write a number, or text as printed: "0 g", "<0.5 g", "less than 1 g", "trace".'


def read_printed(text: str, unit: str, *, decimal_comma: bool) -> Printed:
    """A printed value in a field's unit ("g", "mg", "ug", "kcal", "kj"); without a unit the field's is meant.

    decimal_comma: "1,5" is one and a half; otherwise commas set thousands apart. "trace" is a zero.
    Raises AmountError.
    """
    words = " ".join(text.split())
    if _TRACE.fullmatch(words):
        return Printed(0.0)
    found = _VALUE.fullmatch(words)
    if found is None:
        raise _unreadable()
    digits = _plain_digits(found["number"], decimal_comma=decimal_comma)
    factor = 1.0 if found["unit"] is None else _factor(found["unit"].lower(), unit)
    return Printed(float(digits) * factor, _decimals(digits, factor), found["less"] is not None)


def number_printed(number: float) -> Printed:
    """A bare number of the document, with as many decimals as it needs: 0.5 has one, 31 and 31.0 have none."""
    exponent = Decimal(repr(number)).normalize().as_tuple().exponent
    return Printed(number, max(0, -exponent) if isinstance(exponent, int) else 0)


def _plain_digits(number: str, *, decimal_comma: bool) -> str:
    pattern = r"\d+([.,]\d+)?" if decimal_comma else r"(\d+|\d{1,3}(,\d{3})+)(\.\d+)?"
    if not re.fullmatch(pattern, number):
        raise _unreadable()
    return number.replace(",", "." if decimal_comma else "")


def _factor(unit: str, wanted: str) -> float:
    if unit in _MASS_G and wanted in _MASS_G:
        return _MASS_G[unit] / _MASS_G[wanted]
    if _ENERGY.get(unit) == wanted:
        return 1.0
    raise AmountError("wrong_unit", f"This field is in {wanted}.", f"Write the value in {wanted}, or in its own field.")


def _decimals(digits: str, factor: float) -> int:
    """Digits after the point in the field's unit; below 0 where the last digit printed is worth more than 1."""
    return len(digits.partition(".")[2]) - round(math.log10(factor))


def _unreadable() -> AmountError:
    return AmountError("unreadable_label_value", "The text is no value as labels print them.", _REMEDY)
