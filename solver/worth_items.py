"""The limits of items that a plan stands at: stocks that are used up, least amounts that are only just met."""

from collections.abc import Iterator, Mapping
from dataclasses import replace
from types import MappingProxyType

from solver.brief import Brief
from solver.limits import largest_g, printable
from solver.measures import text_of
from solver.numerics import PRINTED_STEP_G
from solver.outcome import MemberKind, Plan
from solver.pantry import PantryItem, is_in_already
from solver.worth_ends import SAME, End, fitting

#: Fields that limit an item from above.
_MOST = ("on_hand", "at_most")

_KINDS: Mapping[str, MemberKind] = MappingProxyType(
    {
        "on_hand": MemberKind.ON_HAND,
        "at_most": MemberKind.MOST_AMOUNT,
        "at_least": MemberKind.LEAST_AMOUNT,
        "least_when_used": MemberKind.LEAST_AMOUNT,
    }
)


def item_ends(plan: Plan) -> Iterator[End]:
    """The ends of items that press on a plan, in the brief's order. What is in already is no limit, but a fact."""
    used: dict[str, float] = {}
    for quantity in plan.dish.quantities:
        used[quantity.item.name] = used.get(quantity.item.name, 0.0) + quantity.grams
    out = plan.brief.leave_out | {left.item for left in plan.left_out}
    for item in plan.brief.pantry:
        if item.name not in out and not is_in_already(item):
            for field in _limits_at(item, used.get(item.name, 0.0)):
                yield _item_end(plan.brief, item, field)


def _limits_at(item: PantryItem, used_g: float) -> Iterator[str]:
    """The limits that a used amount stands at, to the grain that it is printed in."""
    # A weighed amount may be printed 0.1 g inside its limit; of steps, less than one more must be left.
    near = PRINTED_STEP_G + SAME if item.step is None else item.step.grams - SAME
    for field, limit in _limits(item).items():
        if used_g >= limit - near if field in _MOST else 0 < used_g <= limit + near:
            yield field


def _limits(item: PantryItem) -> dict[str, float]:
    """Field of the brief to the limit of an item, grams, where there is one."""
    limits = {
        "on_hand": item.on_hand_g,
        "at_most": item.at_most_g,
        "at_least": item.at_least_g or None,
        "least_when_used": item.least_when_used_g or None,
    }
    return {field: limit for field, limit in limits.items() if limit is not None}


def _item_end(brief: Brief, item: PantryItem, field: str) -> End:
    limit, outward = _limits(item)[field], 1.0 if field in _MOST else -1.0
    by, grams, unit = _unit(item, limit)
    looser, tighter = (_with_item(brief, item, field, limit + sign * outward * grams) for sign in (1, -1))
    return End(_KINDS[field], item.name, field, by, unit, looser, tighter)


def _unit(item: PantryItem, limit: float) -> tuple[float, float, str]:
    """What one unit is, its grams, and its words."""
    if item.step is not None:
        return 1.0, item.step.grams, f"steps of {text_of(item.step.amount, item.step.unit)}"
    by = max(fitting(1.0, [limit]), PRINTED_STEP_G)
    return by, by, "g for the batch"


def _with_item(brief: Brief, item: PantryItem, field: str, grams: float) -> Brief | None:
    moved = _moved(item, field, grams if field in _MOST else max(0.0, grams))
    least, most = printable(moved, largest_g(brief))
    if least > most:
        return None
    return replace(brief, pantry=tuple(moved if each.name == item.name else each for each in brief.pantry))


def _moved(item: PantryItem, field: str, grams: float) -> PantryItem:
    match field:
        case "on_hand":
            return replace(item, on_hand_g=grams)
        case "at_most":
            return replace(item, at_most_g=grams)
        case "at_least":
            return replace(item, at_least_g=grams)
        case _:
            return replace(item, least_when_used_g=grams)
