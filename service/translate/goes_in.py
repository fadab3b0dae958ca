"""Where an item goes: its components, and what cooking does to it in each."""

from collections.abc import Sequence

from service.schemas.brief import PantryItemBody
from service.translate.names import refuse_unknown
from service.translate.place import Place
from service.translate.reference import Reference
from solver.components import AS_IT_IS, Component, Placed
from solver.foods import Food


def placed_of(
    body: PantryItemBody, food: Food, components: Sequence[Component], reference: Reference, place: Place
) -> tuple[Placed, ...]:
    """The places of an item, at least one. Problems are refused at `place`, that of the item."""
    if not components:
        _refuse_needless(body, place)
        return (reference.placed(food, AS_IT_IS),)
    if body.goes_in is None:
        if len(components) > 1:
            detail = f"There are {len(components)} components, and nothing says which {body.name.strip()} goes into."
            (place / "goes_in").refuse("goes_nowhere", detail, "Name at least one component.")
        return (reference.placed(food, components[0]),)
    return _named(body.goes_in, food, components, reference, place / "goes_in")


def _refuse_needless(body: PantryItemBody, place: Place) -> None:
    if body.goes_in is not None:
        detail = "The brief has no components to go into."
        (place / "goes_in").refuse("no_components", detail, "Add components, or leave this out.")


def _named(
    names: Sequence[str], food: Food, components: Sequence[Component], reference: Reference, place: Place
) -> tuple[Placed, ...]:
    by_name = {component.name: component for component in components}
    found: dict[str, Placed] = {}
    for index, name in enumerate(each.strip() for each in names):
        if refuse_unknown(name, by_name, "unknown_component", place / index):
            continue
        if name in found:
            (place / index).refuse("repeated", "This component comes twice.", "Name each component once.")
        found[name] = reference.placed(food, by_name[name])
    return tuple(found.values()) or (reference.placed(food, components[0]),)
