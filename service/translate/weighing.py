"""Amounts of a pantry item in grams of edible portion, whether it was weighed so or as it is bought.

As purchased less refuse is edible portion; refuse is that of the food table, audited (INFOODS bases of a weight).
"""

import math
from dataclasses import dataclass, replace

from service.schemas.amounts import Amount
from service.schemas.brief import PantryItemBody
from service.translate.amounts import grams_of, positive_grams_of, read_amount, step_of
from service.translate.place import Place
from solver.errors import AmountError
from solver.foods import Food
from solver.pantry import Step
from solver.units import Dimension, find_unit


@dataclass(frozen=True, slots=True)
class Weighing:
    """edible: g edible portion per g as weighed."""

    body: PantryItemBody
    food: Food
    place: Place
    edible: float

    def grams(self, field: str) -> float | None:
        """Grams of edible portion of a field of the item; None when there is none, or when it is refused."""
        amount: Amount | None = getattr(self.body, field)
        if amount is None:
            return None
        place = self.place / field
        self._refuse_measure(amount, place)
        return self._edible(grams_of(amount, self.food, place))

    def positive_grams(self, field: str) -> float | None:
        """The same; zero is refused as well."""
        amount: Amount | None = getattr(self.body, field)
        return None if amount is None else self.positive_of(amount, field)

    def positive_of(self, amount: Amount | None, *path: str) -> float | None:
        """The same of an amount at a path inside the item."""
        place = self.place
        for part in path:
            place = place / part
        self._refuse_measure(amount, place)
        return self._edible(positive_grams_of(amount, self.food, place))

    def step(self) -> Step | None:
        """The step, in the words it was written in."""
        amount, place = self.body.step, self.place / "step"
        self._refuse_measure(amount, place)
        step = step_of(amount, self.food, place)
        return None if step is None else replace(step, grams=step.grams * self.edible)

    @staticmethod
    def whole(amount: Amount, grams: float) -> Step:
        """An amount as a single step, in its own words where it has one unit."""
        parts = read_amount(amount)
        if len(parts) > 1 or parts[0].value <= 0:
            return Step(round(grams, 6), "g", grams)
        return Step(parts[0].value, parts[0].unit, grams)

    def _edible(self, grams: float | None) -> float | None:
        return None if grams is None else grams * self.edible

    def _refuse_measure(self, amount: Amount | None, place: Place) -> None:
        if amount is None or self.edible == 1.0:
            return
        try:
            parts = read_amount(amount)
        except AmountError:
            return  # refused where it is read
        if not all(_is_mass(part.unit) for part in parts):
            detail = "A household measure is of the edible portion, and the item is weighed as purchased."
            place.refuse("measure_as_purchased", detail, "Give a weight, or drop weighed.")


def weighing(body: PantryItemBody, food: Food, place: Place) -> Weighing:
    """How the item is weighed. A food whose refuse is not known is refused as purchased."""
    if body.weighed == "edible portion":
        return Weighing(body, food, place, 1.0)
    if math.isnan(food.refuse_percent):
        detail = f"What is not eaten of {body.name.strip()} as purchased is not known."
        (place / "weighed").refuse("refuse_unknown", detail, "Weigh the edible portion, and drop weighed.")
        return Weighing(body, food, place, 1.0)
    return Weighing(body, food, place, 1.0 - food.refuse_percent / 100)


def _is_mass(unit: str) -> bool:
    known = find_unit(unit)
    return known is not None and known.dimension is Dimension.MASS
