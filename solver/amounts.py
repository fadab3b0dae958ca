"""Amounts as a kitchen writes them: "1 1/2 tbsp", "½ cup", "1 lb 4 oz", "2 cups, shredded", "250g", "6 large".

Reading needs no food: an amount is a number and the words of its unit, and `measures` weighs it for a food.

    number   2    0.5    .5    3/4    1 1/2    1-1/2    1 and 1/2    ½    1½
    several  1 lb 4 oz     the lesser unit follows the greater and is less than one of it
             1 cup + 2 tbsp, 1 large and 2 tbsp, 1 cup plus 1 tsp

Words after the last of several weights or volumes belong to all of them: "1 cup 2 tbsp, shredded".
Refused, since a wrong guess would be off by a factor: "1,5" and "1,000" (comma for what?), "2-3 tbsp" (a range),
"1e3 g", a negative amount. Words for numbers ("a pinch", "half an onion") are not read.
"""

import math
import re
import unicodedata
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import lru_cache

from solver.errors import AmountError
from solver.units import SPELLINGS, find_unit

#: Longest text that is looked at; the longest measure of USDA SR28 has 77 characters.
LONGEST_TEXT = 100

#: Largest number in front of a unit; a million grams is a tonne.
LARGEST_VALUE = 1e6

#: Readable texts that are kept as read; a brief says "100 g" of every price, and cooks weigh round amounts.
MOST_TEXTS = 1024

_EXAMPLES = 'Write a number and a unit, such as "1 1/2 tbsp", "250 g" or "6 large".'

_NUMBER = re.compile(
    r"""(?P<whole>\d+)(?:-|\s+(?:and\s+)?)(?P<over>\d+)\s*/\s*(?P<under>\d+)   # 1 1/2, 1-1/2
      | (?P<numerator>\d+)\s*/\s*(?P<denominator>\d+)                           # 1/2
      | (?P<decimal>\d+\.\d+|\.\d+|\d+)                                         # 2, 0.5, .5
    """,
    re.ASCII | re.VERBOSE,
)
_COMMA = re.compile(r"\s?,\d", re.ASCII)
_RANGE = re.compile(r"\s*(?:[-–—]|to\b|or\b)\s*[\d.]", re.ASCII)  # noqa: RUF001  the en dash is what cooks type
_EXPONENT = re.compile(r"e[+-]?\d", re.ASCII | re.IGNORECASE)
_STARTS_A_UNIT = re.compile(r"[^\W\d_]|\[")
_MINUS_SIGNS = "-–—−"  # noqa: RUF001  every dash that can stand for a minus

