"""The steps of the method: checked on the way in, and given back as they came."""

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, field

from service.schemas.breakdown_body import BreakdownBody
from service.schemas.brief import BriefBody, PantryItemBody
from service.schemas.components import ComponentBody
from service.schemas.dish_source import DishBody, DishSource, IngredientBody
from service.schemas.method_steps import MethodStepAnswer, MethodStepBody
from service.translate.dish_order import in_order
from service.translate.names import refuse_unknown, refuse_unprintable
from service.translate.place import Place


def refuse_methods(body: BriefBody | BreakdownBody, root: Place) -> None:
    """Refuse steps whose text nobody can read, or that are about a component that there is not."""
    _refuse(body.method_steps, _names(body.components), root / "method_steps")
    for number, dish in enumerate(body.dishes or ()):
        _refuse(dish.method_steps, _names(dish.components), root / "dishes" / number / "method_steps")


def _names(components: Sequence[ComponentBody] | None) -> list[str]:
    return [component.name.strip() for component in components or ()]


def _refuse(steps: Sequence[MethodStepBody], components: Collection[str], place: Place) -> None:
    for index, step in enumerate(steps):
        refuse_unprintable(step.text, place / index / "text")
        if step.vessel is not None:
            refuse_unprintable(step.vessel, place / index / "vessel")
        if step.component is not None:
            refuse_unknown(step.component.strip(), components, "unknown_component", place / index / "component")


@dataclass(frozen=True, slots=True)
class Method:
    """The steps as they were given. made_of: item or ingredient name to the dish that it is made of."""

    own: Sequence[MethodStepBody] = ()
    dishes: Sequence[DishBody] = ()
    made_of: Mapping[str, str] = field(default_factory=dict)

    def with_dishes(self, used: Iterable[str]) -> list[MethodStepAnswer]:
        """All steps in the order of the work: those of the dishes in use, innermost first, then the dish's own.

        used: names of items. The dishes are not in a circle.
        """
        numbers = {dish.name.strip(): number for number, dish in enumerate(self.dishes)}
        starts = [numbers[self.made_of[name]] for name in used if name in self.made_of]
        wanted = _all_inside(starts, self.dishes, numbers)
        order = [self.dishes[number] for number in in_order(self.dishes, numbers, Place()) if number in wanted]
        before = [_step(step, dish.name.strip()) for dish in order for step in dish.method_steps]
        return [*before, *(_step(step, None) for step in self.own)]


def method_of(
    own: Sequence[MethodStepBody], dishes: Sequence[DishBody] | None, used: Sequence[PantryItemBody | IngredientBody]
) -> Method:
    """The method of a body. used: its pantry or its ingredients."""
    named = {each.name.strip(): each.source.name.strip() for each in used if isinstance(each.source, DishSource)}
    return Method(own, dishes or (), named)


def _all_inside(waiting: list[int], dishes: Sequence[DishBody], numbers: Mapping[str, int]) -> set[int]:
    """The dishes and all that they are made of."""
    found: set[int] = set()
    while waiting:
        number = waiting.pop()
        if number not in found:
            found.add(number)
            sources = (ingredient.source for ingredient in dishes[number].ingredients)
            waiting += [numbers[source.name.strip()] for source in sources if isinstance(source, DishSource)]
    return found


def _step(body: MethodStepBody, dish: str | None) -> MethodStepAnswer:
    component = None if body.component is None else body.component.strip()
    return MethodStepAnswer(dish=dish, **{**body.model_dump(), "component": component})
