"""An example of the problem document for each way to be refused, as the API's documentation shows it."""

from typing import Any

from service.problems import UnknownFoodError, by_status, unknown_food, unreadable, unusable
from service.schemas.problem import ProblemDocument
from service.work.examples import refusal_of_work
from solver.errors import Problem

_MALFORMED = Problem("", "malformed_json", "Expecting ',' delimiter, line 4, column 9.", "Mend the JSON at that place.")
_WRONG_TYPE = Problem(
    "/targets/2/at_least",
    "wrong_type",
    "Input should be a valid number.",
    "Give a plain JSON number, without quotes.",
)
_BLANK = Problem("", "blank", "The query has no word in it.", "Write at least one letter.")


def refusal_example(status: int, description: str, *, has_body: bool, of_work: bool) -> dict[str, Any]:
    """A document as it goes out. has_body: of a request with a body. of_work: of one about work that is followed."""
    document = refusal_of_work(status) if of_work else None
    return (document or _document(status, description, has_body=has_body)).model_dump(exclude_none=True)


def _document(status: int, description: str, *, has_body: bool) -> ProblemDocument:
    match status:
        case 400:
            return unreadable(_MALFORMED)
        case 404:
            return unknown_food(UnknownFoodError("Near it: sr28:01123 (Egg, whole, raw, fresh)."))
        case 422:
            return unusable((_WRONG_TYPE,)) if has_body else unusable((_BLANK,), ("query",))
        case _:
            return by_status(status, description)
