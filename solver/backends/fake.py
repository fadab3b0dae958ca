"""A scripted backend: tests of what lies above the seam say what the solver answers and read what it was asked."""

import threading
from collections.abc import Callable, Iterable, Iterator

from solver.backends.base import Limits, RawSolution, Session
from solver.backends.stateless import StatelessSession
from solver.errors import BackendError
from solver.program import LinearProgram


class FakeBackend:
    """Answers from a script: ready answers in order, or a function of the programme.

    asked: the programme as it stood at each solve; limits: the limits of each solve. Solves that the session
    refuses by itself (no time left, interrupted) use up no answer and are not recorded. Solving past the end of
    the script raises BackendError.
    """

    name = "fake"
    version = "0"

    def __init__(self, script: Iterable[RawSolution] | Callable[[LinearProgram], RawSolution]) -> None:
        self.asked: list[LinearProgram] = []
        self.limits: list[Limits] = []
        self._answer = script if callable(script) else _in_order(iter(script))

    def open(self, program: LinearProgram) -> Session:
        """All sessions of one fake share its script."""
        return StatelessSession(program, self._solve)

    def _solve(self, program: LinearProgram, limits: Limits, _: threading.Event) -> RawSolution:
        self.asked.append(program)
        self.limits.append(limits)
        return self._answer(program)


def _in_order(answers: Iterator[RawSolution]) -> Callable[[LinearProgram], RawSolution]:
    def answer(_: LinearProgram) -> RawSolution:
        try:
            return next(answers)
        except StopIteration:
            raise BackendError("the script of the fake backend has no answer left") from None

    return answer
