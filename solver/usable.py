"""What makes a brief unusable: contradictions that no solver should be asked about. All of them are found."""

from collections.abc import Iterator
from math import ceil, floor, inf, isfinite

from solver.brief import Brief, Preference
from solver.errors import Problem, UnusableBrief
from solver.formulate import largest_g
from solver.missing import Counted
from solver.numerics import LARGEST_PORTION_G, PRINTED_STEP_G
from solver.nutrients import COLUMN
from solver.pantry import PantryItem
from solver.quantities import QUANTITY
from solver.targets import Target

#: Smallest end of a band above 0, in any unit, and smallest step: below them floats cannot be trusted.
LEAST_END, LEAST_STEP_G = 1e-6, 0.01

#: Largest end of a band, in any unit: far beyond food, and still safe to compute with.
LARGEST_END = 1e7

#: Largest price of a gram: far beyond saffron in any currency.
LARGEST_PRICE_PER_G = 1e6


def refuse_unusable(brief: Brief) -> None:
    """Raise UnusableBrief with every contradiction in the brief's own fields."""
    problems = [
        *_basic(brief),
        *(problem for place, item in enumerate(brief.pantry) for problem in _item(item, f"/pantry/{place}", brief)),
        *(problem for place, target in enumerate(brief.targets) for problem in _target(target, f"/targets/{place}")),
        *_repeated([item.name for item in brief.pantry], "/pantry", "name"),
        *_repeated([target.id for target in brief.targets], "/targets", "id"),
        *_unpriced(brief),
        *_miscounted(brief),
    ]
    problems += [] if problems else _empty_plate(brief)
    if problems:
        raise UnusableBrief(problems)


def refuse_left_out(brief: Brief, counted: Counted) -> None:
    """Raise UnusableBrief where missing values leave out an item that must be used, or the whole pantry."""
    place = {item.name: number for number, item in enumerate(brief.pantry)}
    problems = [
        Problem(
            f"/pantry/{place[out.item]}/at_least",
            "needed_value_missing",
            f"{out.item} must be used, but has no value for {', '.join(out.lacks)}, which the targets need.",
            "Say in count_missing_as how to count it, or drop at_least.",
        )
        for out in counted.left_out
        if brief.pantry[place[out.item]].at_least_g > 0
    ]
    if not counted.items:
        lacks = sorted({name for out in counted.left_out for name in out.lacks})
        problems.append(
            Problem(
                "/pantry",
                "nothing_left",
                f"Every item lacks a value that the targets need ({', '.join(lacks)}).",
                "Say in count_missing_as how to count it, or drop the target.",
            )
        )
    if problems:
        raise UnusableBrief(problems)


def _basic(brief: Brief) -> Iterator[Problem]:
    if brief.portions < 1:
        yield Problem("/portions", "too_few_portions", "A dish has at least one portion.", "Give 1 or more.")
    for field, given in (("pantry", brief.pantry), ("targets", brief.targets), ("prefer", brief.prefer)):
        if not given:
            yield Problem(f"/{field}", "empty", f"{field} is empty.", "Give at least one.")


def _item(item: PantryItem, at: str, brief: Brief) -> Iterator[Problem]:
    largest = max(largest_g(brief), LARGEST_PORTION_G)  # too few portions are a problem of their own
    fields = {
        "on_hand": (item.on_hand_g, inf),
        "at_least": (item.at_least_g, largest),
        "at_most": (item.at_most_g, inf),
        "least_when_used": (item.least_when_used_g, largest),
        "step": (None if item.step is None else item.step.grams, largest),
        "price": (item.price_per_g, LARGEST_PRICE_PER_G),
    }
    given = [(name, value, most) for name, (value, most) in fields.items() if value is not None]
    wrong = [(name, value, most) for name, value, most in given if not (isfinite(value) and 0 <= value <= most)]
    for name, _, most in wrong:
        detail = f"{name} of {item.name} is negative or beyond what can be planned."
        limit = "more" if most == inf else f"at most {most:g}"
        yield Problem(f"{at}/{name}", "not_an_amount", detail, f"Give 0 or {limit}.")
    if item.step is not None and 0 <= item.step.grams < LEAST_STEP_G:
        detail = f"The step of {item.name} is less than {LEAST_STEP_G:g} g."
        yield Problem(f"{at}/step", "no_step", detail, f"Give {LEAST_STEP_G:g} g or more.")
    elif not wrong:
        yield from _room(item, at)