_NAMES = "|".join(
    r"\.?\s*".join(spelling.split()) for spelling in sorted(SPELLINGS, key=lambda spelling: (-len(spelling), spelling))
)
_UNIT = re.compile(rf"(?P<unit>{_NAMES})(?![^\W\d_])", re.IGNORECASE)
#: A weight or volume, and behind it a number with another: the "lb 4 oz" of "1 lb 4 oz".
_DENOMINATIONS = re.compile(
    rf"\s*-?\s*(?P<greater>{_NAMES})\.?,?\s*(?=\d[\d.,/\s-]*(?P<lesser>{_NAMES})(?![^\W\d_]))",
    re.ASCII | re.IGNORECASE,
)
#: "+", "and" or "plus" between a unit and a number, outside brackets.
_JOINT = re.compile(r"(?<=[^\W\d_.)\]])\s*(?:\+|&|\s(?:plus|and)\s)\s*(?=\d|\.\d)(?![^()]*\))", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Amount:
    """A number of some unit: `value` is finite and from 0 to `LARGEST_VALUE`; `unit` is "" for a bare number.

    Whoever makes one from {"value", "unit"} gets the same `AmountError` (unreadable_amount) as from a text.
    """

    value: float
    unit: str

    def __post_init__(self) -> None:
        _refuse_unreadable(self.unit)
        if not math.isfinite(self.value):
            raise _unreadable("The amount is not a finite number.")
        if self.value < 0:
            raise _unreadable("The amount is negative.", "Write zero or more.")
        if self.value > LARGEST_VALUE:
            raise _unreadable("The amount is larger than a million.", "Use a larger unit.")


@lru_cache(maxsize=MOST_TEXTS)
def parse_amount(text: str) -> tuple[Amount, ...]:
    """Read a text into its parts, at least one: "1 lb 4 oz" gives 1 lb and 4 oz.

    Raises `AmountError` with the code "unreadable_amount", and nothing else, whatever the text holds.
    """
    _refuse_unreadable(text)
    segments = _JOINT.split(_plain(text))
    amounts = tuple(amount for segment in segments for amount in _denominations(segment))
    if len(amounts) > 1 and not all(amount.unit for amount in amounts):
        raise _unreadable("One of several amounts has no unit.", 'Give each its unit, such as "1 cup + 2 tbsp".')
    return _share_qualifier(amounts)


def _refuse_unreadable(text: str) -> None:
    if len(text) > LONGEST_TEXT:
        raise _unreadable(f"The amount is longer than {LONGEST_TEXT} characters.")
    # C: control, format, surrogate, private and unassigned characters; So: pictures.
    if any(unicodedata.category(character)[0] == "C" or unicodedata.category(character) == "So" for character in text):
        raise _unreadable("The amount holds a control character or a picture.")


def _plain(text: str) -> str:
    """Vulgar fractions as "1/2" set off by a space, every slash and hyphen as ASCII, single spaces."""
    return " ".join("".join(_plain_character(character) for character in text).split())


def _plain_character(character: str) -> str:
    decomposition = unicodedata.decomposition(character)
    if decomposition.startswith("<fraction>"):
        # U+215F is "1/" and awaits its denominator; all others are whole fractions.
        codes = decomposition.split()[1:]
        return " " + "".join(chr(int(code, 16)) for code in codes).replace("\N{FRACTION SLASH}", "/")
    if character in "\N{FRACTION SLASH}\N{DIVISION SLASH}":
        return "/"
    return "-" if character in "\N{HYPHEN}\N{NON-BREAKING HYPHEN}" else character


def _denominations(text: str) -> tuple[Amount, ...]:
    """One amount, or several in falling units without a joint: "1 lb 4 oz", "1 cup 2 tbsp"."""
    value, rest = _read_number(text)
    found = _DENOMINATIONS.match(rest)
    if found:
        lesser = _denominations(rest[found.end() :])
        greater = Amount(value, found["greater"])
        if _is_less_than_one(lesser[0], found["lesser"], greater.unit):
            return (greater, *lesser)
    return (Amount(value, _read_unit(rest)),)


def _is_less_than_one(lesser: Amount, lesser_unit: str, greater_unit: str) -> bool:
    """Whether "4 oz" can follow "lb". "cup 8 fl oz", a measure's name, is not two amounts: 8 fl oz are the cup."""
    lesser_size, greater_size = find_unit(lesser_unit), find_unit(greater_unit)
    if lesser_size is None or greater_size is None or lesser_size.dimension is not greater_size.dimension:
        return False
    return lesser.value * lesser_size.size < greater_size.size * (1 - 1e-9)


def _read_number(text: str) -> tuple[float, str]:
    """The number at the start of a text, and what follows it."""
    if text[:1] and text[0] in _MINUS_SIGNS:
        raise _unreadable("The amount is negative.", "Write zero or more.")
    found = _NUMBER.match(text)
    if found is None:
        raise _unreadable("The amount does not start with a number.")
    rest = text[found.end() :]
    _refuse_after_number(rest)
    return _value(found), rest


def _refuse_after_number(rest: str) -> None:
    if _COMMA.match(rest):
        raise _unreadable(
            "A comma in a number may mark decimals or thousands.",
            'Write "1.5" with a point, and "1000" without a comma.',
        )
    if _RANGE.match(rest):
        raise _unreadable("The amount is a range.", "Give one amount; say the limits with at_least and at_most.")
    if _EXPONENT.match(rest):
        raise _unreadable("The number is in scientific notation.", 'Write it out, such as "1000 g".')


def _value(found: re.Match[str]) -> float:
    if found["decimal"]:
        return float(Fraction(found["decimal"]))
    over, under = int(found["over"] or found["numerator"]), int(found["under"] or found["denominator"])
    if under == 0:
        raise _unreadable("The fraction divides by zero.")
    if found["whole"] and over >= under:
        raise _unreadable("The fraction after a whole number is not less than one.")
    value = Fraction(int(found["whole"] or 0)) + Fraction(over, under)
    return float(value)


def _read_unit(rest: str) -> str:
    unit = rest.strip(" ").rstrip(" .,;").removeprefix("-").lstrip(" ")
    if unit and not _STARTS_A_UNIT.match(unit):
        raise _unreadable("What follows the number is not a unit.")
    return unit


def _share_qualifier(amounts: tuple[Amount, ...]) -> tuple[Amount, ...]:
    """Hand ", shredded" of "1 cup 2 tbsp, shredded" to the cup as well."""
    last = amounts[-1].unit
    found = _UNIT.match(last)
    if len(amounts) == 1 or found is None or find_unit(last) is not None:
        return amounts
    earlier = [find_unit(amount.unit) for amount in amounts[:-1]]
    named = find_unit(found["unit"])
    if any(unit is None or named is None or unit.dimension is not named.dimension for unit in earlier):
        return amounts
    qualifier = last[found.end() :]
    return (*(replace(amount, unit=amount.unit + qualifier) for amount in amounts[:-1]), amounts[-1])


def _unreadable(detail: str, remedy: str = _EXAMPLES) -> AmountError:
    return AmountError("unreadable_amount", detail, remedy)
