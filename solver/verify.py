"""The only door out: a dish is rebuilt from its printed amounts, and a plan that misses anything is refused.

Nothing here reads the programme that was solved. The amounts are the printed ones; the sums are those of `tally`;
the targets are evaluated from their definitions.
"""

from collections.abc import Sequence
from math import isclose

from solver.brief import Brief
from solver.errors import VerificationError
from solver.formulate import largest_g
from solver.numerics import PRINTED_STEP_G, VERIFICATION
from solver.outcome import Dish, Distribution, Quantity, TargetResult
from solver.tally import MACRONUTRIENTS, MacroEnergy, Tally, tally
from solver.targets import Per, Target

#: Grams below which two weights are the same.
SAME_GRAMS = 1e-6


def dish_of(quantities: Sequence[Quantity], brief: Brief, binding: frozenset[str]) -> Dish:
    """What printed amounts come to. Raises VerificationError for amounts that the pantry or a kitchen rules out."""
    for quantity in quantities:
        _check_amount(quantity, brief)
    _check_nothing_left_out(quantities, brief)
    sums = tally(quantities, brief)
    return Dish(
        quantities=tuple(quantities),
        batch=sums.batch,
        portion=sums.portion,
        distribution=None if _lacks_macronutrients(sums) else distribution(sums.macro),
        ketogenic_ratio=_ketogenic_ratio(sums),
        targets=tuple(_result(target, sums, binding) for target in brief.targets),
        cost=_cost(quantities),
    )


def verified(dish: Dish) -> Dish:
    """The dish itself, when it meets every must; raises VerificationError otherwise."""
    missed = [result.target.id for result in dish.targets if result.target.priority is None and not result.met]
    if missed:
        raise VerificationError(f"the printed amounts miss {', '.join(missed)}")
    return dish


def distribution(macro: MacroEnergy) -> Distribution | None:
    """Whole percents by largest remainder, so that they sum to 100; None without macro energy."""
    if macro.total <= 0:
        return None
    shares = {
        "fat": 100 * macro.fat / macro.total,
        "protein": 100 * macro.protein / macro.total,
        "carbohydrate": 100 * macro.carbohydrate / macro.total,
        "alcohol": 100 * macro.alcohol / macro.total,
    }
    whole = {name: int(share) for name, share in shares.items()}
    left = 100 - sum(whole.values())
    for name in sorted(shares, key=lambda name: whole[name] - shares[name])[:left]:
        whole[name] += 1
    return Distribution(**whole)


def _check_amount(quantity: Quantity, brief: Brief) -> None:
    item, grams = quantity.item, quantity.grams
    most = min(most for most in (item.on_hand_g, item.at_most_g, largest_g(brief)) if most is not None)
    if not item.at_least_g - SAME_GRAMS <= grams <= most + SAME_GRAMS:
        raise VerificationError(f"{item.name}: {grams} g is outside what the pantry allows")
    if grams < (item.least_when_used_g or 0.0) - SAME_GRAMS:
        raise VerificationError(f"{item.name}: {grams} g is less than the least amount when used")
    step = PRINTED_STEP_G if item.step is None else item.step.grams
    if not isclose(grams, round(grams / step) * step, abs_tol=SAME_GRAMS):
        raise VerificationError(f"{item.name}: {grams} g is not a multiple of its step")


def _check_nothing_left_out(quantities: Sequence[Quantity], brief: Brief) -> None:
    used = {quantity.item.name for quantity in quantities}
    for item in brief.pantry:
        if item.at_least_g > SAME_GRAMS and item.name not in used:
            raise VerificationError(f"{item.name} must be used and is not")


def _lacks_macronutrients(sums: Tally) -> bool:
    return any(nutrient in sums.batch.lacking for nutrient in MACRONUTRIENTS)


def _ketogenic_ratio(sums: Tally) -> float | None:
    if _lacks_macronutrients(sums):
        return None
    values = sums.batch.values
    other = (values["protein_g"] or 0.0) + (values["available_carbohydrate_g"] or 0.0)
    return (values["fat_g"] or 0.0) / other if other > 0 else None


def _cost(quantities: Sequence[Quantity]) -> float | None:
    costs = [
        None if quantity.item.price_per_g is None else quantity.grams * quantity.item.price_per_g
        for quantity in quantities
    ]
    known = [cost for cost in costs if cost is not None]
    return sum(known) if len(known) == len(costs) else None


def _result(target: Target, sums: Tally, binding: frozenset[str]) -> TargetResult:
    value, reason = _value(target, sums)
    if value is None:
        return TargetResult(target, None, reason, met=_undefined_is_met(target, sums), binding=False, miss=None)
    under = 0.0 if target.lower is None else target.lower - value
    over = 0.0 if target.upper is None else value - target.upper
    ends = [abs(end) for end in (target.lower, target.upper) if end is not None]
    miss = max(under, over, 0.0)
    met = miss <= VERIFICATION * max(1.0, *ends)
    return TargetResult(target, value, None, met=met, binding=met and target.id in binding, miss=0.0 if met else miss)


def _value(target: Target, sums: Tally) -> tuple[float | None, str | None]:
    if target.of.endswith("_share_percent"):
        share = sums.macro
        if share.total <= 0:
            return None, "there is no macro energy to share"
        part: float = getattr(share, target.of.removesuffix("_share_percent"))
        return 100 * part / share.total, None
    if target.of == "ketogenic_ratio":
        ratio = _ketogenic_ratio(sums)
        return ratio, None if ratio is not None else "there is neither protein nor available carbohydrate"
    totals = sums.portion if target.per is Per.PORTION else sums.batch
    if target.of == "energy_kcal":
        return totals.energy_kcal, None
    if totals.lacking.get(target.of):
        raise VerificationError(f"{target.of} is missing from {', '.join(totals.lacking[target.of])}")
    return totals.values[target.of] or 0.0, None


def _undefined_is_met(target: Target, sums: Tally) -> bool:
    """A ratio of fat to nothing is above any bound; a share of nothing is inside any band."""
    fat = sums.batch.values["fat_g"] or 0.0
    return target.upper is None or fat <= 0