def _room(item: PantryItem, at: str) -> Iterator[Problem]:
    """Whether some printable amount lies between the least and the most."""
    limits = {"on_hand": item.on_hand_g, "at_most": item.at_most_g}
    given = {field: limit for field, limit in limits.items() if limit is not None}
    if not given:
        return
    field, most = min(given.items(), key=lambda pair: pair[1])
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


def _target(target: Target, at: str) -> Iterator[Problem]:
    if target.of not in QUANTITY:
        yield Problem(
            f"{at}/of", "unknown_quantity", "There is no such quantity.", "Use a name from the documentation."
        )
        return
    ends = {"at_least": target.lower, "at_most": target.upper}
    given = {field: end for field, end in ends.items() if end is not None}
    if not given:
        yield Problem(at, "no_band", f"{target.id} has no band.", "Give aim, at_least or at_most.")
    for field, end in given.items():
        if end != 0 and not LEAST_END <= end <= LARGEST_END:
            detail = f"{target.id} has an end below 0, or one too small or too large to plan with."
            yield Problem(f"{at}/{field}", "not_an_amount", detail, f"Give 0, or {LEAST_END:g} to {LARGEST_END:g}.")
        elif QUANTITY[target.of].unit == "%" and end > 100:  # noqa: PLR2004  percent
            yield Problem(f"{at}/{field}", "beyond_100", f"{target.id} has an end above 100 %.", "Give 0 to 100.")
    if target.lower is not None and target.upper is not None and target.lower > target.upper:
        yield Problem(
            f"{at}/at_least",
            "crossed_band",
            f"{target.id}: at_least {target.lower:g} is above at_most {target.upper:g}.",
            "Swap them, or mend one.",
        )


def _repeated(names: list[str], at: str, field: str) -> Iterator[Problem]:
    first: dict[str, int] = {}
    for place, name in enumerate(names):
        if name in first:
            detail = f"{name} stands at {at}/{first[name]} too."
            yield Problem(f"{at}/{place}/{field}", f"repeated_{field}", detail, f"Give each a {field} of its own.")
        first.setdefault(name, place)


def _unpriced(brief: Brief) -> Iterator[Problem]:
    if Preference.CHEAPEST in brief.prefer:
        for place, item in enumerate(brief.pantry):
            if item.price_per_g is None:
                detail = f"{item.name} has no price, and the cheapest plan is asked for."
                yield Problem(f"/pantry/{place}", "unpriced", detail, "Give its price, 0 if it costs nothing.")


def _miscounted(brief: Brief) -> Iterator[Problem]:
    for name, value in brief.count_missing_as.items():
        at = "/count_missing_as/" + name.replace("~", "~0").replace("/", "~1")  # as RFC 6901 escapes them
        if name not in COLUMN:
            detail = "There is no such nutrient."
            yield Problem(at, "unknown_nutrient", detail, "Use a name from the documentation.")
        elif not 0 <= value <= LARGEST_END:
            detail = f"{name} is negative or beyond {LARGEST_END:g}."
            yield Problem(at, "not_an_amount", detail, "Give the amount in 100 g, 0 or more.")


def _empty_plate(brief: Brief) -> list[Problem]:
    fed = any((target.lower or 0) > 0 and QUANTITY[target.of].denominator is None for target in brief.targets)
    if fed or any(item.at_least_g > 0 for item in brief.pantry):
        return []
    detail = "Every target is met by an empty plate."
    return [Problem("/targets", "empty_plate", detail, "Give an amount to reach, such as energy_kcal with an aim.")]
