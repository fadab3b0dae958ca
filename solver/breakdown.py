"""The numbers of a dish as it is: on every energy basis, the ratios, and who brings what."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from math import isnan

from solver.brief import Brief, EnergyBasis
from solver.energy_eaten import MacroEnergy, macro_energy_kcal
from solver.foods import Food
from solver.outcome import Dish, Distribution, Quantity
from solver.tally import MACRONUTRIENTS, tally
from solver.used import Used, in_kitchen
from solver.verify import dish_of, distribution

#: The group of the food table whose carbohydrate is easily forgotten.
SEASONINGS = "Spices and Herbs"

#: What is shared out among the items.
SHARED = ("energy_kcal", "fat_g", "protein_g", "available_carbohydrate_g", "sodium_mg")


@dataclass(frozen=True, slots=True)
class OnBasis:
    """The batch as eaten on one energy basis.

    energy_kj: from factors of its own where the basis has them, else 4.184 to the kcal. shares: macronutrient to
    percent of macro energy; None without any, or where one is missing. distribution: whole percents that sum to 100.
    """

    basis: EnergyBasis
    energy_kcal: float
    energy_kj: float
    shares: Mapping[str, float] | None
    distribution: Distribution | None

    @property
    def fat_share_percent(self) -> float | None:
        """Percent of macro energy that comes from fat."""
        return None if self.shares is None else self.shares["fat"]


@dataclass(frozen=True, slots=True)
class Brings:
    """What one item brings to the plate, of the batch. amounts, percent: by the names in SHARED.

    amounts: None where the item has no value. percent: of what all items with a value bring; None where that is none.
    """

    name: str
    component: str
    amounts: Mapping[str, float | None]
    percent: Mapping[str, float | None]
    seasoning_carbohydrate_g: float


@dataclass(frozen=True, slots=True)
class Breakdown:
    """dish: on the brief's own basis, without targets. woodyatt: fatty-acid-to-glucose index, None where undefined."""

    dish: Dish
    bases: tuple[OnBasis, ...]
    woodyatt: float | None
    brings: tuple[Brings, ...]

    @property
    def seasoning_carbohydrate_g(self) -> float:
        """Available carbohydrate that spices and herbs bring, in the batch."""
        return sum(each.seasoning_carbohydrate_g for each in self.brings)


def break_down(quantities: Sequence[Quantity], spoons: Mapping[str, int], brief: Brief) -> Breakdown:
    """The numbers of what is given. brief: its basis, components and portions count; targets are not looked at.

    Raises VerificationError where amounts contradict the items themselves.
    """
    dish = dish_of(quantities, replace(brief, targets=()), frozenset(), spoons)
    used = in_kitchen(quantities, spoons, brief).used
    return Breakdown(
        dish=dish,
        bases=tuple(_on_basis(quantities, spoons, replace(brief, energy_basis=basis)) for basis in EnergyBasis),
        woodyatt=_woodyatt(dish),
        brings=_brings(used, brief.energy_basis),
    )


def woodyatt(protein_g: float, fat_g: float, carbohydrate_g: float) -> float | None:
    """Woodyatt's ratio FA/G = (0.9 F + 0.46 P) / (C + 0.58 P + 0.1 F); None where nothing becomes glucose.

    R. T. Woodyatt, Arch Intern Med 1921;28:125-141, quoted second hand. Without units; valid for energy balance only.
    """
    glucose = carbohydrate_g + 0.58 * protein_g + 0.1 * fat_g
    return (0.9 * fat_g + 0.46 * protein_g) / glucose if glucose > 0 else None


def _woodyatt(dish: Dish) -> float | None:
    if any(nutrient in dish.batch.lacking for nutrient in MACRONUTRIENTS):
        return None
    protein, fat, carbohydrate = (dish.batch.values[nutrient] or 0.0 for nutrient in MACRONUTRIENTS)
    return woodyatt(protein, fat, carbohydrate)


def _on_basis(quantities: Sequence[Quantity], spoons: Mapping[str, int], brief: Brief) -> OnBasis:
    sums = tally(quantities, brief, spoons)
    whole = not any(nutrient in sums.batch.lacking for nutrient in MACRONUTRIENTS)
    shares = _shares(sums.macro) if whole and sums.macro.total > 0 else None
    return OnBasis(
        basis=brief.energy_basis,
        energy_kcal=sums.batch.energy_kcal,
        energy_kj=sums.batch.energy_kj,
        shares=shares,
        distribution=distribution(sums.macro) if whole else None,
    )


def _shares(macro: MacroEnergy) -> dict[str, float]:
    parts = {"fat": macro.fat, "protein": macro.protein, "carbohydrate": macro.carbohydrate, "alcohol": macro.alcohol}
    return {name: 100 * part / macro.total for name, part in parts.items()}


def brings_of(dish: Dish, brief: Brief) -> tuple[Brings, ...]:
    """Who brings what to the plate, of a dish that was counted before."""
    return _brings(in_kitchen(dish.quantities, _spoons(dish), brief).used, brief.energy_basis)


def on_basis(dish: Dish, brief: Brief, basis: EnergyBasis) -> OnBasis:
    """The energy on another basis, of a dish that was counted before."""
    return _on_basis(dish.quantities, _spoons(dish), replace(brief, energy_basis=basis))


def _spoons(dish: Dish) -> dict[str, int]:
    return {cooked.component.name: cooked.spoons for cooked in dish.cooked if cooked.spoons}


def _brings(used: Sequence[Used], basis: EnergyBasis) -> tuple[Brings, ...]:
    amounts = [{name: _amount(item, name, basis) for name in SHARED} for item in used]
    totals = {name: sum(each[name] or 0.0 for each in amounts) for name in SHARED}
    return tuple(
        Brings(
            name=item.quantity.item.name,
            component=item.quantity.placed.component,
            amounts=own,
            percent={name: _percent(own[name], totals[name]) for name in SHARED},
            seasoning_carbohydrate_g=_seasoning_g(item.food, item.grams),
        )
        for item, own in zip(used, amounts, strict=True)
    )


def _amount(item: Used, name: str, basis: EnergyBasis) -> float | None:
    if name == "energy_kcal" and basis is not EnergyBasis.DECLARED:
        return macro_energy_kcal([item], basis).total
    return item.eaten(name)


def _percent(amount: float | None, total: float) -> float | None:
    return None if amount is None or total <= 0 else 100 * amount / total


def _seasoning_g(food: Food, grams: float) -> float:
    """Available carbohydrate of spices and herbs, those inside a dish too; 0 where nobody knows it."""
    if food.made is not None:
        return sum(_seasoning_g(part.food, part.grams * grams / 100) for part in food.made.ingredients)
    carbohydrate = food.value("available_carbohydrate_g")
    return grams * carbohydrate / 100 if food.group == SEASONINGS and not isnan(carbohydrate) else 0.0
