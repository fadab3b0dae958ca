"""What is wrong with a base dish: none where one is needed, unknown or repeated uses, amounts that cannot be steps."""

from collections.abc import Iterator, Mapping
from math import isclose, isfinite

from solver.brief import Brief, Preference
from solver.closest import Base, BaseAmount, UseName
from solver.components import Drippings
from solver.cook import SPOON_G
from solver.errors import Problem
from solver.limits import largest_g
from solver.pantry import Step
from solver.uses import drippings_named

_SPOON = Step(1, "tsp", SPOON_G)


def base_problems(brief: Brief) -> Iterator[Problem]:
    """Every problem of the base dish."""
    if brief.base is None:
        if Preference.CLOSEST in brief.prefer:
            detail = "The plan is to stay close to a base dish, and none is given."
            yield Problem("/prefer", "no_base", detail, "Give base, the amounts of that dish, or take closest to away.")
        return
    yield from _of_amounts(brief, brief.base)


def _of_amounts(brief: Brief, base: Base) -> Iterator[Problem]:
    steps, seen = _steps(brief), set[UseName]()
    for place, amount in enumerate(base.amounts):
        at = f"/base/{place}"
        if amount.use in seen:
            detail = f"The base dish has two amounts of {amount.item} in {amount.component}."
            yield Problem(at, "repeated_base", detail, "Add them up.")
        seen.add(amount.use)
        if amount.use not in steps:
            detail = f"{amount.item} does not go into {amount.component}."
            yield Problem(at, "base_goes_nowhere", detail, "Name it in goes_in of the item, or leave the amount out.")
        elif not (isfinite(amount.grams) and 0 <= amount.grams <= largest_g(brief)):
            detail = f"{amount.item} is below 0, or more than {brief.portions} portions may hold of it."
            yield Problem(at, "not_an_amount", detail, "Check the unit, or say how many portions the batch makes.")
        elif not _is_whole(amount, steps[amount.use]):
            detail = f"The base dish has an amount of {amount.item} that is no whole number of its steps."
            yield Problem(at, "base_not_in_steps", detail, "Leave out the step of the item, or give one that fits.")
    if not any(amount.grams > 0 for amount in base.amounts):
        yield Problem("/base", "empty_base", "Nothing is in the base dish.", "Give what is in it.")


def _steps(brief: Brief) -> Mapping[UseName, Step | None]:
    """The step of every use that there is."""
    found: dict[UseName, Step | None] = {
        (item.name, placed.component): item.step for item in brief.pantry for placed in item.placed
    }
    spooned = (part for part in brief.parts if part.drippings is Drippings.SPOONED_BACK and part.method is not None)
    return found | {(drippings_named(part.name), part.name): _SPOON for part in spooned}


def _is_whole(amount: BaseAmount, step: Step | None) -> bool:
    if step is None:
        return True
    steps = amount.grams / step.grams
    return isclose(steps, round(steps), abs_tol=1e-6)
