"""What is wrong with components: items that go nowhere, and weights that contradict what went in."""

from collections.abc import Iterator, Sequence
from math import isnan

from solver.brief import Brief
from solver.components import Component
from solver.cook import Content
from solver.errors import Problem
from solver.pantry import PantryItem
from solver.targets import WeightBasis

#: Grams that a kitchen scale may be off before weights contradict each other.
SCALE_G = 1.0


def component_problems(brief: Brief) -> Iterator[Problem]:
    """Every problem of the components and of where the items go."""
    known = {component.name for component in brief.parts}
    # Items share where they go more often than not; what each says is looked at once.
    lost = {
        key
        for key, placed in {id(item.placed): item.placed for item in brief.pantry}.items()
        if not placed or any(each.component not in known for each in placed)
    }
    for place, item in enumerate(brief.pantry if lost else ()):
        if id(item.placed) in lost:
            detail = f"{item.name} goes into a component that the brief does not have, or into none."
            yield Problem(f"/pantry/{place}/goes_in", "unknown_component", detail, "Name a component of the brief.")
    yield from _water_of_mixes(brief)
    for number, component in enumerate(brief.components):
        if component.finished:
            yield from _of_finished(component, brief, f"/components/{number}")


def _of_finished(component: Component, brief: Brief, at: str) -> Iterator[Problem]:
    inside = [
        (place, item)
        for place, item in enumerate(brief.pantry)
        if any(each.component == component.name for each in item.placed)
    ]
    if not inside and component.is_weighed:
        detail = f"{component.name} was weighed, and nothing goes into it."
        yield Problem(at, "nothing_weighed", detail, "Name it in goes_in of what is in it.")
        return
    loose = [(place, item) for place, item in inside if not _is_settled(item)]
    for place, item in loose:
        detail = f"{component.name} is finished or weighed, so what of {item.name} is in it has to be given."
        yield Problem(f"/pantry/{place}", "not_settled", detail, "Give already_in, or another component.")
    if not loose:
        yield from _of_weights(component, [item for _, item in inside], brief.count_missing_as.get("fat_g", 0.0), at)


def _water_of_mixes(brief: Brief) -> Iterator[Problem]:
    """What evaporates from a mix is a guess that no amount can be chosen by, unless the scale has spoken."""
    mixes = [part.name for part in brief.components if part.is_mix and not part.finished]
    for place, target in enumerate(brief.targets):
        if mixes and target.of == "water_g" and target.basis is WeightBasis.AS_EATEN:
            detail = f"How much water stays in {', '.join(mixes)} is not known well enough to plan by."
            remedy = 'Count it raw with "basis": "raw", or drop the target.'
            yield Problem(f"/targets/{place}", "water_of_mix", detail, remedy)


def _is_settled(item: PantryItem) -> bool:
    return item.at_least_g == item.at_most_g and len(item.placed) == 1


def _of_weights(component: Component, items: Sequence[PantryItem], missing_fat_g: float, at: str) -> Iterator[Problem]:
    contents = [Content(item.name, item.food, item.at_least_g, item.placed[0], missing_fat_g) for item in items]
    raw, fat = sum(each.grams for each in contents), sum(each.fat_g for each in contents)
    cooked, drippings = component.cooked_g, component.drippings_g
    if drippings is not None and drippings > fat:
        detail = f"More fat ran out, {drippings:g} g, than the {fat:.1f} g that went in."
        yield Problem(f"{at}/drippings_weight", "drippings_exceed_fat", detail, "Weigh the fat without juices.")
    elif cooked is not None and drippings is not None and fat - drippings > cooked + SCALE_G:
        detail = f"It weighs {cooked:g} g, and {fat - drippings:.1f} g of the fat that went in did not run out."
        yield Problem(f"{at}/cooked_weight", "lighter_than_its_fat", detail, "Weigh both again.")
    elif cooked is not None and cooked + SCALE_G < (protein := _protein_g(items)):
        detail = f"It weighs {cooked:g} g, less than the {protein:.1f} g of protein that went in."
        yield Problem(f"{at}/cooked_weight", "lighter_than_its_protein", detail, "Weigh it again.")
    elif cooked is not None and cooked + (drippings or 0.0) > raw + SCALE_G:
        detail = f"It weighs more than the {raw:.1f} g that went in, drippings counted."
        remedy = "Add what it took up, such as water, as an item."
        yield Problem(f"{at}/cooked_weight", "heavier_than_raw", detail, remedy)


def _protein_g(items: Sequence[PantryItem]) -> float:
    """Protein that went in, which no heat drives out; 0 of what nobody knows."""
    of = (item.at_least_g * item.food.value("protein_g") / 100 for item in items)
    return sum(protein for protein in of if not isnan(protein))
