"""Labels for the tests: made into foods, or refused."""

from typing import Any

from pydantic import TypeAdapter

from service.schemas.labels import EuLabel, LabelSource, PlainLabel, UsLabel
from service.translate.labels import label_food
from service.translate.place import Place
from solver.foods import Food

_ADAPTER: TypeAdapter[PlainLabel | UsLabel | EuLabel] = TypeAdapter(LabelSource)


def us(serving: str = "28 g", name: str = "cheese", **values: Any) -> Food:  # noqa: ANN401  whatever a label holds
    """The food of a US label."""
    return _food(name, {"kind": "label", "layout": "US", "serving": serving, **values})


def eu(per: str = "100 g", name: str = "cheese", **values: Any) -> Food:  # noqa: ANN401  the same
    """The food of an EU label."""
    return _food(name, {"kind": "label", "layout": "EU", "per": per, **values})


def refusals(**fields: Any) -> list[tuple[str, str]]:  # noqa: ANN401  the same
    """Pointer and code of everything that is refused."""
    place = Place(("source",))
    assert label_food("cheese", _ADAPTER.validate_python({"kind": "label", **fields}), place) is None
    return [(problem.pointer, problem.code) for problem in place.problems]


def _food(name: str, label: dict[str, Any]) -> Food:
    place = Place()
    made = label_food(name, _ADAPTER.validate_python(label), place)
    assert made is not None, place.problems
    return made
