"""Seeded random kitchens of invented foods: one cooked component, something at the table, and amounts of all of it."""

from dataclasses import dataclass, replace

import numpy as np

from solver.as_eaten import as_weighed
from solver.board import Board, board_of
from solver.brief import Brief, EnergyBasis
from solver.components import Component, Drippings, Placed
from solver.cook import SPOON_G, Content, cook
from solver.foods import Food, SpecificFactors
from solver.missing import Counted
from solver.numerics import FloatArray
from solver.nutrients import NUTRIENTS
from solver.outcome import Quantity
from solver.pantry import PantryItem
from solver.tally import Tally, tally
from tests.solver import larder

#: Fatty acid to the most of the fat that it can be.
FATTY_ACIDS = {"saturated_fat_g": 0.5, "monounsaturated_fat_g": 0.4, "polyunsaturated_fat_g": 0.3, "trans_fat_g": 0.05}


@dataclass(frozen=True, slots=True)
class Kitchen:
    """grams: of each item of the pantry, in its order. spoons: teaspoons of drippings that are spooned back."""

    brief: Brief
    grams: tuple[float, ...]
    spoons: int

    @property
    def tally(self) -> Tally:
        """Food by food."""
        pairs = zip(self.brief.pantry, self.grams, strict=True)
        quantities = [Quantity(item, grams, None, item.placed[0]) for item, grams in pairs]
        return tally(quantities, self.brief, {self.brief.components[0].name: self.spoons})

    @property
    def board(self) -> Board:
        """By the matrix; the items in the order of the pantry."""
        matrix = as_weighed(tuple(item.food for item in self.brief.pantry), self.brief.energy_basis)
        return board_of(self.brief, Counted(self.brief.pantry, matrix, ()))

    def amounts_g(self, board: Board) -> FloatArray:
        """Grams of every use of the board."""
        return np.array([*self.grams, *(self.spoons * SPOON_G for use in board.uses if use.is_spoon)])


def random_kitchen(seed: int, sources: int) -> Kitchen:
    """sources: how many of the items in the cooked component hold fat; one more does not."""
    rng = np.random.default_rng(seed)
    component = replace(
        larder.PATTIES if rng.random() < 0.5 else larder.ROAST, drippings=list(Drippings)[rng.integers(3)]
    )
    foods = [_food(rng, f"food {n}", fat_g=rng.uniform(0.5, 90) if n < sources else 0.0) for n in range(sources + 2)]
    pantry = [_into(rng, of, component) for of in foods[:-1]]
    pantry.append(larder.into(larder.item(foods[-1]), larder.TABLE))
    grams = [round(float(rng.uniform(1, 900)), 1) for _ in pantry]
    if rng.random() < 0.5:
        component = _weighed(rng, component, pantry, grams)
        pantry = [replace(item, at_least_g=g, at_most_g=g) for item, g in zip(pantry, grams, strict=True)]
    brief = replace(
        larder.brief(*pantry), components=(component, larder.TABLE), energy_basis=list(EnergyBasis)[rng.integers(4)]
    )
    return Kitchen(brief, tuple(grams), _spoons(rng, component, pantry, grams))


def _food(rng: np.random.Generator, name: str, fat_g: float) -> Food:
    values = {nutrient.name: float(rng.uniform(0, 50)) for nutrient in NUTRIENTS}
    values |= {"fat_g": fat_g, "water_g": 100 - fat_g if rng.random() < 0.9 else 0.0}
    values |= {name: fat_g * float(rng.uniform(0, most)) for name, most in FATTY_ACIDS.items()}
    values["energy_kcal"] = 9.5 * fat_g + 7 * values["alcohol_g"] + float(rng.uniform(0, 100))
    factors = SpecificFactors(4.27, float(rng.uniform(8, 9.5)), 3.87) if rng.random() < 0.5 else None
    return replace(larder.food(name, **values), factors=factors)


def _into(rng: np.random.Generator, of: Food, component: Component) -> PantryItem:
    kept = {name: float(rng.random()) for name in ("alcohol_g", "vitamin_c_mg") if rng.random() < 0.3}
    if component.is_mix:
        return larder.into(larder.item(of), Placed(component.name, retention=kept))
    if rng.random() < 0.2:
        return larder.into(larder.item(of), Placed(component.name, melts=True, retention=kept))
    row = larder.cooking_row(float(rng.uniform(0.1, 1)), float(rng.uniform(0.3, 1)))
    return larder.into(larder.item(of), Placed(component.name, row, retention=kept))


def _contents(pantry: list[PantryItem], grams: list[float]) -> list[Content]:
    """Of the component, without what is at the table."""
    inside = zip(pantry[:-1], grams[:-1], strict=True)
    return [Content(item.name, item.food, of, item.placed[0]) for item, of in inside]


def _weighed(rng: np.random.Generator, component: Component, pantry: list[PantryItem], grams: list[float]) -> Component:
    """The component as a cook might weigh it: finished, and one of the weights, or both."""
    contents = _contents(pantry, grams)
    fat, raw = sum(content.fat_g for content in contents), sum(grams[:-1])
    drippings = float(rng.uniform(0, 0.9)) * fat if rng.random() < 0.7 else None
    cooked = float(rng.uniform(0.3, 1)) * (raw - (drippings or 0.0)) if rng.random() < 0.7 else None
    return replace(component, finished=True, drippings_g=drippings, cooked_g=cooked)


def _spoons(rng: np.random.Generator, component: Component, pantry: list[PantryItem], grams: list[float]) -> int:
    if component.drippings is not Drippings.SPOONED_BACK:
        return 0
    return int(rng.random() * cook(component, _contents(pantry, grams)).rendered_g / SPOON_G)
