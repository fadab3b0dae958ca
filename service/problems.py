"""Problem documents after RFC 9457: what the service answers, and the command line prints, when it refuses."""

from collections.abc import Mapping, Sequence
from dataclasses import asdict
from http import HTTPStatus
from itertools import zip_longest
from types import MappingProxyType

from service.problem_pages import PAGES
from service.schemas.problem import ProblemDocument, ProblemItem
from solver.errors import Problem

#: Most problems that one document lists; what is found beyond is not even worded.
MOST_LISTED = 100

#: The kind of problem that an HTTP status stands for here.
KINDS: Mapping[int, str] = MappingProxyType(
    {
        400: "bad_request",
        401: "key_needed",
        404: "not_found",
        405: "method_not_allowed",
        406: "not_acceptable",
        408: "body_too_slow",
        413: "body_too_large",
        415: "not_json",
        500: "fault",
        503: "busy",
    }
)


def page_of(code: str) -> str:
    """Where the page about a kind of problem is: a URI reference from the root of the service (RFC 9457, 3.1.1)."""
    return f"/problems/{code}"


def unusable(problems: tuple[Problem, ...], parameters: Sequence[str | None] = ()) -> ProblemDocument:
    """The document for a request that the caller can mend.

    parameters: for each problem the parameter of the address that it is about, None where it is about the body.
    """
    return listed("unusable_request", HTTPStatus.UNPROCESSABLE_ENTITY, problems, parameters)


def unreadable(problem: Problem) -> ProblemDocument:
    """The document for bytes that are no JSON."""
    return listed("unreadable_body", HTTPStatus.BAD_REQUEST, (problem,), ())


class UnknownFoodError(Exception):
    """The address names a food that is not in the table."""

    def __init__(self, remedy: str, parameter: str = "id") -> None:
        super().__init__(remedy)
        self.parameter = parameter
        self.problem = Problem("", "unknown_food", "No reference food has this id.", remedy)


def unknown_food(error: UnknownFoodError) -> ProblemDocument:
    """The document for it; the problem's remedy names the nearest foods."""
    return listed("not_found", HTTPStatus.NOT_FOUND, (error.problem,), (error.parameter,))


def by_status(status: int, detail: str, instance: str | None = None) -> ProblemDocument:
    """The document for a problem that its HTTP status says all about."""
    kind = KINDS.get(status)
    return ProblemDocument(
        type="about:blank" if kind is None else page_of(kind),
        title=HTTPStatus(status).phrase if kind is None else PAGES[kind].title,
        status=status,
        detail=detail,
        instance=instance,
        problems=[],
    )


def listed(
    kind: str, status: HTTPStatus, problems: tuple[Problem, ...], parameters: Sequence[str | None]
) -> ProblemDocument:
    """The document of a kind that lists its problems, with their parameters as of `unusable`."""
    items = [
        ProblemItem(**asdict(problem), type=page_of(problem.code), parameter=parameter)
        for problem, parameter in zip_longest(problems[:MOST_LISTED], parameters[:MOST_LISTED])
    ]
    return ProblemDocument(
        type=page_of(kind), title=PAGES[kind].title, status=status.value, detail=_summary(problems), problems=items
    )


def _summary(problems: tuple[Problem, ...]) -> str:
    if len(problems) == 1:
        return problems[0].detail
    if len(problems) > MOST_LISTED:
        return f"More than {MOST_LISTED} things to mend; the first {MOST_LISTED} are listed."
    return f"{len(problems)} things to mend."
