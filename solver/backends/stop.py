"""Ending a solve from outside: whoever asked has gone, so nobody waits for the answer."""

import threading
from dataclasses import dataclass

from solver.backends.base import Backend, Session
from solver.program import LinearProgram


class Stop:
    """Interrupts every session of the backends that it watches, those opened later too. Safe from any thread.

    What was being solved then ends soon, as it would at its deadline: with the best found so far, or undecided.
    """

    def __init__(self) -> None:
        self._lock = threading.Lock()
        self._sessions: list[Session] = []
        self._is_set = False

    @property
    def is_set(self) -> bool:
        """Whether nobody waits any more."""
        return self._is_set

    def watching(self, backend: Backend) -> Backend:
        """The same backend, whose sessions end when this is set."""
        return _Watched(backend, self)

    def set(self) -> None:
        """End them. To interrupt a session that is closed already does nothing."""
        with self._lock:
            self._is_set = True
            for session in self._sessions:
                session.interrupt()

    def add(self, session: Session) -> None:
        """One more session to end."""
        with self._lock:
            self._sessions.append(session)
            if self._is_set:
                session.interrupt()


@dataclass(frozen=True, slots=True)
class _Watched:
    backend: Backend
    stop: Stop

    @property
    def name(self) -> str:
        return self.backend.name

    @property
    def version(self) -> str:
        return self.backend.version

    def open(self, program: LinearProgram) -> Session:
        session = self.backend.open(program)
        self.stop.add(session)
        return session
