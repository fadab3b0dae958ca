"""What is wrong with rules: groups of nothing, no band, impossible or crossed ends, ids that are taken."""

from collections.abc import Iterator

from solver.brief import Brief
from solver.errors import Problem
from solver.rules import Group, Rule
from solver.usable_rule_counts import count_problems
from solver.usable_targets import LARGEST_END, LEAST_END


def rule_problems(brief: Brief) -> Iterator[Problem]:
    """Every problem of the rules."""
    taken = {target.id for target in brief.targets}
    for place, rule in enumerate(brief.rules):
        at = f"/rules/{place}"
        if rule.id in taken:
            detail = f"{rule.id} is the id of a target or of another rule."
            yield Problem(f"{at}/id", "repeated_id", detail, "Give the rule an id of its own.")
        taken.add(rule.id)
        yield from _of_groups(rule, brief, at)
        yield from _of_band(rule, at)
        yield from count_problems(rule, brief, at)


def choice_problems(brief: Brief) -> Iterator[Problem]:
    """Every problem of the choices."""
    names = {item.name for item in brief.pantry}
    taken = {target.id for target in brief.targets} | {rule.id for rule in brief.rules}
    for place, choice in enumerate(brief.choices):
        if choice.id in taken:
            detail = f"{choice.id} is the id of a target, a rule or another choice."
            yield Problem(f"/choices/{place}/id", "repeated_id", detail, "Give the choice an id of its own.")
        taken.add(choice.id)
        if not choice.names <= names or not choice.items:
            detail = f"{choice.id} speaks of an item that the pantry does not have, or of none."
            yield Problem(f"/choices/{place}", "unknown_item", detail, "Name items of the pantry, letter by letter.")


def _of_groups(rule: Rule, brief: Brief, at: str) -> Iterator[Problem]:
    for field, group in (("of", rule.of), ("to", rule.to)):
        if group is not None and not _is_found(group, brief):
            detail = f"{rule.id} counts a group that no item of the pantry belongs to."
            yield Problem(f"{at}/{field}", "empty_group", detail, "Name items of the pantry, letter by letter.")


def _is_found(group: Group, brief: Brief) -> bool:
    return any(group.holds(item.name, placed.component) for item in brief.pantry for placed in item.placed)


def _of_band(rule: Rule, at: str) -> Iterator[Problem]:
    given = {field: end for field, end in (("at_least", rule.lower), ("at_most", rule.upper)) if end is not None}
    if not given:
        yield Problem(at, "no_band", f"{rule.id} has no band.", "Give at_least or at_most.")
    for field, end in given.items():
        if end != 0 and not LEAST_END <= end <= LARGEST_END:
            detail = f"{rule.id} has an end below 0, or one too small or too large to plan with."
            yield Problem(f"{at}/{field}", "not_an_amount", detail, f"Give 0, or {LEAST_END:g} to {LARGEST_END:g}.")
    if rule.lower is not None and rule.upper is not None and rule.lower > rule.upper:
        detail = f"{rule.id}: at_least {rule.lower:g} is above at_most {rule.upper:g}."
        yield Problem(f"{at}/at_least", "crossed_band", detail, "Swap them, or mend one.")
