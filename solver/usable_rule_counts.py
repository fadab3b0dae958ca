"""What is wrong with what a rule counts: pieces of what has none, and parts of a pan that nobody can tell apart."""

from collections.abc import Iterator

from solver.brief import Brief
from solver.components import Component, Drippings
from solver.errors import Problem
from solver.pantry import PantryItem, is_in_already
from solver.rules import By, Group, Rule
from solver.units import find_unit

#: Most percent of the energy that a group can bring.
WHOLE_PERCENT = 100.0


def count_problems(rule: Rule, brief: Brief, at: str) -> Iterator[Problem]:
    """Every problem of what the rule at JSON pointer `at` counts."""
    if rule.to is not None and rule.by in {By.PIECES, By.ENERGY_SHARE}:
        detail = f"{rule.id} counts by {rule.by.value}, which is related to no second group."
        yield Problem(f"{at}/to", "no_second_group", detail, 'Leave out `to`, or count by "raw mass".')
    if rule.by is By.PIECES:
        yield from _of_pieces(rule, brief, at)
    if rule.by is By.ENERGY_SHARE:
        yield from _of_share(rule, brief, at)
    if rule.by is By.AS_EATEN_MASS:
        for field, group in (("of", rule.of), ("to", rule.to)):
            if group is not None:
                yield from _of_eaten(rule, group, brief, f"{at}/{field}")


def is_counted_out(item: PantryItem) -> bool:
    """Whether a kitchen counts it out: its step is a number of something, no weight and no volume."""
    return item.step is not None and not is_in_already(item) and find_unit(item.step.unit) is None


def _of_pieces(rule: Rule, brief: Brief, at: str) -> Iterator[Problem]:
    held = [item for component in brief.parts for item in _members(component, brief, rule.of)]
    loose = sorted({item.name for item in held if not is_counted_out(item)})
    if loose:
        detail = f"{rule.id} counts pieces, and nothing says what a piece of {', '.join(loose)} is."
        remedy = 'Give each a step such as "1 large", leave it out of the group, or count by "raw mass".'
        yield Problem(f"{at}/of", "no_pieces", detail, remedy)


def _of_share(rule: Rule, brief: Brief, at: str) -> Iterator[Problem]:
    for field, end in (("at_least", rule.lower), ("at_most", rule.upper)):
        if end is not None and end > WHOLE_PERCENT:
            yield Problem(f"{at}/{field}", "beyond_100", f"{rule.id} has an end above 100 %.", "Give 0 to 100.")
    for component in brief.components:
        if not _loses_as_one(component):
            continue
        givers = [item for item in _members(component, brief) if _may_give(item, component)]
        held = [item for item in givers if rule.of.holds(item.name, component.name)]
        if held and len(held) < len(givers):
            detail = f"Whose fat runs out of {component.name} cannot be told, and the group is only a part of it."
            remedy = 'Take all or nothing of it into the group, let its drippings be "served", or count by "raw mass".'
            yield Problem(f"{at}/of", "part_of_a_pan", detail, remedy)


def _of_eaten(rule: Rule, group: Group, brief: Brief, at: str) -> Iterator[Problem]:
    for component in brief.components:
        held = _members(component, brief, group)
        if not held:
            continue
        if component.cooked_g is None and component.is_mix:
            detail = f"{rule.id}: what {component.name} weighs as eaten is not known well enough to plan by."
            yield Problem(at, "eaten_weight_of_mix", detail, 'Weigh it when it is cooked, or count by "raw mass".')
        elif component.cooked_g is not None and len(held) < len(_members(component, brief)):
            detail = f"{component.name} was weighed as a whole, and {rule.id} counts only a part of it."
            yield Problem(at, "part_of_the_weighed", detail, "Name all that is in it, or none of it.")


def _members(component: Component, brief: Brief, group: Group | None = None) -> list[PantryItem]:
    """What goes into a component, of a group or of all."""
    return [
        item
        for item in brief.pantry
        if item.name not in brief.leave_out
        and any(placed.component == component.name for placed in item.placed)
        and (group is None or group.holds(item.name, component.name))
    ]


def _loses_as_one(component: Component) -> bool:
    """Whether what is lost, or spooned back, is of the whole pan."""
    if component.method is None or component.drippings is Drippings.SERVED:
        return False
    return component.is_mix or component.is_weighed or component.drippings is Drippings.SPOONED_BACK


def _may_give(item: PantryItem, component: Component) -> bool:
    """Whether fat of it may run out: it has some, or nobody knows."""
    placed = next(each for each in item.placed if each.component == component.name)
    keeps_all = placed.row is None and not placed.melts and not component.is_mix and not component.is_weighed
    return item.food.value("fat_g") != 0 and not keeps_all  # NaN is not 0
