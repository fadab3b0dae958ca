"""The only door out: a dish is rebuilt from its printed amounts, and a plan that misses anything is refused.

Nothing here reads the programme that was solved. The amounts are the printed ones; the sums are those of `tally`;
the targets are evaluated from their definitions.
"""

from collections.abc import Mapping, Sequence
from math import inf, isclose

from solver.brief import Brief
from solver.cooked import CookedComponent
from solver.energy_eaten import MacroEnergy
from solver.errors import VerificationError
from solver.holds_worst import AtEnds, at_ends, worst_case
from solver.limits import largest_g
from solver.numerics import BALANCE, PRINTED_STEP_G, VERIFICATION
from solver.outcome import Dish, Distribution, Quantity, TargetResult, Totals
from solver.pantry import PantryItem
from solver.protein import counted_protein_g
from solver.rule_results import choice_result, rule_result
from solver.tally import MACRONUTRIENTS, Tally, tally
from solver.targets import Per, Target, WeightBasis

_NO_LIMIT = "at its worst there may be neither protein nor available carbohydrate"

#: Grams below which two weights are the same.
SAME_GRAMS = 1e-6


def dish_of(
    quantities: Sequence[Quantity], brief: Brief, binding: frozenset[str], spoons: Mapping[str, int] | None = None
) -> Dish:
    """What printed amounts come to. Raises VerificationError for amounts that the pantry or a kitchen rules out.

    spoons: name of a component to teaspoons of its drippings that are spooned back.
    """
    for quantity in quantities:
        _check_step(quantity)
    _check_stock(quantities, brief)
    sums, ends = tally(quantities, brief, spoons), at_ends(quantities, brief, spoons)
    for cooked in sums.cooked:
        check_balance(cooked)
    return Dish(
        quantities=tuple(quantities),
        batch=sums.batch,
        portion=sums.portion,
        raw=sums.raw,
        cooked=sums.cooked,
        distribution=None if _lacks_macronutrients(sums) else distribution(sums.macro),
        ketogenic_ratio=_ketogenic_ratio(sums.batch),
        targets=tuple(_result(target, sums, ends, binding, brief.collagen_part) for target in brief.targets),
        cost=_cost(quantities),
        choices=tuple(choice_result(choice, quantities) for choice in brief.choices),
        rules=tuple(rule_result(rule, quantities, brief, rule.id in binding, spoons) for rule in brief.rules),
    )


def verified(dish: Dish) -> Dish:
    """The dish itself, when it meets every must; raises VerificationError otherwise."""
    if dish.missed:
        raise VerificationError(f"the printed amounts miss {', '.join(dish.missed)}")
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


def check_balance(cooked: CookedComponent) -> None:
    """Raise VerificationError unless fat in = fat eaten + fat not eaten, of the component and of its items."""
    name, eaten = cooked.component.name, cooked.kept_g + cooked.returned_g
    tolerance = BALANCE * max(1.0, cooked.fat_g)
    if abs(cooked.fat_g - eaten - cooked.lost_g) > tolerance or cooked.lost_g < -tolerance:
        raise VerificationError(f"{name}: the fat that went in is not the fat that was eaten and lost")
    if abs(sum(item.lost_g for item in cooked.items) - cooked.lost_g) > tolerance:
        raise VerificationError(f"{name}: the items do not lose what the component loses")
    if cooked.kept_g < -tolerance:
        raise VerificationError(f"{name}: more fat ran out than went in")


def _check_step(quantity: Quantity) -> None:
    item, grams = quantity.item, quantity.grams
    step = PRINTED_STEP_G if item.step is None else item.step.grams
    if not isclose(grams, round(grams / step) * step, abs_tol=SAME_GRAMS):
        raise VerificationError(f"{item.name}: {grams} g is not a multiple of its step")


def _check_stock(quantities: Sequence[Quantity], brief: Brief) -> None:
    """What all components together take of each item; what must be used is among them."""
    used: dict[str, float] = {}
    largest = largest_g(brief)
    for quantity in quantities:
        used[quantity.item.name] = used.get(quantity.item.name, 0.0) + quantity.grams
    for item in {quantity.item.name: quantity.item for quantity in quantities}.values():
        _check_amount(item, used[item.name], largest)
    for item in brief.pantry:
        if item.at_least_g > SAME_GRAMS and item.name not in used:
            _check_amount(item, 0.0, largest)


