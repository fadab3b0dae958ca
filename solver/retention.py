"""What cooking leaves of alcohol, of vitamins and of minerals, from published retention factors.

Retention is true retention: what 100 g raw still hold when cooked, by what they held. So in 100 g cooked there is
raw x retention / yield. Only what a row says is told; what no row names is counted as kept whole. There are no factors
of protein, fat or carbohydrate: the cooking table knows those. Source: USDA Table of Nutrient Retention Factors,
Release 6 (2007), five rows of foods and the alcohol rows, all second hand but alcohol after 150 minutes, from memory.

Recognition is narrow, because a row that does not fit would hide what is eaten. Plain whole hen's eggs are "fried or
scrambled" when pan-fried and "hard-cooked" when simmered; natural cheese has a row baked; cured pork has rows broiled
and roasted, but not bacon, canned or pumped ham. In a mix no food has a row; foods without a group (labels, dishes)
have none anywhere. The factor of folate is taken for dietary folate equivalents, that of vitamin A for its activity
equivalents.

Alcohol is lost by time, whatever it came in with. The row with the greatest time not above the given one counts, so
what is stated is never less than what the release says. Nothing is interpolated: the factors are steps of 5 percent,
pots differ by more than the steps, and a line between two rows could fall below what stays. An unknown time is not
guessed: the factor is that of stirring into hot liquid, 85 percent, the most that stays. Rows with a time are of
baking and simmering with the drink stirred in, so broiling, frying, steaming and microwaving stay at that most.
What shares a component counts as stirred in; poured over and baked for 25 minutes, 45 percent would stay, not 40.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from solver.catalogue import name_parts
from solver.cooking_kinds import is_raw
from solver.foods import Food
from solver.nutrients import COLUMN
from solver.tables import Table, read_table

ALCOHOL = "alcohol_g"

#: What the release has factors of. Protein, fat, carbohydrate and water are no matter of retention factors.
_RETAINED = frozenset(
    {
        ALCOHOL,
        *("calcium_mg", "iron_mg", "magnesium_mg", "phosphorus_mg", "potassium_mg", "sodium_mg", "zinc_mg"),
        *("copper_mg", "vitamin_c_mg", "thiamin_mg", "riboflavin_mg", "niacin_mg", "vitamin_b6_mg"),
        *("folate_dfe_ug", "choline_mg", "vitamin_b12_ug", "vitamin_a_rae_ug"),
    }
)


@dataclass(frozen=True, slots=True)
class Recognised:
    """Which foods a row is of.

    begins: the first parts of the description, in lower case. lacks: what must not occur in it. raw: whether it must
    say that the food is raw. group: of the food table.
    """

    begins: tuple[str, ...]
    lacks: tuple[str, ...]
    raw: bool
    group: str

    def fits(self, food: Food) -> bool:
        """Whether a food is one of them; never so for a food without a group."""
        low = food.name.lower()
        parts = tuple(part.strip() for part in name_parts(low))
        return (
            food.group == self.group
            and parts[: len(self.begins)] == self.begins
            and not any(word in low for word in self.lacks)
            and (is_raw(low) or not self.raw)
        )


@dataclass(frozen=True, slots=True)
class VitaminRow:
    """The retention, 0 to 1, of one nutrient in a kind of food by a method."""

    of: Recognised
    method: str
    nutrient: str
    retention: float


@dataclass(frozen=True, slots=True)
class AlcoholRow:
    """The retention of alcohol, 0 to 1, after at least so many minutes by any of the methods."""

    methods: frozenset[str]
    minutes: float
    retention: float


@dataclass(frozen=True, slots=True)
class RetentionTable:
    """All rows. alcohol: by rising minutes."""

    vitamins: tuple[VitaminRow, ...]
    alcohol: tuple[AlcoholRow, ...]

    def of(self, food: Food, method: str, minutes: float | None) -> Mapping[str, float]:
        """Nutrient to the part that stays, 0 to 1; what is absent is kept whole.

        method: trade name of a method or of a mix; one that no row names leaves nothing to say. minutes: None where
        nobody said.
        """
        rows = (row for row in self.vitamins if row.method == method and row.of.fits(food))
        left = {row.nutrient: row.retention for row in rows}
        alcohol = self._alcohol(method, minutes or 0.0) if food.value(ALCOHOL) > 0 else None
        return left if alcohol is None else {**left, ALCOHOL: alcohol}

    def _alcohol(self, method: str, minutes: float) -> float | None:
        reached = [row.retention for row in self.alcohol if method in row.methods and row.minutes <= minutes]
        return reached[-1] if reached else None


def load_retention(path: Path) -> RetentionTable:
    """Read the table. Raises ReferenceDataError when it is missing or damaged.

    Damaged is also a retention above 1, and a nutrient that retention factors do not speak of.
    """
    table = read_table(path)
    _check(table)
    of_alcohol = [nutrient == ALCOHOL for nutrient in table.texts("nutrient")]
    alcohol, vitamins = _alcohol_rows(table), _vitamin_rows(table)
    drinks = [row for row, is_drink in zip(alcohol, of_alcohol, strict=True) if is_drink]
    return RetentionTable(
        tuple(row for row, is_drink in zip(vitamins, of_alcohol, strict=True) if not is_drink),
        tuple(sorted(drinks, key=lambda row: row.minutes)),
    )


def _check(table: Table) -> None:
    for row, nutrient in enumerate(table.texts("nutrient")):
        if nutrient not in _RETAINED or nutrient not in COLUMN:
            raise table.damage(row, f"{nutrient!r} has no retention factors")
    for row, retention in enumerate(table.numbers(["retention g/g"])[:, 0].tolist()):
        if not retention <= 1:
            raise table.damage(row, f"a retention of {retention} is not in 0 to 1")


def _vitamin_rows(table: Table) -> list[VitaminRow]:
    texts = (table.texts(column) for column in ("method", "nutrient"))
    retentions = table.numbers(["retention g/g"])[:, 0].tolist()
    return [VitaminRow(*row) for row in zip(_recognised(table), *texts, retentions, strict=True)]


def _recognised(table: Table) -> list[Recognised]:
    texts = (table.texts(column) for column in ("description begins", "description lacks", "state", "group"))
    return [
        Recognised(_several(begins.lower()), _several(lacks), state == "raw", group)
        for begins, lacks, state, group in zip(*texts, strict=True)
    ]


def _alcohol_rows(table: Table) -> list[AlcoholRow]:
    numbers = table.numbers(["minutes", "retention g/g"]).tolist()
    methods = table.texts("method")
    return [AlcoholRow(frozenset(_several(names)), *row) for names, row in zip(methods, numbers, strict=True)]


def _several(cell: str) -> tuple[str, ...]:
    return tuple(cell.split(";")) if cell else ()
