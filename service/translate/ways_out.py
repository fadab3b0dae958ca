"""The ways out of a conflict as they go out, and which foods a brief lets be proposed."""

from collections.abc import Callable, Sequence
from typing import Any, TypeAlias

from service.schemas.ways_out import (
    AdditionAnswer,
    BoundAnswer,
    ChangeAnswer,
    MoveAnswer,
    TogetherAnswer,
    WaysOutAnswer,
)
from service.translate.cautions import to_cautions
from service.translate.numbers import rounded
from service.translate.to_dish import to_dish
from service.words import band, number
from solver.additions import Addition
from solver.allergens import AllergenRules
from solver.brief import Brief
from solver.cautions.caution import Caution
from solver.changes import Change, Moved
from solver.exclusions import Exclusion, excluded
from solver.foods import Food
from solver.no_food_helps import Bound
from solver.outcome import MemberKind, Plan
from solver.pantry import PantryItem
from solver.quantities import QUANTITY
from solver.together import Move, Together
from solver.ways_out import WaysOut

#: What may hurt whoever eats a plan.
CautionsOf: TypeAlias = Callable[[Plan], Sequence[Caution]]


def allowed_by(exclusions: Sequence[Exclusion], rules: AllergenRules) -> Callable[[Food], bool]:
    """Whether a food may be proposed: none that the brief excludes, and none of which nobody has said what it holds."""

    def allowed(food: Food) -> bool:
        return not excluded([PantryItem(food.name, food)], exclusions, rules)

    return allowed


def to_ways_out(found: WaysOut, cautions_of: CautionsOf) -> WaysOutAnswer:
    """The ways out as the contract has them. cautions_of: what may hurt whoever eats a plan."""
    return WaysOutAnswer(
        changes=[_change(change, cautions_of) for change in found.changes],
        together=None if found.together is None else _together(found.together, cautions_of),
        additions=[_addition(addition, cautions_of) for addition in found.additions],
        no_food_helps=None if found.no_food_helps is None else _bound(found.no_food_helps),
    )


def leads(plan: Plan, cautions_of: CautionsOf) -> dict[str, Any]:
    """Fields of whatever leads to a plan."""
    return {
        "dish": to_dish(plan.dish),
        "cautions": to_cautions(cautions_of(plan)),
        "warnings": list(plan.warnings),
    }


def _moved(change: Change | Move) -> dict[str, Any]:
    return {
        "kind": change.member.kind.value,
        "name": change.member.name,
        "field": change.moved.value,
        "unit": change.unit,
        "asked": rounded(change.asked),
        "to": rounded(change.to),
    }


def _change(change: Change, cautions_of: CautionsOf) -> ChangeAnswer:
    text = _text(change, change.plan.brief)
    return ChangeAnswer(limit=rounded(change.limit), text=text, **_moved(change), **leads(change.plan, cautions_of))


def _together(found: Together, cautions_of: CautionsOf) -> TogetherAnswer:
    moves = [MoveAnswer(**_moved(move)) for move in found.moves]
    text = "; ".join(_text(move, found.plan.brief) for move in found.moves)
    return TogetherAnswer(moves=moves, text=text, **leads(found.plan, cautions_of))


def _text(change: Change | Move, brief: Brief) -> str:
    to, asked = number(change.to, change.unit), number(change.asked, change.unit)
    if change.moved is Moved.ON_HAND:
        return f"{to} of {change.member.name} on hand instead of {asked}"
    end = band(change.to, None, change.unit) if change.moved is Moved.AT_LEAST else band(None, change.to, change.unit)
    if change.member.kind is MemberKind.RULE:
        return f"{change.member.name}: {end} instead of {asked}"
    if change.member.kind is not MemberKind.TARGET:
        return f"{change.member.name}: {end} for the batch instead of {asked}"
    target = next(target for target in brief.targets if target.id == change.member.name)
    quantity = QUANTITY[target.of]
    per = f" per {target.per.value}" if quantity.denominator is None else ""
    return f"{quantity.title}: {end}{per} instead of {asked}"


def _addition(addition: Addition, cautions_of: CautionsOf) -> AdditionAnswer:
    about = None if addition.measure is None else f"about {addition.measure.text}"
    aside = "" if about is None else f", {about}"
    name = addition.food.name if addition.item is None else addition.item
    there = "" if addition.item is None else ", which is at home"
    return AdditionAnswer(
        food_id=addition.food.id,
        name=name,
        at_home=addition.item is not None,
        kind=addition.kind,
        component=addition.component,
        grams=rounded(addition.grams),
        about=about,
        least_g=rounded(addition.least_g),
        proven=addition.proven,
        text=f"{name}: {addition.grams:.1f} g{aside}, into {addition.component}{there}",
        **leads(addition.plan, cautions_of),
    )


def _bound(bound: Bound) -> BoundAnswer:
    return BoundAnswer(target=bound.target, value=rounded(bound.value), is_ceiling=bound.is_ceiling, text=bound.text)
