"""Why work that is followed cannot be taken, shown or kept: each refusal with its document."""

from collections.abc import Mapping
from http import HTTPStatus

from service.problems import listed
from service.schemas.problem import ProblemDocument
from service.settings import variable
from solver.errors import Problem

#: Seconds after which to ask again for what may be otherwise by then.
SOON_S = 1


class WorkRefused(Exception):  # noqa: N818  a state of the work, not an error in it
    """Carries the document that says so. retry_after_s: when to ask again; None where that would not help."""

    def __init__(self, document: ProblemDocument, retry_after_s: int | None = None) -> None:
        super().__init__(document.detail)
        self.document, self.retry_after_s = document, retry_after_s

    @property
    def headers(self) -> Mapping[str, str]:
        """What goes out beside the document."""
        return {} if self.retry_after_s is None else {"Retry-After": str(self.retry_after_s)}


def unknown_work() -> WorkRefused:
    """No work has this id, or another key asked for it; nobody is told which."""
    remedy = "Take the address from the Location of the 202; keep it, since there is no list."
    problem = Problem("", "unknown_work", "No work has this id.", remedy)
    return WorkRefused(listed("unknown_work", HTTPStatus.NOT_FOUND, (problem,), ("work_id",)))


def work_gone() -> WorkRefused:
    """It was cancelled, or its answer is kept no longer."""
    detail = f"It was cancelled, or its answer was kept as long as answers are ({variable('work_kept_s')})."
    problem = Problem("", "work_gone", detail, "Send the brief again.")
    return WorkRefused(listed("work_gone", HTTPStatus.GONE, (problem,), ("work_id",)))


def work_not_done() -> WorkRefused:
    """Its answer is asked for too early."""
    problem = Problem("", "work_not_done", "There is no answer yet.", "Ask for the work itself until it is done.")
    return WorkRefused(listed("work_not_done", HTTPStatus.CONFLICT, (problem,), ("work_id",)), SOON_S)


def too_much_work(retry_after_s: float) -> WorkRefused:
    """As much is kept as may be."""
    limits = f"{variable('work_limit')}, {variable('work_limit_bytes')}"
    detail = f"As many answers are kept, or worked on, as there is room for ({limits})."
    remedy = "Delete what is no longer needed, wait, or ask without Prefer: respond-async."
    problem = Problem("", "too_much_work", detail, remedy)
    status = HTTPStatus.SERVICE_UNAVAILABLE
    return WorkRefused(listed("too_much_work", status, (problem,), ()), max(SOON_S, round(retry_after_s)))


def too_many_followers() -> WorkRefused:
    """As many follow as may."""
    detail = f"As many follow their work as events as may ({variable('followers_limit')})."
    problem = Problem("", "too_many_followers", detail, "Ask for the work without events, once a second.")
    status = HTTPStatus.SERVICE_UNAVAILABLE
    return WorkRefused(listed("too_many_followers", status, (problem,), ()), SOON_S)


def work_not_kept() -> WorkRefused:
    """There is no room on the disk, or it cannot be written, so nothing that is asked for later can be kept."""
    detail = f"Nothing can be kept for later: its folder cannot be written ({variable('work_folder')})."
    problem = Problem("", "work_not_kept", detail, "Ask without Prefer: respond-async, and wait for the answer.")
    return WorkRefused(listed("work_not_kept", HTTPStatus.SERVICE_UNAVAILABLE, (problem,), ()))


def work_lost() -> WorkRefused:
    """Whoever worked on it is no more."""
    detail = "The process that worked on it ended before it was done."
    problem = Problem("", "work_lost", detail, "Send the brief again.")
    return WorkRefused(listed("work_lost", HTTPStatus.SERVICE_UNAVAILABLE, (problem,), ()), SOON_S)
