"""A bound that no food can help: what energy, protein, fat and carbohydrate cannot be together, whatever is added.

On the general and the regulation basis every food weighs in like a mixture of pure protein, fat, carbohydrate, fibre,
alcohol and the sweeteners that count differently (see `energy`). So where not even these pure foods, as much as one
likes of each, meet the musts, nothing does; and what they can reach is a bound on every dish.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np

from solver.backends.base import Backend
from solver.brief import Brief, EnergyBasis
from solver.deadline import Deadline
from solver.errors import UnusableBrief
from solver.foods import Food, Polyols
from solver.nearest_end import End, nearest_end
from solver.nutrients import COLUMN, NUTRIENTS
from solver.outcome import Conflict, Member, MemberKind
from solver.pantry import PantryItem
from solver.quantities import QUANTITY
from solver.sensible import grain, outward
from solver.solve import solve
from solver.targets import Per, Target, WeightBasis

#: What pure foods can say something of; the first that is in the conflict is what the bound is stated of.
SUBJECTS = (
    *("fat_share_percent", "ketogenic_ratio", "carbohydrate_share_percent", "protein_share_percent", "energy_kcal"),
    *("fat_g", "protein_g", "available_carbohydrate_g", "total_carbohydrate_g", "fibre_g", "alcohol_g"),
)

#: Bases on which the energy of a food is that of its parts.
BASES = frozenset({EnergyBasis.GENERAL, EnergyBasis.REGULATION})

#: One target alone that pure foods miss is beyond what a plate can hold; that is no bound of arithmetic.
LEAST_MEMBERS = 2

_MACRONUTRIENTS = ("protein_g", "fat_g", "total_carbohydrate_g", "available_carbohydrate_g", "fibre_g", "alcohol_g")

_SHORT = {
    "energy_kcal": "{number} kcal",
    "ketogenic_ratio": "a ketogenic ratio of {number} : 1",
    "fat_share_percent": "{number} % fat",
    "protein_share_percent": "{number} % protein",
    "carbohydrate_share_percent": "{number} % carbohydrate",
    "total_carbohydrate_g": "{number} g carbohydrate",
}


@dataclass(frozen=True, slots=True)
class Bound:
    """What no dish can reach while the other targets of the conflict hold.

    target: its id. value: the bound in the target's unit. is_ceiling: no dish is above it; else none is below. members:
    the targets that cannot be had together, this one among them. text: a sentence without a full stop.
    """

    target: str
    value: float
    is_ceiling: bool
    members: tuple[Member, ...]
    text: str


def no_food_helps(brief: Brief, backend: Backend, deadline: Deadline) -> Bound | None:
    """The bound, if the musts on energy and macronutrients cannot be met by any food at all; else None."""
    pure = _over_pure_foods(brief)
    if pure is None:
        return None
    try:
        outcome = solve(pure, backend, deadline)
    except UnusableBrief:
        return None
    if not isinstance(outcome, Conflict) or any(member.kind is not MemberKind.TARGET for member in outcome.members):
        return None
    names = {member.name for member in outcome.members}
    only = replace(pure, targets=tuple(target for target in pure.targets if target.id in names))
    reached = [each for target in only.targets for each in _reached(only, target, backend, deadline)]
    if len(reached) != len(names) or len(names) < LEAST_MEMBERS:
        return None
    subject, *others = sorted(reached, key=lambda each: SUBJECTS.index(each.target.of))
    return Bound(subject.target.id, subject.limit, subject.is_lower, outcome.members, _text(subject, others))


@dataclass(frozen=True, slots=True)
class _Reached:
    """asked: the end of a target that takes part in the conflict. limit: what can be reached of it instead."""

    target: Target
    is_lower: bool
    asked: float
    limit: float


def _over_pure_foods(brief: Brief) -> Brief | None:
    """The musts that pure foods can say something of, over these; None where there are none."""
    targets = tuple(
        target
        for target in brief.targets
        if target.priority is None and target.of in SUBJECTS and target.basis is WeightBasis.AS_EATEN
    )
    if not targets or brief.energy_basis not in BASES:
        return None
    pantry = tuple(PantryItem(food.name, food) for food in pure_foods())
    return Brief(brief.title, brief.portions, pantry, targets, energy_basis=brief.energy_basis)


def pure_foods() -> tuple[Food, ...]:
    """One for every way in which 100 g of a food can count."""
    return (
        _pure("protein", protein_g=100.0),
        _pure("fat", fat_g=100.0),
        _pure("carbohydrate", total_carbohydrate_g=100.0, available_carbohydrate_g=100.0),
        _pure("fibre", total_carbohydrate_g=100.0, fibre_g=100.0),
        _pure("alcohol", alcohol_g=100.0),
        *_sweeteners(),
    )


def _sweeteners() -> Iterator[Food]:
    """Polyols and allulose, by the energy that they have, and by whether they count as available."""
    for counted in (0.0, 100.0):
        said = "counted" if counted else "uncounted"
        carbohydrate = {"total_carbohydrate_g": 100.0, "available_carbohydrate_g": counted}
        yield _pure(f"polyols, {said}", Polyols(100.0, 0.0, 0.0, counted), **carbohydrate)
        yield _pure(f"erythritol, {said}", Polyols(0.0, 100.0, 0.0, counted), **carbohydrate)
        yield _pure(f"allulose, {said}", Polyols(0.0, 0.0, 100.0, counted), **carbohydrate)


def _pure(name: str, polyols: Polyols | None = None, **per_100g: float) -> Food:
    values = np.full(len(NUTRIENTS), np.nan)
    for nutrient in _MACRONUTRIENTS:
        values[COLUMN[nutrient]] = per_100g.get(nutrient, 0.0)
    return Food(id=f"pure:{name}", name=f"pure {name}", group=None, per_100g=values, polyols=polyols)


def _reached(only: Brief, target: Target, backend: Backend, deadline: Deadline) -> Iterator[_Reached]:
    """The end of a target whose move alone would make a plan possible; at most one."""
    for is_lower in (True, False):
        end = End(target, is_lower)
        asked, limit = end.value, nearest_end(only, end, backend, deadline)
        if asked is not None and limit is not None and (limit < asked if is_lower else limit > asked):
            yield _Reached(target, is_lower, asked, limit)
            return


def _text(subject: _Reached, others: Sequence[_Reached]) -> str:
    step = grain(QUANTITY[subject.target.of].unit, subject.limit)
    said = _short(subject.target, outward(subject.limit, step, down=not subject.is_lower))
    verb = "cannot exceed" if subject.is_lower else "cannot go below"
    return f"{_joined([_short(each.target, each.asked) for each in others])} {verb} {said}, whatever is added"


def _joined(parts: Sequence[str]) -> str:
    """As in "450 kcal with 35 g protein and 5 g carbohydrate"; at least one part."""
    return parts[0] + (" with " + " and ".join(parts[1:]) if parts[1:] else "")


def _short(target: Target, value: float) -> str:
    quantity = QUANTITY[target.of]
    text = _SHORT.get(target.of, f"{{number}} {quantity.unit} {quantity.title}").format(number=f"{value:.6g}")
    return text + (" a batch" if target.per is Per.BATCH and quantity.denominator is None else "")
