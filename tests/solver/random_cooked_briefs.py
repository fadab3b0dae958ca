"""Seeded random cooked briefs: mince in patties, cuts roasted, fats in both places, over the real food table."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from solver.brief import Brief, Preference
from solver.catalogue import Catalogue
from solver.components import Component, Drippings, Placed
from solver.cook import SPOON_G
from solver.cooking_rows import CookingRow
from solver.cooking_table import CookingTable
from solver.outcome import Dish, Quantity
from solver.pans import SPOONABLE
from solver.pantry import PantryItem, Step
from solver.targets import Target
from solver.verify import dish_of
from tests.solver.random_briefs import band

#: USDA SR28: mince of 30, 20 and 10 % fat; egg; cuts; fats; what goes beside.
MINCES = ("sr28:13498", "sr28:23572", "sr28:23562")
EGG = "sr28:01123"
CUTS = ("sr28:05091", "sr28:05057", "sr28:10036")
FATS = ("sr28:04001", "sr28:04002", "sr28:01001")
BESIDE = ("sr28:11090", "sr28:09037", "sr28:01009", "sr28:04053")

ASKED = ("fat_share_percent", "protein_g", "fat_g", "saturated_fat_g", "cholesterol_mg", "ketogenic_ratio")


@dataclass(frozen=True, slots=True)
class Larder:
    """Where random briefs take their foods and their rows from."""

    catalogue: Catalogue
    table: CookingTable

    def roasted(self, food_id: str, component: str) -> Placed:
        """A cut among pieces."""
        rows = self.table.applies_to(self.catalogue.food(food_id))
        row = next(row for row in rows if isinstance(row, CookingRow) and row.method == "roasted")
        return Placed(component, row, row.why)


def random_cooked_brief(larder: Larder, seed: int, *, stepped: bool = False) -> Brief:
    """A brief around a random dish; every fourth asks for the unlikely."""
    rng = np.random.default_rng(seed)
    parts = _parts(rng, larder.table)
    brief = Brief(
        title=f"random cooked {seed}",
        portions=int(rng.integers(1, 5)),
        pantry=_pantry(rng, larder, stepped=stepped),
        targets=(Target("energy_kcal", "energy_kcal", lower=1.0),),
        prefer=(Preference.CHEAPEST,) if rng.random() < 0.5 else (Preference.BALANCED,),
        time_limit_s=10.0,
        components=parts,
    )
    return replace(brief, targets=_targets(rng, brief, unlikely=seed % 4 == 3))


def _parts(rng: np.random.Generator, table: CookingTable) -> tuple[Component, ...]:
    curves = [curve for curve in table.curves if curve.mix in ("broiled patty", "pan-fried patty", "baked loaf")]
    curve = curves[rng.integers(len(curves))]
    fate = [list(Drippings)[n] for n in rng.integers(3, size=2)]
    return (
        Component("patties", curve.mix, fate[0], curve),
        Component("roast", "roasted", fate[1]),
        Component("at the table"),
    )


def _pantry(rng: np.random.Generator, larder: Larder, *, stepped: bool) -> tuple[PantryItem, ...]:
    table, mix = Placed("at the table"), Placed("patties")
    fat, cut = str(rng.choice(FATS)), str(rng.choice(CUTS))
    placed = {
        **{str(of): (mix,) for of in rng.choice(MINCES, 2, replace=False)},
        EGG: (mix,),
        cut: (larder.roasted(cut, "roast"),),
        fat: (table, mix, Placed("roast", melts=True)),
        **{str(of): (table,) for of in rng.choice(BESIDE, 2, replace=False)},
    }
    return tuple(
        PantryItem(
            name=f"item {number}",
            food=larder.catalogue.food(of),
            on_hand_g=float(rng.integers(60, 1200)),
            step=Step(1, "spoon", float(rng.choice([5.0, 14.2, 50.0]))) if stepped and rng.random() < 0.6 else None,
            least_when_used_g=20.0 if stepped and rng.random() < 0.2 else None,
            price_per_g=float(rng.uniform(0.001, 0.05)),
            placed=places,
        )
        for number, (of, places) in enumerate(placed.items())
    )


def _targets(rng: np.random.Generator, brief: Brief, *, unlikely: bool) -> tuple[Target, ...]:
    dish = random_dish(rng, brief, ASKED)
    values = {result.target.of: result.value or 0.0 for result in dish.targets}
    targets = [band(rng, "energy_kcal", max(dish.portion.energy_kcal, 50.0))]
    for of in rng.choice(ASKED, rng.integers(1, 4), replace=False):
        value = values[str(of)] * float(rng.uniform(1.5, 3)) if unlikely else values[str(of)]
        asked = band(rng, str(of), min(value, 99.0) if of == "fat_share_percent" else value)
        targets.append(replace(asked, priority=1) if rng.random() < 0.2 else asked)
    return tuple(targets)


def random_dish(rng: np.random.Generator, brief: Brief, of: Sequence[str] = ()) -> Dish:
    """Random amounts, as they would be printed. of: quantities to say the values of, in place of the targets."""
    quantities = [
        Quantity(item, _printed(item, float(rng.uniform(0, _most_g(item)))), None, item.placed[n])
        for item in brief.pantry
        if rng.random() < 0.7
        for n in [rng.integers(len(item.placed))]
    ]
    used = [quantity for quantity in quantities if _is_used(quantity)]
    asked = replace(brief, targets=tuple(Target(name, name, lower=0.0) for name in of)) if of else brief
    without = dish_of(used, asked, frozenset())
    spoons = {
        each.component.name: int(rng.uniform(0, SPOONABLE) * each.rendered_g / SPOON_G)
        for each in without.cooked
        if each.component.drippings is Drippings.SPOONED_BACK
    }
    return dish_of(used, asked, frozenset(), spoons)


def _most_g(item: PantryItem) -> float:
    return min(most for most in (item.on_hand_g, item.at_most_g, 2000.0) if most is not None)


def _printed(item: PantryItem, grams: float) -> float:
    step = 0.1 if item.step is None else item.step.grams
    return round(int(max(grams, item.at_least_g) / step + 1e-9) * step, 6)


def _is_used(quantity: Quantity) -> bool:
    return quantity.grams > 0 and quantity.grams >= (quantity.item.least_when_used_g or 0.0)
