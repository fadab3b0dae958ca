"""Starting the service and its rival as processes of their own, each on a port that the system chose."""

import os
import re
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

REPOSITORY = Path(__file__).parents[2]

OURS = ("-m", "service", "serve", "--port", "0")
RIVAL = ("-m", "uvicorn", "tests.benchmarks.rival_app:create_app", "--factory", "--port", "0", "--no-access-log")

#: How long a process has to say where it listens, and how long after that its workers have to be ready, seconds.
START_S, WORKERS_S = 60.0, 3.0


#: Where compiled modules are kept from start to start, as an installed service has them beside its modules.
BYTECODE = Path(tempfile.gettempdir()) / "larderline-bytecode"


@contextmanager
def running(command: tuple[str, ...], **settings: object) -> Iterator[tuple[str, subprocess.Popen[bytes]]]:
    """The address and the process. settings: of the service, by name."""
    env = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    env |= {f"LARDERLINE_{name.upper()}": str(value) for name, value in settings.items()}
    env["PYTHONPYCACHEPREFIX"] = str(BYTECODE)
    with (
        tempfile.NamedTemporaryFile() as log,
        subprocess.Popen(
            [sys.executable, *command], cwd=REPOSITORY, env=env, stderr=log, stdout=subprocess.DEVNULL
        ) as process,
    ):
        try:
            yield _address(Path(log.name), process), process
        finally:
            process.terminate()
            process.wait(timeout=20)


def _address(log: Path, process: subprocess.Popen[bytes]) -> str:
    ends = time.monotonic() + START_S
    while process.poll() is None and time.monotonic() < ends:
        found = re.search(r"running on (http://[\w.:]+)", log.read_text())
        if found:
            return found[1]
        time.sleep(0.01)
    raise RuntimeError(log.read_text())


def resident_mb(pid: int) -> float:
    """Resident memory of a process, MB."""
    status = Path(f"/proc/{pid}/status").read_text()
    return int(status.partition("VmRSS:")[2].split()[0]) / 1024
