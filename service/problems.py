"""Problem documents after RFC 9457: what the service answers, and the command line prints, when it refuses."""

from dataclasses import asdict
from http import HTTPStatus

from service.schemas.problem import ProblemDocument, ProblemItem
from solver.errors import Problem

#: Identifies our own kinds of problem (RFC 4151 tags: they name, and lead nowhere).
_TAG = "tag:larderline.example,2026:"

#: Most problems that one document lists; what is found beyond is not even worded.
MOST_LISTED = 100


def unusable(problems: tuple[Problem, ...]) -> ProblemDocument:
    """The document for a brief that the caller can mend."""
    title = "The brief cannot be used as it is"
    return _listed(_TAG + "unusable-brief", title, HTTPStatus.UNPROCESSABLE_ENTITY, problems)


def unreadable(problem: Problem) -> ProblemDocument:
    """The document for bytes that are no JSON."""
    return _listed(_TAG + "unreadable-body", "The body is no readable JSON", HTTPStatus.BAD_REQUEST, (problem,))


def by_status(status: int, detail: str, instance: str | None = None) -> ProblemDocument:
    """The document for a problem that its HTTP status says all about."""
    return ProblemDocument(title=HTTPStatus(status).phrase, status=status, detail=detail, instance=instance)


def _listed(kind: str, title: str, status: HTTPStatus, problems: tuple[Problem, ...]) -> ProblemDocument:
    items = [ProblemItem(**asdict(problem)) for problem in problems[:MOST_LISTED]]
    return ProblemDocument(type=kind, title=title, status=status.value, detail=_summary(problems), problems=items)


def _summary(problems: tuple[Problem, ...]) -> str:
    if len(problems) == 1:
        return problems[0].detail
    if len(problems) > MOST_LISTED:
        return f"More than {MOST_LISTED} things to mend; the first {MOST_LISTED} are listed."
    return f"{len(problems)} things to mend."
