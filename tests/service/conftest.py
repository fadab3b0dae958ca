"""A real service for the tests: one process, the real solver, the real table."""

import json
import os
import re
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from copy import deepcopy
from pathlib import Path
from typing import Any

import httpx2
import pytest

REPOSITORY = Path(__file__).parents[2]

#: How long the service under test waits for a body, seconds; short, so that a test can wait for it.
BODY_DEADLINE_S = 0.5

Run = Callable[..., subprocess.CompletedProcess[str]]


@pytest.fixture(scope="session")
def server(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """The address of a service on a port that the system chose, as `larderline serve` starts it."""
    command = [sys.executable, "-W", "error", "-m", "service", "serve", "--port", "0"]
    env = {**os.environ, "LARDERLINE_BODY_DEADLINE_S": str(BODY_DEADLINE_S)}
    log = tmp_path_factory.mktemp("service") / "log"
    with log.open("w") as stderr, subprocess.Popen(command, cwd=REPOSITORY, env=env, stderr=stderr) as process:
        yield _address(log, process)
        process.terminate()
        assert process.wait(timeout=10) == -signal.SIGTERM, "the service stops when it is told to, and only then"
    assert "Traceback" not in log.read_text(), "no request was a fault of the service"


def _address(log: Path, process: subprocess.Popen[bytes]) -> str:
    """Waits for the service to say where it listens."""
    while process.poll() is None:
        running = re.search(r"running on (http://\S+)", log.read_text())
        if running:
            return running[1]
        time.sleep(0.02)
    pytest.fail(f"the service did not start: {log.read_text()}")


@pytest.fixture(scope="session")
def client(server: str) -> Iterator[httpx2.Client]:
    """A client of that service."""
    with httpx2.Client(base_url=server, timeout=20) as client:
        yield client


@pytest.fixture(scope="session")
def examples() -> Path:
    """The folder of the example briefs."""
    return REPOSITORY / "openapi" / "examples"


@pytest.fixture
def salmon(examples: Path) -> dict[str, Any]:
    """A small brief that has a plan: salmon, butter and spinach for one."""
    return deepcopy(json.loads((examples / "salmon-for-one.json").read_text()))


@pytest.fixture(scope="session")
def larderline() -> Run:
    """Runs the command line as a process of its own."""

    def run(*arguments: str, stdin: str = "", env: dict[str, str] | None = None) -> subprocess.CompletedProcess[str]:
        return subprocess.run(
            [sys.executable, "-W", "error", "-m", "service", *arguments],
            cwd=REPOSITORY,
            input=stdin,
            env=env,
            capture_output=True,
            text=True,
            check=False,
            timeout=60,
        )

    return run
