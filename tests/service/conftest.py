"""A real service for the tests: one process, the real solver, the real table."""

import json
import os
import re
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from copy import deepcopy
from pathlib import Path
from typing import Any

import httpx2
import pytest
from playwright.sync_api import Browser

from reference_data import reference_folder
from service.schemas.brief import BriefBody
from service.settings import Settings, variable
from service.translate.asked import Asked, to_asked
from service.translate.reference import Reference, open_reference
from solver.brief import Brief
from solver.catalogue import Catalogue
from solver.errors import UnusableBrief
from tests.browser import launched

REPOSITORY = Path(__file__).parents[2]

#: How long the service under test waits for a body, seconds; short, so that a test can wait for it.
BODY_DEADLINE_S = 3.0

Run = Callable[..., subprocess.CompletedProcess[str]]

#: From a document to what it asks for, to the brief in it, and to the pointers and codes of what is refused of it.
Read = Callable[[dict[str, Any]], Asked]
Translate = Callable[[dict[str, Any]], Brief]
Refusals = Callable[[dict[str, Any]], list[tuple[str, str]]]


@pytest.fixture(scope="session")
def server(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """The address of a service that the tests share."""
    log = tmp_path_factory.mktemp("service") / "log"
    with serving(log, body_deadline_s=BODY_DEADLINE_S) as (address, process):
        yield address
        process.terminate()
        assert process.wait(timeout=10) == 0, "the service stops when it is told to, and only then"
    lines = [json.loads(line) for line in log.read_text().splitlines()]
    assert [line for line in lines if line["level"] in {"error", "critical"}] == [], "no request was a fault"


@contextmanager
def serving(log: Path, **settings: object) -> Iterator[tuple[str, subprocess.Popen[bytes]]]:
    """The address and the process of a service on a port that the system chose, as `larderline serve` starts it."""
    command = [sys.executable, "-W", "error", "-m", "service", "serve", "--port", "0"]
    env = {**os.environ, **{variable(name): str(value) for name, value in settings.items()}}
    with log.open("w") as stderr, subprocess.Popen(command, cwd=REPOSITORY, env=env, stderr=stderr) as process:
        try:
            yield _address(log, process), process
        finally:
            process.kill()


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


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    """The browser that the tests of a file share: while it is open its event loop is the one of the thread."""
    with launched() as browser:
        yield browser


@pytest.fixture(scope="session")
def reference(catalogue: Catalogue) -> Reference:
    """The tables that a brief is read with, opened once."""
    return open_reference(reference_folder(), catalogue)


@pytest.fixture(scope="session")
def read(reference: Reference) -> Read:
    """What a document asks for. Raises UnusableBrief."""
    return lambda document: to_asked(BriefBody.model_validate(document), reference, Settings())


@pytest.fixture(scope="session")
def translate(read: Read) -> Translate:
    """The brief in it."""
    return lambda document: read(document).brief


@pytest.fixture(scope="session")
def refusals(read: Read) -> Refusals:
    """What is refused of it: each pointer with its code."""

    def problems(document: dict[str, Any]) -> list[tuple[str, str]]:
        with pytest.raises(UnusableBrief) as refused:
            read(document)
        assert all(problem.detail and problem.remedy for problem in refused.value.problems)
        return [(problem.pointer, problem.code) for problem in refused.value.problems]

    return problems


@pytest.fixture(scope="session")
def examples() -> Path:
    """The folder of the example briefs."""
    return REPOSITORY / "openapi" / "examples"


@pytest.fixture
def salmon(examples: Path) -> dict[str, Any]:
    """A small brief that has a plan: salmon, butter and spinach for one."""
    return deepcopy(json.loads((examples / "salmon-for-one.json").read_text()))


@pytest.fixture
def slow(catalogue: Catalogue) -> dict[str, Any]:
    """A brief that keeps a solver busy until its time limit: many steps and five very narrow bands."""
    ids = [food_id for food_id in catalogue.ids if food_id.startswith(("sr28:01", "sr28:23"))][:120]
    narrow = {"energy_kcal": 731.3, "fat_share_percent": 71.37, "protein_g": 31.17, "calcium_mg": 333, "sodium_mg": 700}
    return {
        "title": "Slow",
        "time_limit_s": 3,
        "pantry": [
            {
                "name": name,
                "source": {"kind": "food", "id": name},
                "step": f"{7 + n % 13}.3 g",
                "least_when_used": "40 g",
            }
            for n, name in enumerate(ids)
        ],
        "targets": [{"of": of, "aim": aim, "within": 0.02} for of, aim in narrow.items()],
    }


@pytest.fixture
def work_brief(slow: dict[str, Any]) -> dict[str, Any]:
    """The same with wider bands: plans are found on the way, each better than the one before, and none is proven."""
    return {**slow, "targets": [{**target, "within": 2} for target in slow["targets"]]}


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
