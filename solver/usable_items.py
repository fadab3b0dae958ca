"""What is wrong with a pantry item by itself: impossible amounts, and limits between which nothing can be printed."""

from collections.abc import Iterator
from math import ceil, floor
from sys import float_info

from solver.brief import Brief
from solver.errors import Problem
from solver.limits import largest_g
from solver.numerics import LARGEST_PORTION_G, PRINTED_STEP_G
from solver.pantry import PantryItem

#: Smallest step: finer than a kitchen's finest scale.
LEAST_STEP_G = 0.01

#: Largest price of a gram: far beyond saffron in any currency.
LARGEST_PRICE_PER_G = 1e6


def items_problems(brief: Brief) -> Iterator[Problem]:
    """Every problem of the items. Most have none, which a look at each tells."""
    largest = max(largest_g(brief), LARGEST_PORTION_G)  # too few portions are a problem of their own
    for place, item in enumerate(brief.pantry):
        if not _is_plain(item, largest):
            yield from item_problems(item, f"/pantry/{place}", brief)


def _is_plain(item: PantryItem, largest: float) -> bool:
    """Whether an item surely has no problem: weighed, none of it needed, sane numbers, and room between them."""
    on_hand, at_most, price = item.on_hand_g, item.at_most_g, item.price_per_g
    return (
        item.at_least_g == 0
        and item.step is None
        and item.least_when_used_g is None
        and (on_hand is None or 0 <= on_hand <= largest)
        and (at_most is None or 0 <= at_most <= largest)
        and (price is None or 0 <= price <= LARGEST_PRICE_PER_G)
    )


def item_problems(item: PantryItem, at: str, brief: Brief) -> Iterator[Problem]:
    """Every problem of the item at JSON pointer `at`."""
    largest = max(largest_g(brief), LARGEST_PORTION_G)
    fields = (
        ("on_hand", item.on_hand_g, float_info.max),
        ("at_least", item.at_least_g, largest),
        ("at_most", item.at_most_g, float_info.max),
        ("least_when_used", item.least_when_used_g, largest),
        ("step", None if item.step is None else item.step.grams, largest),
        ("price", item.price_per_g, LARGEST_PRICE_PER_G),
    )
    wrong = [(name, most) for name, value, most in fields if value is not None and not 0 <= value <= most]
    for name, most in wrong:
        detail = f"{name} of {item.name} is negative or beyond what can be planned."
        limit = "more" if most == float_info.max else f"at most {most:g}"
        yield Problem(f"{at}/{name}", "not_an_amount", detail, f"Give 0 or {limit}.")
    if item.step is not None and 0 <= item.step.grams < LEAST_STEP_G:
        detail = f"The step of {item.name} is less than {LEAST_STEP_G:g} g."
        yield Problem(f"{at}/step", "no_step", detail, f"Give {LEAST_STEP_G:g} g or more.")
    elif not wrong:
        yield from _room(item, at)


def _room(item: PantryItem, at: str) -> Iterator[Problem]:
    """Whether some printable amount lies between the least and the most."""
    field, most = _scarcest(item)
    if most is None:
        return
    step = PRINTED_STEP_G if item.step is None else item.step.grams
    if item.at_least_g > most:
        yield Problem(
            f"{at}/at_least",
            "crossed_limits",
            f"{item.name}: at_least is {item.at_least_g:g} g, but {field} is {most:g} g.",
            f"Lower at_least or raise {field}.",
        )
    elif ceil(item.at_least_g / step - 1e-9) > floor(most / step + 1e-9):
        yield Problem(
            f"{at}/step",
            "no_step_fits",
            f"{item.name}: no multiple of {step:g} g lies between {item.at_least_g:g} and {most:g} g.",
            "Choose a smaller step or a wider range.",
        )
    if item.least_when_used_g is not None and item.least_when_used_g > most:
        yield Problem(
            f"{at}/least_when_used",
            "crossed_limits",
            f"{item.name}: least_when_used is {item.least_when_used_g:g} g, but {field} is {most:g} g.",
            f"Lower least_when_used or raise {field}.",
        )


def _scarcest(item: PantryItem) -> tuple[str, float | None]:
    """The field that limits the item most, and its grams; None without a limit."""
    if item.on_hand_g is None or (item.at_most_g is not None and item.at_most_g < item.on_hand_g):
        return "at_most", item.at_most_g
    return "on_hand", item.on_hand_g
