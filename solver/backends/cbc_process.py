"""One run of the CBC program, which never outlives the call that started it."""

import shutil
import subprocess
import sys
import threading
import time

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
    command: list[str], descriptors: tuple[int, ...], deadline: Deadline, interrupted: threading.Event
) -> RawSolution | None:
    """Run CBC. None when it ended by itself, an answer when it was ended from here; it never outlives this call.

    descriptors: what it has to find open. It ends when the thread that called this does, however that came about.
    """
    command = [*_ends_with_its_parent(), *command]
    quiet = subprocess.DEVNULL
    with subprocess.Popen(command, pass_fds=descriptors, stdin=quiet, stdout=quiet, stderr=quiet) as process:  # noqa: S603  ours
        try:
            return _wait(process, deadline, interrupted)
        finally:
            process.kill()


def _ends_with_its_parent() -> list[str]:
    """What stands before a command for the kernel to kill it when its parent dies (Linux, prctl(2)); else nothing."""
    setpriv = shutil.which("setpriv")
    return [setpriv, "--pdeathsig", "KILL", "--"] if setpriv and sys.platform == "linux" else []


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
