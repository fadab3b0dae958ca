"""One piece of work that goes on in this worker."""

import asyncio
import secrets

import anyio

from service.cards.formats import Carded
from service.handlers import document_of
from service.work.job import Job, Latest
from solver.backends.stop import Stop

#: Random bytes of an id (128 bits), so that nobody can guess one.
_ID_BYTES = 16


class Running:
    """answer, error: one of them once it ended, and neither of what was cancelled before.

    owner: the name of the key that asked; empty where there are no keys. request_id: of its request, for the log.
    is_followed: whether its id was given out.
    """

    def __init__(self, job: Job, owner: str, request_id: str | None) -> None:
        self.id = secrets.token_urlsafe(_ID_BYTES)
        self.job, self.owner, self.request_id = job, owner, request_id
        self.stop, self.scope, self.latest = Stop(), anyio.CancelScope(), Latest()
        self.answer: Carded | None = None
        self.error: Exception | None = None
        self.is_followed = False
        self.has_ended = asyncio.Event()

    @property
    def named(self) -> dict[str, str | None]:
        """What the log may know of it; its id is for whoever asked alone."""
        return {"request_id": self.request_id, "of": self.job.kind, "key": self.owner or None}

    def end(self) -> None:
        """Nobody wants it: what is being solved ends soon, and what waits for a place does so no more."""
        self.stop.set()
        self.scope.cancel()

    def news(self) -> str | None:
        """What is new of its progress, as JSON; None where nothing is. A fault in that is no end of the work."""
        try:
            return self.latest.taken()
        except Exception as error:  # noqa: BLE001  it is logged there
            document_of(error, self.request_id)
            return None
