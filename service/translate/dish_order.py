"""The order in which dishes can be made: each after those that go into it. A circle is refused with its path."""

from collections.abc import Iterator, Mapping, Sequence

from service.schemas.dish_source import DishBody, DishSource
from service.translate.place import Place

#: Most names of a circle that are written out.
_MOST_NAMES = 12


def in_order(bodies: Sequence[DishBody], numbers: Mapping[str, int], place: Place) -> tuple[int, ...]:
    """Numbers of all dishes, each after those that go into it. place: that of the list.

    numbers: name to the number of the dish. Without recursion, so that the depth of dishes has no limit here. The
    dishes of a circle are in the order too, but not after each other.
    """
    done: dict[int, None] = {}
    for start in numbers.values():
        if start not in done:
            _visit(start, bodies, numbers, done, place)
    return tuple(done)


def _visit(
    start: int, bodies: Sequence[DishBody], numbers: Mapping[str, int], done: dict[int, None], place: Place
) -> None:
    """Depth first from one dish. path: where it is, each dish with the ingredients that are still to be looked at."""
    path = {start: _inside(bodies[start], numbers)}
    while path:
        here = next(reversed(path))
        ingredient, inside = next(path[here], (0, None))
        if inside is None:
            done[here] = None
            del path[here]
        elif inside in path:
            found = [*path][[*path].index(inside) :]
            _refuse_circle([bodies[each].name.strip() for each in found], place / here / "ingredients" / ingredient)
        elif inside not in done:
            path[inside] = _inside(bodies[inside], numbers)


def _inside(body: DishBody, numbers: Mapping[str, int]) -> Iterator[tuple[int, int]]:
    """Each ingredient that is a known dish: its place in the list, and the number of the dish."""
    for ingredient, each in enumerate(body.ingredients):
        if isinstance(each.source, DishSource) and each.source.name.strip() in numbers:
            yield ingredient, numbers[each.source.name.strip()]


def _refuse_circle(names: Sequence[str], place: Place) -> None:
    shown = [*names, names[0]]
    if len(shown) > _MOST_NAMES:
        shown = [
            *names[: _MOST_NAMES // 2],
            f"({len(names) - _MOST_NAMES} more)",
            *names[-_MOST_NAMES // 2 :],
            names[0],
        ]
    detail = f"The dish goes into itself: {' -> '.join(shown)}."
    remedy = "Take one of these out of the next, or give its label as the source."
    (place / "source" / "name").refuse("dish_circle", detail, remedy)
