"""The audit of refuse: the percents that the release itself shows to be wrong, each with the reason.

"own items" are the percents in the food's refuse description; "the meat-only row" is the same cut, cooked
alike, with the skin removed: what is bone there is bone here too, while its skin is refuse only there.
"""

from collections.abc import Iterable
from dataclasses import dataclass, replace

from reference_data.from_sr28.ascii_files import FoodRow


@dataclass(frozen=True, slots=True)
class Correction:
    """Refuse of one food, percent of the weight as purchased; "" is missing."""

    food: str
    was: str
    corrected: str
    reason: str


_TWICE = "own items name the bone twice in two wordings and the percent adds both"
_OWN = "the percent is not the sum of its own items"
_ROTISSERIE = "no refuse stated, but the meat-only row of the same bird"
_NO_DATA = 'described as "No component data available", so 0 is not a finding; its siblings leave it blank'

CORRECTIONS = (
    Correction("05066", "66", "33", f"{_TWICE}; the meat-only row 05071 has bone 33"),
    Correction("05069", "61", "33", f"{_TWICE}; the meat-only row 05073 has bone 33"),
    Correction("05094", "33", "17", f"{_TWICE}; the meat-only row 05098 has bone 17"),
    Correction("05098", "48", "32", f"{_OWN} 17 + 15; 48 adds the second bone figure 16 of 05094"),
    Correction("05181", "32", "20", "as much as its meat-only row 05185 (bone 20 + skin 12), so skin is in it"),
    Correction("05183", "48", "38", f"{_OWN}, 38; the meat-only row 05187 has bone 38 and, with skin, 48"),
    Correction("05185", "29", "32", f"{_OWN} 20 + 12"),
    Correction("05216", "42", "61", f"{_OWN} 54 + 7; the raw row 05215 has 62"),
    Correction("05347", "0", "40", f"{_ROTISSERIE} 05341 has bone 40.14"),
    Correction("05348", "0", "26", f"{_ROTISSERIE} 05342 has bone 26"),
    Correction("05349", "0", "29", f"{_ROTISSERIE} 05343 has bone 29.34"),
    Correction("05351", "0", "14", f"{_ROTISSERIE} 05345 has bone 14.24"),
    Correction("05352", "0", "33", f"{_ROTISSERIE} 05346 has bone 32.51"),
    Correction("05679", "74", "35", f"{_OWN} 27 + 8; 74 adds both bone figures of 05689, 40 and 26"),
    Correction("05682", "56", "39", "the bone item 32 adds both bone figures of 05691, 15 and 17; 15 + skin 24"),
    Correction("05688", "68", "34", f"{_TWICE}; the meat-only row 05678 has bone 34"),
    Correction("05689", "66", "27", f"{_TWICE}; the meat-only row 05679 has bone 27"),
    Correction("05691", "32", "15", f"{_TWICE}; the braised rows 05690 and 05681 have bone 15"),
    Correction("05692", "33", "16", f"{_TWICE}; the meat-only row 05683 has bone 16"),
    Correction("10031", "20", "23", f"{_OWN} 18 + 5, which the lean-only row 10035 repeats"),
    Correction("10980", "50", "46", f"{_OWN} 30 + 7 + 9; the lean-and-fat row 10192 has 30 + 7"),
    Correction("13381", "40", "4", f"{_OWN}, 4; the other grades 13380 and 23099 have 4"),
    Correction("13912", "8", "12", f"{_OWN}, 12; the lean-only row of another grade, 23589, has bone 12"),
    Correction("23482", "0", "", _NO_DATA),
    Correction("23483", "0", "", _NO_DATA),
    Correction("23484", "0", "", _NO_DATA),
    Correction("23485", "0", "", _NO_DATA),
)

#: Numbers of the foods whose refuse is corrected.
CORRECTED = frozenset(correction.food for correction in CORRECTIONS)


def correct_refuse(foods: Iterable[FoodRow]) -> tuple[FoodRow, ...]:
    """The foods with corrected refuse. Raises ValueError where the source does not say what was corrected."""
    by_food = {correction.food: correction for correction in CORRECTIONS}
    return tuple(_corrected(food, by_food[food.number]) if food.number in by_food else food for food in foods)


def _corrected(food: FoodRow, correction: Correction) -> FoodRow:
    if food.refuse != correction.was:
        raise ValueError(f"refuse of {food.number} is {food.refuse!r}, not {correction.was!r}")
    return replace(food, refuse=correction.corrected)
