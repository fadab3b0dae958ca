"""One piece of work as it is kept, and as it is told of."""

import json
import zlib
from dataclasses import dataclass, replace
from enum import Enum
from http import HTTPStatus
from typing import Any, Literal, TypeAlias

from service.schemas.problem import ProblemDocument
from service.schemas.work import ProgressAnswer, WorkAnswer

#: What may be worked on.
Kind: TypeAlias = Literal["plan", "rework", "reach"]


class State(Enum):
    """What has become of it."""

    QUEUED = "queued"
    RUNNING = "running"
    DONE = "done"
    FAILED = "failed"
    CANCELLED = "cancelled"
    EXPIRED = "expired"
    """Its answer is gone; no more is known of it than that it was."""

    @property
    def is_active(self) -> bool:
        """Whether somebody waits for it or works on it."""
        return self in {State.QUEUED, State.RUNNING}


@dataclass(frozen=True, slots=True)
class Kept:
    """A row. Times are of the store's clock, seconds; None before they come.

    version: counts its changes. alive_s: the last sign of life of whoever works on it. progress: a ProgressAnswer as
    JSON. status: the HTTP status of its answer, and content: that answer as JSON, packed; None before it ended.
    """

    id: str
    kind: Kind
    state: State
    version: int
    arrived_s: float
    alive_s: float
    ended_s: float | None
    expires_s: float | None
    progress: str | None
    status: int | None
    content: bytes | None

    @staticmethod
    def of(row: tuple[Any, ...]) -> "Kept":
        """From what FIND reads, in the order of the fields here."""
        work_id, kind, state, *rest = row
        return Kept(work_id, kind, State(state), *rest)

    @property
    def is_answer(self) -> bool:
        """Whether what it ended with is an answer, and no refusal or fault."""
        return self.status == HTTPStatus.OK

    @property
    def document(self) -> bytes:
        """What it ended with, as JSON; empty before that."""
        return b"" if self.content is None else zlib.decompress(self.content)

    def failed(self, now_s: float, kept_s: float, problem: ProblemDocument) -> "Kept":
        """The same, had it failed now."""
        ended = replace(self, state=State.FAILED, version=self.version + 1, ended_s=now_s, expires_s=now_s + kept_s)
        return replace(ended, status=problem.status, content=packed(as_json(problem)))


def as_json(problem: ProblemDocument) -> bytes:
    """A problem document as it goes out."""
    return problem.model_dump_json(exclude_none=True).encode()


def packed(document: bytes) -> bytes:
    """As it is kept: JSON of an answer takes a tenth of its size."""
    return zlib.compress(document)


def address_of(work_id: str) -> str:
    """Where it can be followed, from the root of the service."""
    return f"/v1/work/{work_id}"


def told(kept: Kept, now_s: float) -> WorkAnswer:
    """What is said of it. now_s: on the clock of the store."""
    has_failed = kept.state is State.FAILED
    ended = kept.content is not None
    return WorkAnswer.model_validate(
        {
            "outcome": "work",
            "id": kept.id,
            "of": kept.kind,
            "state": kept.state.value,
            "elapsed_s": round((now_s if kept.ended_s is None else kept.ended_s) - kept.arrived_s, 3),
            "progress": None if kept.progress is None else ProgressAnswer.model_validate_json(kept.progress),
            "answer": f"{address_of(kept.id)}/answer" if ended else None,
            "problem": ProblemDocument.model_validate_json(kept.document) if has_failed else None,
            "kept_s": None if not ended or kept.expires_s is None else round(kept.expires_s - now_s, 3),
        }
    )


def as_sent(told: WorkAnswer) -> str:
    """As it goes out: in a problem document a member that says nothing is left out, and is not null (RFC 9457)."""
    if told.problem is None:
        return told.model_dump_json()
    return json.dumps({**told.model_dump(), "problem": told.problem.model_dump(exclude_none=True)})
