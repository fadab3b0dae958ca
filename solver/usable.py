"""What makes a brief unusable: contradictions that no solver should be asked about. All of them are found."""

from collections.abc import Iterator

from solver.brief import Brief, Preference
from solver.closest_usable import base_problems
from solver.errors import Problem, UnusableBrief
from solver.missing import Counted
from solver.nutrients import COLUMN
from solver.pantry import is_in_already
from solver.quantities import QUANTITY
from solver.usable_components import component_problems
from solver.usable_holds import holds_problems
from solver.usable_items import items_problems
from solver.usable_preferences import preference_problems
from solver.usable_rules import choice_problems, rule_problems
from solver.usable_targets import LARGEST_END, contradictory, target_problems


def refuse_unusable(brief: Brief) -> None:
    """Raise UnusableBrief with every contradiction in the brief's own fields."""
    problems = [
        *_basic(brief),
        *items_problems(brief),
        *(
            problem
            for place, target in enumerate(brief.targets)
            for problem in target_problems(target, f"/targets/{place}")
        ),
        *_repeated([item.name for item in brief.pantry], "/pantry", "name"),
        *_repeated([component.name for component in brief.components], "/components", "name"),
        *component_problems(brief),
        *rule_problems(brief),
        *choice_problems(brief),
        *base_problems(brief),
        *holds_problems(brief),
        *_repeated([target.id for target in brief.targets], "/targets", "id"),
        *contradictory(brief),
        *_unpriced(brief),
        *preference_problems(brief),
        *_miscounted(brief),
    ]
    problems += [] if problems else _empty_plate(brief)
    if problems:
        raise UnusableBrief(problems)


def refuse_left_out(brief: Brief, counted: Counted) -> None:
    """Raise UnusableBrief where missing values leave out an item that must be used, or the whole pantry."""
    if counted.items and not counted.left_out:
        return
    place = {item.name: number for number, item in enumerate(brief.pantry)}
    problems = [
        Problem(
            f"/pantry/{place[out.item]}/{'already_in' if is_in_already(brief.pantry[place[out.item]]) else 'at_least'}",
            "needed_value_missing",
            f"{out.item} must be used, but has no value for {', '.join(out.lacks)}, which the targets or rules need.",
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
                f"Every item lacks a value that the targets or rules need ({', '.join(lacks)}).",
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


def _repeated(names: list[str], at: str, field: str) -> Iterator[Problem]:
    if len(set(names)) == len(names):
        return
    first: dict[str, int] = {}
    for place, name in enumerate(names):
        if name in first:
            detail = f"{name} stands at {at}/{first[name]} too."
            yield Problem(f"{at}/{place}/{field}", f"repeated_{field}", detail, f"Give each a {field} of its own.")
        first.setdefault(name, place)


def _unpriced(brief: Brief) -> Iterator[Problem]:
    if Preference.CHEAPEST in brief.prefer:
        for place, item in enumerate(brief.pantry):
            if item.price_per_g is None and item.name not in brief.leave_out:
                detail = f"{item.name} has no price, and the cheapest plan is asked for."
                yield Problem(f"/pantry/{place}", "unpriced", detail, "Give its price, 0 if it costs nothing.")


def _miscounted(brief: Brief) -> Iterator[Problem]:
    for name, value in brief.count_missing_as.items():
        at = "/count_missing_as/" + name.replace("~", "~0").replace("/", "~1")  # as RFC 6901 escapes them
        if name not in COLUMN:
            detail = "There is no such nutrient."
            yield Problem(at, "unknown_nutrient", detail, "Use a name from the documentation.")
            continue
        most = 100.0 if name.endswith("_g") else LARGEST_END
        if not 0 <= value <= most:
            detail = f"{name} is negative or beyond {most:g}."
            yield Problem(at, "not_an_amount", detail, "Give the amount in 100 g, 0 or more.")


def _empty_plate(brief: Brief) -> list[Problem]:
    fed = any((target.lower or 0) > 0 and QUANTITY[target.of].denominator is None for target in brief.targets)
    ruled = any((rule.lower or 0) > 0 and not rule.is_ratio and rule.priority is None for rule in brief.rules)
    if fed or ruled or any(item.at_least_g > 0 for item in brief.pantry):
        return []
    detail = "Every target is met by an empty plate."
    return [Problem("/targets", "empty_plate", detail, "Give an amount to reach, such as energy_kcal with an aim.")]
