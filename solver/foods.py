"""A food: what is in 100 g of its edible portion, how it is measured, and where the numbers come from."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from math import isnan

from solver.numerics import FloatArray
from solver.nutrients import COLUMN


@dataclass(frozen=True, slots=True)
class Measure:
    """A household measure: `amount` of `unit` weighs `grams`, e.g. 1 "tbsp" 14.2 or 1 "cup, shredded" 113."""

    amount: float
    unit: str
    grams: float


@dataclass(frozen=True, slots=True)
class SpecificFactors:
    """The food's own Atwater factors, kcal per g (USDA SR28 FOOD_DES). None where the source gives none."""

    protein: float | None
    fat: float | None
    carbohydrate: float | None


@dataclass(frozen=True, slots=True)
class Polyols:
    """What 100 g hold of polyols and of allulose, g; all of it is part of the total carbohydrate.

    polyols_g: all but erythritol. counted_g: the part of the three that available carbohydrate counts.
    """

    polyols_g: float
    erythritol_g: float
    allulose_g: float
    counted_g: float

    @property
    def stated_g(self) -> float:
        """The three together."""
        return self.polyols_g + self.erythritol_g + self.allulose_g


@dataclass(frozen=True, slots=True, eq=False)
class Ingredient:
    """What went into a dish: raw grams for 100 g of the dish as eaten, and whether it was cooked there."""

    food: "Food"
    grams: float
    cooked: bool


@dataclass(frozen=True, slots=True, eq=False)
class Made:
    """A dish that is an ingredient of another: what it is made of, and the energy that its ingredients bring.

    kcal, kj: basis name to the energy from protein, fat, carbohydrate and alcohol in 100 g, (4,), each ingredient with
    its own factors. ingredients: foods of the table and labels only; dishes inside the dish are taken apart.
    """

    kcal: Mapping[str, FloatArray]
    kj: Mapping[str, FloatArray]
    ingredients: tuple[Ingredient, ...]


@dataclass(frozen=True, slots=True, eq=False)
class Food:
    """One food.

    per_100g: shape (len(NUTRIENTS),), per 100 g edible portion; NaN where the source has no value.
    standard_error: the same shape, NaN where not given; None when the source never gives any.
    factors: None when the source has no specific energy factors for this food.
    refuse_percent: share of the as-purchased weight that is not eaten, 0 for labels.
    total_carbohydrate_counted: True where fibre is unknown, so that available carbohydrate is the total,
        an upper bound.
    polyols: None when the source states none.
    made: None for what is no dish.
    half_interval: the shape of per_100g; how far the printing of a label leaves each value open, either way; NaN where
        not printed; None where values are exact or of a table.
    tolerance: how far below and above each value of a label the truth may be by the rules of its layout, each the shape
        of per_100g; NaN on a side without limit; None where no such rules apply.
    contains, without: codes of allergens that the label, or whoever made it, states; never inferred.
    remarks: what was assumed in reading the source, or does not fit together in it; sentences for a reader.
    weighed: basis name to its row of `as_weighed`, once that was asked for; a changed copy starts without any.
    """

    id: str
    name: str
    group: str | None
    per_100g: FloatArray
    measures: tuple[Measure, ...] = ()
    factors: SpecificFactors | None = None
    standard_error: FloatArray | None = field(default=None, repr=False)
    refuse_percent: float = 0.0
    source: str = ""
    total_carbohydrate_counted: bool = False
    polyols: Polyols | None = None
    made: Made | None = None
    half_interval: FloatArray | None = field(default=None, repr=False)
    tolerance: tuple[FloatArray, FloatArray] | None = field(default=None, repr=False)
    contains: frozenset[str] = frozenset()
    without: frozenset[str] = frozenset()
    remarks: tuple[str, ...] = ()
    weighed: dict[str, FloatArray] = field(default_factory=dict, init=False, repr=False)

    def value(self, nutrient: str) -> float:
        """Amount of a nutrient (by its name with unit) in 100 g; NaN when missing."""
        return float(self.per_100g[COLUMN[nutrient]])

    def is_missing(self, nutrient: str) -> bool:
        """Whether the source has no value for a nutrient."""
        return isnan(self.value(nutrient))
