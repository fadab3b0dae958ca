"""One dish of a brief as the solver's dish."""

from collections.abc import Mapping, Sequence

from service.schemas.dish_source import DishBody, DishComponentBody, IngredientBody
from service.translate.amounts import positive_grams_of, read_amount
from service.translate.components import to_components
from service.translate.dish_food import food_of_source
from service.translate.dish_yield import yield_of
from service.translate.label_food import unweighed
from service.translate.names import refuse_equal_names, refuse_unknown, refuse_unprintable
from service.translate.place import Place
from service.translate.reference import Reference
from solver.closest import UseName
from solver.components import AS_IT_IS, Component
from solver.dishes import FixedDish
from solver.foods import Food
from solver.outcome import Quantity
from solver.pantry import PantryItem, Step


def to_fixed_dish(
    body: DishBody, dishes: Mapping[str, Food | None], reference: Reference, place: Place
) -> FixedDish | None:
    """The dish; None when something is refused at `place`, or an ingredient is a dish that was refused."""
    before = len(place.problems)
    components = to_components(body.components or [], place / "components", reference.cooking)
    spoons = spoons_of(body.components or [], place / "components")
    ingredients = ingredients_of(body.ingredients, components, dishes, reference, place / "ingredients")
    found = {each.item.name: each for each in ingredients}
    named = {each.name.strip() for each in body.ingredients}
    strained = _strained_out(body.strained_out or [], named, place / "strained_out")
    discarded = _discarded(body, found, named, place / "discarded")
    skimmed = positive_grams_of(body.skimmed_fat, unweighed("skimmed fat"), place / "skimmed_fat")
    yield_g, measure = yield_of(body, place)
    if len(place.problems) > before or len(found) < len(body.ingredients):
        return None
    return FixedDish(
        name=body.name.strip(),
        quantities=tuple(found.values()),
        components=components,
        spoons=spoons,
        yield_g=yield_g,
        measure=measure,
        strained_out=strained,
        skimmed_fat_g=skimmed or 0.0,
        discarded=discarded,
    )


def ingredients_of(
    bodies: Sequence[IngredientBody],
    components: Sequence[Component],
    dishes: Mapping[str, Food | None],
    reference: Reference,
    place: Place,
) -> tuple[Quantity, ...]:
    """What went in, in order. Left out: what is refused at `place`, and what is a dish that was refused itself."""
    refuse_equal_names((body.name for body in bodies), place, "ingredient")
    found = (_ingredient(each, components, dishes, reference, place / number) for number, each in enumerate(bodies))
    return tuple(each for each in found if each is not None)


def _ingredient(
    body: IngredientBody,
    components: Sequence[Component],
    dishes: Mapping[str, Food | None],
    reference: Reference,
    place: Place,
) -> Quantity | None:
    name = body.name.strip()
    refuse_unprintable(body.name, place / "name")
    component = _component(body, components, place / "goes_in")
    food = food_of_source(name, body.source, dishes, reference, place / "source")
    grams = None if food is None else positive_grams_of(body.amount, food, place / "amount")
    if food is None or grams is None:
        return None
    return Quantity(PantryItem(name, food), grams, None, reference.placed(food, component))


def _component(body: IngredientBody, components: Sequence[Component], place: Place) -> Component:
    """Where an ingredient goes; anywhere when it is refused at `place`."""
    first = components[0] if components else AS_IT_IS
    if body.goes_in is None:
        if len(components) > 1:
            detail = f"There are {len(components)} components, and nothing says which {body.name.strip()} goes into."
            place.refuse("goes_nowhere", detail, "Name one component of the dish.")
        return first
    if not components:
        place.refuse("no_components", "The dish has no components to go into.", "Add components, or leave this out.")
        return first
    by_name = {component.name: component for component in components}
    refuse_unknown(body.goes_in.strip(), by_name, "unknown_component", place)
    return by_name.get(body.goes_in.strip(), first)


def words_of(bodies: Sequence[IngredientBody], quantities: Sequence[Quantity]) -> Mapping[UseName, Step]:
    """The amounts of one part ("2 large", not "1 lb 4 oz") as they were written, by where they are."""
    found: dict[UseName, Step] = {}
    for body, quantity in zip(bodies, quantities, strict=True):
        parts = read_amount(body.amount)
        if len(parts) == 1:
            words = Step(parts[0].value, parts[0].unit, quantity.grams)
            found[quantity.item.name, quantity.placed.component] = words
    return found


def spoons_of(bodies: Sequence[DishComponentBody], place: Place) -> Mapping[str, int]:
    """Name of a component to the teaspoons of its drippings that are spooned back."""
    spoons: dict[str, int] = {}
    for number, body in enumerate(bodies):
        here = place / number / "teaspoons"
        if body.teaspoons is not None and body.drippings != "spooned back":
            here.refuse("not_spooned_back", "Its drippings are not spooned back.", "Leave it out, or spoon them back.")
        elif body.teaspoons is None and body.drippings == "spooned back":
            here.refuse("missing_field", "Nothing says how much is spooned back.", "Give whole teaspoons.")
        else:
            spoons[body.name.strip()] = body.teaspoons or 0
    return spoons


def _strained_out(names: Sequence[str], named: set[str], place: Place) -> frozenset[str]:
    for number, name in enumerate(names):
        refuse_unknown(name.strip(), named, "unknown_ingredient", place / number)
    return frozenset(name.strip() for name in names)


def _discarded(
    body: DishBody, found: Mapping[str, Quantity], named: set[str], place: Place
) -> tuple[tuple[str, float], ...]:
    discarded = []
    for number, each in enumerate(body.discarded or []):
        name = each.name.strip()
        if refuse_unknown(name, named, "unknown_ingredient", place / number / "name") or name not in found:
            continue
        grams = positive_grams_of(each.amount, found[name].item.food, place / number / "amount")
        discarded.append((name, grams or 0.0))
    return tuple(discarded)
