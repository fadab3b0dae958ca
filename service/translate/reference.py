"""The reference data that a brief is read with: foods, their search, and what cooking does to them."""

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from service.search.index import FoodSearch
from service.translate.components import placed
from solver.allergens import AllergenRules, load_allergen_rules
from solver.catalogue import Catalogue
from solver.cautions import Cautions, open_cautions
from solver.components import Component, Placed
from solver.cooking_table import CookingTable, load_cooking_table
from solver.foods import Food
from solver.practical import Practical, load_practical, practical_foods
from solver.retention import RetentionTable, load_retention
from solver.rework_fixes import FixRow, load_fixes
from solver.substitutes_table import StandIns, load_stand_ins
from solver.trade_rules import TradeRule, load_trade_rules


@dataclass(frozen=True, slots=True)
class Reference:
    """practical: what may be proposed as an addition. search: finds the nearest to foods that are unknown, or None."""

    catalogue: Catalogue
    cooking: CookingTable
    retention: RetentionTable
    allergens: AllergenRules
    trade_rules: Mapping[str, TradeRule]
    cautions: Cautions
    practical: tuple[Practical, ...]
    rework_fixes: Mapping[str, tuple[FixRow, ...]]
    stand_ins: StandIns
    search: FoodSearch | None = None

    def placed(self, food: Food, component: Component) -> Placed:
        """A food in a component, with what cooking does to it there."""
        return placed(food, component, self.cooking, self.retention)


def open_reference(folder: Path, catalogue: Catalogue, search: FoodSearch | None = None) -> Reference:
    """Read the tables beside the foods. Raises ReferenceDataError when one is missing or damaged."""
    return Reference(
        catalogue=catalogue,
        cooking=load_cooking_table(folder / "cooking"),
        retention=load_retention(folder / "retention.csv"),
        allergens=load_allergen_rules(folder),
        trade_rules=load_trade_rules(folder / "trade_rules.csv"),
        cautions=open_cautions(folder),
        practical=practical_foods(catalogue, load_practical(folder / "additions.csv")),
        rework_fixes=load_fixes(folder / "rework_fixes.csv"),
        stand_ins=load_stand_ins(folder, catalogue),
        search=search,
    )
