"""Numbers that somebody declares for a dish or food, each as printed, and everything that each may stand for."""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from solver.energy import Factors
from solver.label_rounding import NOTHING, RULES, Interval, LabelLayout, Printed, Rounding, may_stand_for


@dataclass(frozen=True, slots=True)
class Field:
    """One number that may be declared. title: what a sentence calls it; unit: as it is printed, ": 1" for the ratio."""

    title: str
    unit: str


#: All that may be declared, by name. A distribution is four percents; `fat_share_percent` stands alone.
FIELDS: Mapping[str, Field] = MappingProxyType(
    {
        "energy_kcal": Field("energy", "kcal"),
        "energy_kj": Field("energy", "kJ"),
        "energy_from_fat_kcal": Field("energy from fat", "kcal"),
        "energy_from_protein_kcal": Field("energy from protein", "kcal"),
        "energy_from_carbohydrate_kcal": Field("energy from carbohydrate", "kcal"),
        "protein_g": Field("protein", "g"),
        "fat_g": Field("fat", "g"),
        "saturated_fat_g": Field("saturated fat", "g"),
        "trans_fat_g": Field("trans fat", "g"),
        "total_carbohydrate_g": Field("total carbohydrate", "g"),
        "available_carbohydrate_g": Field("carbohydrate without fibre", "g"),
        "fibre_g": Field("fibre", "g"),
        "sugars_g": Field("sugars", "g"),
        "polyols_g": Field("polyols", "g"),
        "erythritol_g": Field("erythritol", "g"),
        "allulose_g": Field("allulose", "g"),
        "alcohol_g": Field("alcohol", "g"),
        "salt_g": Field("salt", "g"),
        "sodium_mg": Field("sodium", "mg"),
        "potassium_mg": Field("potassium", "mg"),
        "cholesterol_mg": Field("cholesterol", "mg"),
        "fat_percent": Field("fat in the energy distribution", "%"),
        "protein_percent": Field("protein in the energy distribution", "%"),
        "carbohydrate_percent": Field("carbohydrate in the energy distribution", "%"),
        "alcohol_percent": Field("alcohol in the energy distribution", "%"),
        "fat_share_percent": Field("fat share", "%"),
        "ketogenic_ratio": Field("ketogenic ratio", ": 1"),
    }
)

_EVERYWHERE = {
    **dict.fromkeys((name for name in FIELDS if name.startswith("energy_from_")), "energy_kcal"),
    **dict.fromkeys(("polyols_g", "erythritol_g"), "polyols"),
}

#: Fields that a layout rounds by the rule of another field.
_RULE_OF: Mapping[LabelLayout, Mapping[str, str]] = MappingProxyType(
    {
        LabelLayout.US: _EVERYWHERE | {"available_carbohydrate_g": "total_carbohydrate_g"},
        LabelLayout.EU: _EVERYWHERE
        | {"available_carbohydrate_g": "carbohydrate_g", "total_carbohydrate_g": "carbohydrate_g"},
    }
)


@dataclass(frozen=True, slots=True)
class Known:
    """A number as it stands, and everything that it may be once rounding is allowed for."""

    value: float
    interval: Interval

    def __add__(self, other: "Known") -> "Known":
        return Known(self.value + other.value, self.interval + other.interval)

    def times(self, factor: float) -> "Known":
        """Multiplied by a factor of at least 0."""
        return Known(self.value * factor, self.interval.times(factor))

    def less(self, other: "Known") -> "Known":
        """What is left of it, never below nothing."""
        return Known(max(0.0, self.value - other.value), self.interval.less(other.interval))


NONE = Known(0.0, NOTHING)


@dataclass(frozen=True, slots=True)
class Declared:
    """What is declared of one amount of a dish or food. What is not declared is not in `values`.

    values: by a name of FIELDS. Carbohydrate is "total_carbohydrate_g", with fibre in it, or
        "available_carbohydrate_g", without it; polyols and allulose are part of either. Not both; the total counts.
    layout: whose rounding rules hold; None where each number was rounded at its last digit.
    weight_g: what the amount weighs, None where it is not known.
    factors: the food's own energy factors, kcal per g; None where they are not known.
    """

    values: Mapping[str, Printed]
    layout: LabelLayout | None = None
    weight_g: float | None = None
    factors: Factors | None = None

    def has(self, *names: str) -> bool:
        """All of these are declared."""
        return all(name in self.values for name in names)

    def known(self, name: str) -> Known:
        """One that is declared; of a "less than" the middle stands for its value."""
        printed = self.values[name]
        interval = may_stand_for(printed, self._rounding(name))
        value = (interval.low + interval.high) / 2 if printed.less_than else printed.number
        return Known(value, interval)

    def known_or_none(self, name: str) -> Known:
        """The same, where what is not declared counts as none."""
        return self.known(name) if name in self.values else NONE

    def _rounding(self, name: str) -> Rounding | None:
        if self.layout is None:
            return None
        return RULES[self.layout].get(_RULE_OF[self.layout].get(name, name))

    @property
    def states_total(self) -> bool:
        """Carbohydrate is declared with its fibre."""
        return "total_carbohydrate_g" in self.values

    @property
    def carbohydrate(self) -> str:
        """The name that carbohydrate is declared under, if it is."""
        return "total_carbohydrate_g" if self.states_total else "available_carbohydrate_g"

    @property
    def sweeteners(self) -> Known:
        """Polyols and allulose together."""
        kinds = ("polyols_g", "erythritol_g", "allulose_g")
        return sum((self.known_or_none(kind) for kind in kinds), NONE)

    def text(self, name: str) -> str:
        """One that is declared, as it was printed (to nine decimals), with its unit."""
        printed = self.values[name]
        digits = f"{'less than ' if printed.less_than else ''}{printed.number:.{min(max(0, printed.decimals), 9)}f}"
        return f"{digits} {FIELDS[name].unit}"
