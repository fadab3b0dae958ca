"""What rules and choices bound by food group or allergen: no such food is proposed as an addition.

A food that is proposed is an item of its own, which a rule on a group of the pantry's items does not count. So that no
proposal breaks "at most 10 g of what has milk", nothing of a bounded group is proposed at all, nor what may be of it.
"""

from collections.abc import Iterator

from service.schemas.brief import BriefBody
from solver.exclusions import Exclusion, ExclusionKind


def guarded_by(body: BriefBody) -> tuple[Exclusion, ...]:
    """The groups that something bounds from above, as exclusions of what may be proposed; unknown counts as of it."""
    return tuple(dict.fromkeys((*_of_rules(body), *_of_choices(body))))


def _of_rules(body: BriefBody) -> Iterator[Exclusion]:
    """A ratio is bounded on both sides: more of its second group moves it as well."""
    for rule in body.rules:
        yield from _groups(rule.of_food_groups, rule.of_allergens)
        yield from _groups(rule.to_food_groups, rule.to_allergens)


def _of_choices(body: BriefBody) -> Iterator[Exclusion]:
    for choice in body.choices:
        yield from _groups(choice.number_of_food_groups, choice.number_of_allergens)
        yield from _groups(choice.if_used_food_groups, choice.if_used_allergens)
        yield from _groups(choice.then_not_used_food_groups, choice.then_not_used_allergens)


def _groups(food_groups: list[str] | None, allergens: list[str] | None) -> Iterator[Exclusion]:
    yield from (Exclusion(ExclusionKind.FOOD_GROUP, title) for title in food_groups or ())
    yield from (Exclusion(ExclusionKind.ALLERGEN, code) for code in allergens or ())
