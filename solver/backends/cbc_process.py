"""One run of the CBC program, which never outlives the call that started it."""

import subprocess
import threading
import time
from pathlib import Path

from solver.backends.base import RawSolution, Status
from solver.deadline import Deadline
from solver.errors import BackendError


class CbcCrashError(BackendError):
    """CBC was ended by a signal that did not come from here."""


#: Seconds that CBC may take past its deadline before it is killed.
_GRACE_S = 1.0

#: Seconds between two looks at whether the session was interrupted.
_LOOK_EVERY_S = 0.05


def run_cbc(
    command: list[str], directory: Path, deadline: Deadline, interrupted: threading.Event
) -> RawSolution | None:
    """Run CBC. None when it ended by itself, an answer when it was ended from here; it never outlives this call."""
    quiet = subprocess.DEVNULL
    with subprocess.Popen(command, cwd=directory, stdin=quiet, stdout=quiet, stderr=quiet) as process:  # noqa: S603  ours
        try:
            return _wait(process, deadline, interrupted)
        finally:
            process.kill()


def _wait(process: subprocess.Popen[bytes], deadline: Deadline, interrupted: threading.Event) -> RawSolution | None:
    while True:
        try:
            code = process.wait(_LOOK_EVERY_S)
        except subprocess.TimeoutExpired:
            if interrupted.is_set():
                return RawSolution(Status.INTERRUPTED, "ended on request")
            if time.monotonic() > deadline.at_s + _GRACE_S:
                return RawSolution(Status.TIME_LIMIT, "ended past its deadline")
        else:
            if code < 0:
                raise CbcCrashError(f"CBC was ended by signal {-code}")
            if code > 0:
                raise BackendError(f"CBC ended with code {code}")
            return None
