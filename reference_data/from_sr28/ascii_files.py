"""The ASCII files of SR28: lines ended by CR LF, fields between carets, texts in tildes, windows-1252.

The release says ISO 8859-1, but apostrophes are windows-1252 (0x91, 0x92). Numbers stay texts, exactly as printed.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from types import MappingProxyType

from solver.nutrients import NUTRIENTS

FOODS, GROUPS, DEFINITIONS, VALUES, WEIGHTS = (
    "FOOD_DES.txt",
    "FD_GROUP.txt",
    "NUTR_DEF.txt",
    "NUT_DATA.txt",
    "WEIGHT.txt",
)

#: Data file to its number of fields.
FILES: Mapping[str, int] = MappingProxyType({FOODS: 14, GROUPS: 2, DEFINITIONS: 6, VALUES: 18, WEIGHTS: 7})

#: Starch, g: read for the audit only.
STARCH = 209

NUMBERS = frozenset(nutrient.sr28_number for nutrient in NUTRIENTS if nutrient.sr28_number is not None) | {STARCH}


@dataclass(frozen=True, slots=True)
class FoodRow:
    """One line of FOOD_DES. refuse: percent; the factors: g protein per g nitrogen, then kcal per g. "" is missing."""

    number: str
    group: str
    description: str
    manufacturer: str
    refuse_description: str
    refuse: str
    nitrogen_factor: str
    protein_factor: str
    fat_factor: str
    carbohydrate_factor: str


@dataclass(frozen=True, slots=True)
class MeasureRow:
    """One line of WEIGHT: `amount` of `unit` weighs `grams`."""

    amount: str
    unit: str
    grams: str


@dataclass(frozen=True, slots=True)
class Release:
    """All that is used of SR28, in its order. groups: code to title.

    values, standard_errors: food number to nutrient number to the printed number; measures: food number to rows.
    """

    foods: tuple[FoodRow, ...]
    groups: Mapping[str, str]
    values: Mapping[str, Mapping[int, str]]
    standard_errors: Mapping[str, Mapping[int, str]]
    measures: Mapping[str, tuple[MeasureRow, ...]]


def read_release(files: Mapping[str, bytes]) -> Release:
    """Read the data files named in FILES. Raises ValueError where a line or a definition is not as expected."""
    _check_definitions(files[DEFINITIONS])
    values, standard_errors = _read_values(files[VALUES])
    return Release(
        foods=tuple(_food(fields) for fields in _lines(files[FOODS], FILES[FOODS])),
        groups=dict(_lines(files[GROUPS], FILES[GROUPS])),
        values=values,
        standard_errors=standard_errors,
        measures=_read_measures(files[WEIGHTS]),
    )


def _lines(content: bytes, width: int) -> Iterator[list[str]]:
    for number, line in enumerate(content.decode("cp1252").removesuffix("\r\n").split("\r\n"), start=1):
        fields = [field.strip("~") for field in line.split("^")]
        if len(fields) != width:
            raise ValueError(f"line {number} has {len(fields)} fields instead of {width}: {line[:40]}")
        yield fields


def _tidy(text: str) -> str:
    """Without doubled, leading or trailing blanks."""
    return " ".join(text.split())


def _food(fields: list[str]) -> FoodRow:
    number, group, description, _, _, manufacturer, _, refuse_description, refuse, _, *factors = fields
    return FoodRow(number, group, _tidy(description), manufacturer, _tidy(refuse_description), refuse, *factors)


def _read_values(content: bytes) -> tuple[dict[str, dict[int, str]], dict[str, dict[int, str]]]:
    values: dict[str, dict[int, str]] = {}
    standard_errors: dict[str, dict[int, str]] = {}
    for food, nutrient, value, _, standard_error, *_ in _lines(content, FILES[VALUES]):
        if int(nutrient) in NUMBERS:
            values.setdefault(food, {})[int(nutrient)] = value
            standard_errors.setdefault(food, {})[int(nutrient)] = standard_error
    return values, standard_errors


def _read_measures(content: bytes) -> dict[str, tuple[MeasureRow, ...]]:
    measures: dict[str, tuple[MeasureRow, ...]] = {}
    for food, _, amount, unit, grams, _, _ in _lines(content, FILES[WEIGHTS]):
        measures[food] = (*measures.get(food, ()), MeasureRow(amount, _tidy(unit), grams))
    return measures


def _check_definitions(content: bytes) -> None:
    """Raise ValueError where a nutrient of ours has another unit or tagname in NUTR_DEF."""
    defined = {int(number): (tagname, unit.replace("µ", "u")) for number, unit, tagname, *_ in _lines(content, 6)}
    for nutrient in NUTRIENTS:
        number = nutrient.sr28_number
        if number is not None and defined[number] != (nutrient.tagname, nutrient.unit):
            raise ValueError(f"SR28 defines nutrient {number} as {defined[number]}, not {nutrient}")
