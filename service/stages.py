"""When the stages of a request began: for its line in the log, and for its trace.

`parse` from the last byte of the body, `wait` for a place, `solve` in it, and `render` until the answer is sent.
"""

import time
from collections.abc import Callable
from dataclasses import dataclass, field
from itertools import pairwise
from typing import ParamSpec, TypeVar

from fastapi import Request

_Given = ParamSpec("_Given")
_Result = TypeVar("_Result")


@dataclass(slots=True)
class Stages:
    """Each stage ends where the next begins. began: name and time of each, seconds of `time.perf_counter`."""

    began: list[tuple[str, float]] = field(default_factory=list)

    def begin(self, name: str) -> None:
        """A stage begins now."""
        self.began.append((name, time.perf_counter()))

    def around(self, work: Callable[_Given, _Result]) -> Callable[_Given, _Result]:
        """The same work, which waits from now on, solves when it is called, and leaves the rest to be rendered."""
        self.begin("wait")

        def noted(*given: _Given.args, **named: _Given.kwargs) -> _Result:
            self.begin("solve")
            try:
                return work(*given, **named)
            finally:
                self.begin("render")

        return noted

    def until(self, ended: float) -> list[tuple[str, float, float]]:
        """Name, beginning and end of each. ended: when the last one did."""
        return [(name, at, then) for (name, at), (_, then) in pairwise([*self.began, ("", ended)])]


def stages_of(request: Request) -> Stages:
    """Those of a request."""
    stages: Stages = request.state.stages
    return stages
