"""Declared numbers into the solver's words, and findings and nutrition lines out of them."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType
from typing import get_args

from service.schemas.declared import DeclaredBody, DeclaredFactors, FindingAnswer, FindingCode, NutritionLineAnswer
from service.translate.amounts import positive_grams_of
from service.translate.label_food import unweighed
from service.translate.label_values import Layout
from service.translate.numbers import maybe_rounded, rounded
from service.translate.place import Place
from solver.declared_finding import Finding
from solver.declared_numbers import FIELDS, Declared
from solver.energy import Factors
from solver.label_print import NutritionLine
from solver.label_rounding import LabelLayout, Printed

_DISTRIBUTION = "energy_distribution_percent"
_PORTION, _BATCH = "portion", "batch"

#: What numbers may be declared for, g.
_LEAST_G, _MOST_G = 0.1, 1_000_000.0

#: What may stand behind the number of a field without a unit of mass or energy.
_SIGNS: Mapping[str, str] = MappingProxyType({"%": "%", ": 1": ":1"})

_CODES: Mapping[str, FindingCode] = MappingProxyType({code: code for code in get_args(FindingCode)})


@dataclass(frozen=True, slots=True)
class DeclaredFor:
    """What is declared, and of how much. per: "portion", "batch", or None for the weight that `declared` has."""

    per: str | None
    declared: Declared

    def grams(self, portion_g: float, batch_g: float) -> float:
        """What the amount weighs as eaten, given what a portion and the batch weigh."""
        if self.declared.weight_g is not None:
            return self.declared.weight_g
        return portion_g if self.per == _PORTION else batch_g

    def weighing(self, portion_g: float, batch_g: float) -> Declared:
        """The same numbers with that weight."""
        return replace(self.declared, weight_g=self.grams(portion_g, batch_g))


def to_declared(body: DeclaredBody, place: Place) -> DeclaredFor | None:
    """What a body declares; None when something is refused at `place`."""
    before = len(place.problems)
    per, weight_g = _per(body, place / "per")
    values = _values(body, place)
    if body.total_carbohydrate_g is not None and body.available_carbohydrate_g is not None:
        (place / "available_carbohydrate_g").refuse(
            "both_carbohydrates",
            "Carbohydrate is declared with its fibre and without.",
            "Keep the one that was declared: US labels state the total, EU labels the available.",
        )
    if len(place.problems) > before:
        return None
    layout = None if body.layout is None else LabelLayout(body.layout)
    return DeclaredFor(per, Declared(values, layout, weight_g, _factors(body.factors_kcal_per_g)))


def _per(body: DeclaredBody, place: Place) -> tuple[str | None, float | None]:
    if body.per in {_PORTION, _BATCH}:
        return str(body.per), None
    weight_g = positive_grams_of(body.per, unweighed("dish"), place)
    if weight_g is not None and not _LEAST_G <= weight_g <= _MOST_G:
        place.refuse("out_of_range", f"Less than {_LEAST_G:g} g or more than {_MOST_G:g} g.", "Compare the weight.")
    return None, weight_g


def _values(body: DeclaredBody, place: Place) -> dict[str, Printed]:
    """Every declared number that can be read, by its name in FIELDS; the others are refused."""
    reading = Layout({}, decimal_comma=body.layout == "EU")
    given = {name: getattr(body, name) for name in FIELDS if name in DeclaredBody.model_fields}
    values = {name: value.printed for name, value in reading.values(_bare(given), place).items()}
    if body.energy_distribution_percent is not None:
        parts = {f"{of}_percent": value for of, value in body.energy_distribution_percent}
        shares = {name.removesuffix("_percent"): value for name, value in _bare(parts).items()}
        read = reading.values(shares, place / _DISTRIBUTION)
        values |= {f"{of}_percent": value.printed for of, value in read.items()}
    return values


def _bare(given: Mapping[str, float | str | None]) -> dict[str, float | str]:
    """What is given, without a percent sign or ": 1", which are no units."""
    return {name: _without_sign(name, value) for name, value in given.items() if value is not None}


def _without_sign(name: str, value: float | str) -> float | str:
    sign = _SIGNS.get(FIELDS[name].unit)
    if sign is None or not isinstance(value, str):
        return value
    return value.replace(" ", "").removesuffix(sign) or value


def _factors(body: DeclaredFactors | None) -> Factors | None:
    if body is None:
        return None
    return Factors(protein=body.protein, fat=body.fat, carbohydrate=body.carbohydrate, alcohol=body.alcohol)


def to_finding(finding: Finding) -> FindingAnswer:
    """A finding as the contract has it."""
    return FindingAnswer(
        code=_CODES[finding.code],
        about=_field(finding.about),
        declared=finding.declared,
        follows=finding.follows,
        by=rounded(finding.by),
        unit=finding.unit,
        rounding_explains=finding.rounding_explains,
        fits=list(finding.fits),
        text=finding.text,
    )


def _field(about: str) -> str:
    """The field of the body that a finding is about."""
    if about == "weight_g":
        return "per"
    share = about.removesuffix("_percent")
    in_distribution = about in FIELDS and about not in DeclaredBody.model_fields
    return f"{_DISTRIBUTION}.{share}" if in_distribution else about


def to_nutrition_line(line: NutritionLine) -> NutritionLineAnswer:
    """A line of nutrition numbers as the contract has it."""
    return NutritionLineAnswer(name=line.name, title=line.title, text=line.text, value=maybe_rounded(line.value))
