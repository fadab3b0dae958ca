"""From the solver's dish to the one that goes out."""

from typing import Any

from service.schemas.dish import DishAnswer, DistributionAnswer, QuantityAnswer, TargetAnswer, TotalsAnswer
from service.translate.choices import to_choice_answer
from service.translate.holds import to_worst_case
from service.translate.numbers import maybe_rounded, rounded
from service.translate.rules import to_rule_answer
from service.translate.to_cooked import to_cooked
from solver.kitchen_measure import NEARNESS
from solver.measures import KitchenMeasure, kitchen_measure, text_of
from solver.outcome import Dish, Distribution, Quantity, TargetResult, Totals
from solver.quantities import QUANTITY
from solver.units import Dimension, Unit, find_unit

_NO_RATIO = "There is neither protein nor available carbohydrate, so nothing to relate the fat to."
_UNKNOWN_RATIO = "A used item has no value for protein, fat or available carbohydrate."
_RATIO_NEEDS = ("fat_g", "protein_g", "available_carbohydrate_g")


def to_dish(dish: Dish) -> DishAnswer:
    """The dish as the contract has it."""
    return DishAnswer(**dish_fields(dish))


def dish_fields(dish: Dish) -> dict[str, Any]:
    """The fields of DishAnswer, for the answers that are a dish themselves."""
    return {
        "quantities": [to_quantity(quantity) for quantity in dish.quantities],
        "batch": to_totals(dish.batch),
        "portion": to_totals(dish.portion),
        "raw": to_totals(dish.raw),
        "components": [to_cooked(cooked) for cooked in dish.cooked],
        "energy_distribution_percent": to_distribution(dish.distribution),
        "ketogenic_ratio": maybe_rounded(dish.ketogenic_ratio),
        "ketogenic_ratio_reason": _ratio_reason(dish),
        "targets": [_target(result) for result in dish.targets],
        "rules": [to_rule_answer(result) for result in dish.rules],
        "choices": [to_choice_answer(result) for result in dish.choices],
        "cost": maybe_rounded(dish.cost),
    }


def to_quantity(quantity: Quantity) -> QuantityAnswer:
    """An amount as the contract has it."""
    return QuantityAnswer(
        name=quantity.item.name,
        food_id=quantity.item.food.id,
        component=quantity.placed.component,
        grams=rounded(quantity.grams),
        as_purchased_grams=_as_purchased(quantity),
        text=_exact_text(quantity),
        steps=quantity.steps,
        about=_about(quantity),
    )


def _as_purchased(quantity: Quantity) -> float | None:
    edible = quantity.item.edible_g_per_g
    return None if edible == 1.0 else rounded(quantity.grams / edible)


def _exact_text(quantity: Quantity) -> str:
    step = quantity.item.step
    if step is None or quantity.steps is None:
        return f"{quantity.grams:.1f} g"
    return text_of(quantity.steps * step.amount, step.unit)


def _about(quantity: Quantity) -> str | None:
    """A kitchen measure near the grams; None where the step is one, unless it is more spoons than one counts."""
    step = quantity.item.step
    known = None if step is None else find_unit(step.unit)
    if step is not None and known is None:
        return None
    measure = kitchen_measure(quantity.grams, quantity.item.food)
    if measure is None or (known is not None and not _says_more(measure, known, quantity.grams)):
        return None
    return f"about {measure.text}"


def _says_more(measure: KitchenMeasure, step: Unit, grams: float) -> bool:
    """Beside a weight, any measure; beside spoons or cups, one of another size that is all but the same amount."""
    if step.dimension is Dimension.MASS:
        return True
    return find_unit(measure.unit) is not step and abs(measure.grams - grams) <= NEARNESS[0] * grams


def to_totals(totals: Totals) -> TotalsAnswer:
    """Totals as the contract has them."""
    return TotalsAnswer(
        grams=rounded(totals.grams),
        energy_kcal=rounded(totals.energy_kcal),
        energy_kj=rounded(totals.energy_kj),
        nutrients={name: maybe_rounded(value) for name, value in totals.values.items()},
        lacking={name: list(items) for name, items in totals.lacking.items()},
    )


def to_distribution(percent: Distribution | None) -> DistributionAnswer | None:
    """The energy distribution as the contract has it."""
    if percent is None:
        return None
    return DistributionAnswer(
        fat=percent.fat, protein=percent.protein, carbohydrate=percent.carbohydrate, alcohol=percent.alcohol
    )


def _ratio_reason(dish: Dish) -> str | None:
    if dish.ketogenic_ratio is not None:
        return None
    return _UNKNOWN_RATIO if any(name in dish.batch.lacking for name in _RATIO_NEEDS) else _NO_RATIO


def _target(result: TargetResult) -> TargetAnswer:
    target = result.target
    return TargetAnswer(
        id=target.id,
        of=target.of,
        per=target.per.value,
        unit=QUANTITY[target.of].unit,
        at_least=maybe_rounded(target.lower),
        at_most=maybe_rounded(target.upper),
        aim=maybe_rounded(target.aim),
        within=maybe_rounded(target.within),
        priority=target.priority,
        basis=target.basis.value,
        value=maybe_rounded(result.value),
        reason=result.reason,
        met=result.met,
        binding=result.binding,
        miss=maybe_rounded(result.miss),
        worst_case=to_worst_case(result.worst),
    )