def _check_amount(item: PantryItem, grams: float, largest: float) -> None:
    on_hand = largest if item.on_hand_g is None else item.on_hand_g
    most = min(largest, on_hand, on_hand if item.at_most_g is None else item.at_most_g)
    if grams == 0 and item.at_least_g > SAME_GRAMS:
        raise VerificationError(f"{item.name} must be used and is not")
    if not item.at_least_g - SAME_GRAMS <= grams <= most + SAME_GRAMS:
        raise VerificationError(f"{item.name}: {grams} g is outside what the pantry allows")
    if 0 < grams < (item.least_when_used_g or 0.0) - SAME_GRAMS:
        raise VerificationError(f"{item.name}: {grams} g is less than the least amount when used")


def _lacks_macronutrients(sums: Tally) -> bool:
    return any(nutrient in sums.batch.lacking for nutrient in MACRONUTRIENTS)


def _ketogenic_ratio(totals: Totals) -> float | None:
    if any(nutrient in totals.lacking for nutrient in MACRONUTRIENTS):
        return None
    values = totals.values
    other = (values["protein_g"] or 0.0) + (values["available_carbohydrate_g"] or 0.0)
    return (values["fat_g"] or 0.0) / other if other > 0 else None


def _cost(quantities: Sequence[Quantity]) -> float | None:
    costs = [
        None if quantity.item.price_per_g is None else quantity.grams * quantity.item.price_per_g
        for quantity in quantities
    ]
    known = [cost for cost in costs if cost is not None]
    return sum(known) if len(known) == len(costs) else None


def _result(
    target: Target, sums: Tally, ends: Sequence[AtEnds], binding: frozenset[str], collagen_part: float
) -> TargetResult:
    value, reason = _value(target, sums, collagen_part)
    if value is None:
        return TargetResult(target, None, reason, met=_undefined_is_met(target, sums), binding=False, miss=None)
    worst = worst_case(target, ends, lambda at_end: _value(target, at_end, collagen_part)[0])
    least, most = value, max(value, _all_protein(target, sums))
    if worst is not None and target.priority is None:
        all_protein = max(_all_protein(target, at_end) for way in ends for at_end in way.tallies)
        least, most = worst.lowest, max(inf if worst.highest is None else worst.highest, all_protein)
    under = 0.0 if target.lower is None else target.lower - least
    over = 0.0 if target.upper is None else most - target.upper
    bounds = [abs(end) for end in (target.lower, target.upper) if end is not None]
    miss = max(under, over, 0.0)
    if miss == inf:
        return TargetResult(target, value, _NO_LIMIT, met=False, binding=False, miss=None, worst=worst)
    met = miss <= VERIFICATION * max(1.0, *bounds)
    binds = met and target.id in binding
    return TargetResult(target, value, None, met=met, binding=binds, miss=0.0 if met else miss, worst=worst)


def _value(target: Target, sums: Tally, collagen_part: float) -> tuple[float | None, str | None]:
    batch, macro = _counted(target, sums)
    if target.of.endswith("_share_percent"):
        if macro.total <= 0:
            return None, "there is no macro energy to share"
        part: float = getattr(macro, target.of.removesuffix("_share_percent"))
        return 100 * part / macro.total, None
    if target.of == "ketogenic_ratio":
        ratio = _ketogenic_ratio(batch)
        return ratio, None if ratio is not None else "there is neither protein nor available carbohydrate"
    portions = sums.portions if target.per is Per.PORTION else 1
    if target.of == "energy_kcal":
        return batch.energy_kcal / portions, None
    if batch.lacking.get(target.of):
        raise VerificationError(f"{target.of} is missing from {', '.join(batch.lacking[target.of])}")
    amount = batch.values[target.of] or 0.0
    if target.of == "protein_g" and target.lower is not None:
        amount = counted_protein_g(amount, sums.collagen_g, collagen_part)
    return amount / portions, None


def _all_protein(target: Target, sums: Tally) -> float:
    """For the upper end of a band all protein counts, collagen's too."""
    if target.of != "protein_g":
        return 0.0
    return (_counted(target, sums)[0].values["protein_g"] or 0.0) / (sums.portions if target.per is Per.PORTION else 1)


def _counted(target: Target, sums: Tally) -> tuple[Totals, MacroEnergy]:
    """The batch as the target counts it: raw, or as eaten."""
    return (sums.raw, sums.raw_macro) if target.basis is WeightBasis.RAW else (sums.batch, sums.macro)


def _undefined_is_met(target: Target, sums: Tally) -> bool:
    """A ratio of fat to nothing is above any bound; a share of nothing is inside any band."""
    fat = _counted(target, sums)[0].values["fat_g"] or 0.0
    return target.upper is None or fat <= 0
