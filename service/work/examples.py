"""What is told of work, as the API's documentation shows it."""

from typing import Any

from service.schemas.problem import ProblemDocument
from service.schemas.work import ProgressAnswer, WorkAnswer
from service.work.kept import address_of
from service.work.refusals import unknown_work, work_gone, work_lost, work_not_done

_ID = "Zm9sbG93LXRoZS13b3JrIQ"

_TAKEN = WorkAnswer(
    outcome="work",
    id=_ID,
    of="plan",
    state="queued",
    elapsed_s=0.01,
    progress=None,
    answer=None,
    problem=None,
    kept_s=None,
)
_RUNNING = _TAKEN.model_copy(
    update={
        "state": "running",
        "elapsed_s": 3.2,
        "progress": ProgressAnswer(level="balanced", value=0.28, bound=0.1, gap=0.18, best=None),
    }
)
_DONE = _RUNNING.model_copy(
    update={"state": "done", "elapsed_s": 4.1, "answer": f"{address_of(_ID)}/answer", "kept_s": 599.9}
)

EVENTS = "retry: 1000\n\n" + "".join(
    f"id: {version}\nevent: {name}\ndata: {told.model_dump_json()}\n\n"
    for version, name, told in ((3, "progress", _RUNNING), (4, "done", _DONE))
)


def show_examples(document: dict[str, Any]) -> None:
    """Put them into an OpenAPI document, in place; the framework would leave out what is null in them."""
    for operations in document["paths"].values():
        for operation in operations.values():
            accepted = operation["responses"].get("202")
            if accepted is not None:
                accepted["content"]["application/json"]["example"] = _TAKEN.model_dump()
            if operation["operationId"] == "show_work":
                operation["responses"]["200"]["content"]["application/json"]["examples"] = {
                    "running": {"summary": "While it goes on", "value": _RUNNING.model_dump()},
                    "done": {"summary": "Once it is done", "value": _DONE.model_dump()},
                }


def refusal_of_work(status: int) -> ProblemDocument | None:
    """The document of a refusal that only work knows; None for the others."""
    refusals = {404: unknown_work, 409: work_not_done, 410: work_gone, 503: work_lost}
    return refusals[status]().document if status in refusals else None
