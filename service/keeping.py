"""Keeping the brief and the programme of what stayed undecided or broke, where a setting asks for it.

A brief is never logged. Whoever sets the folder decides that the briefs of such solves are written into it.
"""

import logging
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field

from pydantic import BaseModel

from service.keep_folder import KeepFolder
from service.logs import frames_of
from service.schemas.record import Job, Record
from service.settings import Settings
from solver.backends.base import Backend
from solver.backends.remembered import Remembered
from solver.backends.stop import Stop
from solver.errors import UnusableBrief

_log = logging.getLogger("larderline")


@dataclass(slots=True)
class Asked:
    """One brief while it is answered. backend: to solve it with.

    undecided: the answer, once it is known to be no decision; None as long as it is not.
    """

    backend: Backend
    undecided: BaseModel | None = None


@dataclass(frozen=True, slots=True)
class Keeper:
    """Keeps into `folder`; nothing where there is none, which costs nothing."""

    folder: KeepFolder | None = None

    @contextmanager
    def asked(self, job: Job, body: BaseModel | None, backend: Backend, stop: Stop | None) -> Iterator[Asked]:
        """While this goes on, whatever ends undecided or as a fault is kept; what `stop` ended is not.

        body: what was asked, None where nobody has it.
        """
        watched = backend if stop is None else stop.watching(backend)
        if self.folder is None or body is None:
            yield Asked(watched)
            return
        kept = _Kept(self.folder, job, body, f"{backend.name} {backend.version}")
        asked = Asked(kept.remembered.watching(watched))
        try:
            yield asked
        except UnusableBrief:
            raise
        except Exception as error:
            kept.put(None, type(error).__name__)
            raise
        if asked.undecided is not None and not (stop is not None and stop.is_set):
            kept.put(asked.undecided, None)


@dataclass(frozen=True, slots=True)
class _Kept:
    folder: KeepFolder
    job: Job
    body: BaseModel
    solver: str
    remembered: Remembered = field(default_factory=Remembered)

    def put(self, answer: BaseModel | None, fault: str | None) -> None:
        """Whatever goes wrong here, a disk that is full above all, the answer goes its way."""
        try:
            name = self.folder.put(self.remembered.write, lambda programme: self._text(answer, fault, programme))
        except Exception as error:  # noqa: BLE001  see above
            why = getattr(error, "strerror", None) or type(error).__name__
            _log.warning("not kept: %s", why, extra={"error": type(error).__name__, "frames": frames_of(error)})
        else:
            _log.info("kept", extra={"record": name})

    def _text(self, answer: BaseModel | None, fault: str | None, programme: str | None) -> str:
        return record_of(
            self.job, self.body, answer, fault=fault, solver=self.solver, programme=programme
        ).model_dump_json(indent=1)


def record_of(
    job: Job,
    body: BaseModel,
    answer: BaseModel | None,
    *,
    fault: str | None = None,
    solver: str | None = None,
    programme: str | None = None,
) -> Record:
    """What was asked and what came of it."""
    return Record(
        job=job,
        asked=body.model_dump(mode="json", exclude_unset=True),
        answer=None if answer is None else answer.model_dump(mode="json"),
        fault=fault,
        solver=solver,
        programme=programme,
    )


def keeper_of(settings: Settings) -> Keeper:
    """What the settings ask for."""
    if settings.keep_folder is None:
        return Keeper()
    return Keeper(KeepFolder(settings.keep_folder, settings.kept_files, settings.kept_bytes))
