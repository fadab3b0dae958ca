"""What tests of other apps share: a running service, the tools of npm, and what a plain request is answered."""

import hashlib
import json
import os
import shutil
import subprocess
import tempfile
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import httpx2
import pytest

from tests.service.conftest import REPOSITORY, serving

CONTRACT = REPOSITORY / "openapi" / "openapi.json"

#: Briefs in the order in which each client sends them: one with a plan, one with a conflict, one that is refused.
BRIEFS = tuple(
    REPOSITORY / "openapi" / "examples" / f"{name}.json"
    for name in ("salmon-for-one", "conflict-too-little-energy", "refused/refused-to-be-mended")
)


@pytest.fixture(scope="session")
def address(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """Where a service of these tests listens."""
    with serving(tmp_path_factory.mktemp("clients") / "log") as (address, _):
        yield address


@pytest.fixture(scope="session")
def expected(address: str) -> dict[str, Any]:
    """What each client has to read out of the three answers, taken from their JSON."""
    answers = [httpx2.post(f"{address}/v1/plans", json=json.loads(path.read_text()), timeout=20) for path in BRIEFS]
    plan, conflict, refused = (answer.json() for answer in answers)
    assert [plan["outcome"], conflict["outcome"], refused["status"]] == ["plan", "conflict", 422]
    return {
        "grams": {each["name"]: each["grams"] for each in plan["quantities"]},
        "kcal": plan["portion"]["energy_kcal"],
        "in_conflict": [[each["kind"], each["text"]] for each in conflict["members"]],
        "to_mend": [[each["pointer"], each["code"]] for each in refused["problems"]],
    }


@pytest.fixture(scope="session")
def npm_tools() -> Path:
    """A folder of the pinned packages of package.json, installed once and kept for the next run."""
    pinned = Path(__file__).with_name("package.json").read_bytes()
    kept = Path(tempfile.gettempdir()) / "larderline-test-data"
    folder = kept / f"clients-{hashlib.sha256(pinned).hexdigest()[:12]}"
    if not folder.exists():
        kept.mkdir(exist_ok=True)
        fresh = Path(tempfile.mkdtemp(dir=kept))
        (fresh / "package.json").write_bytes(pinned)
        _install(fresh)
        fresh.rename(folder)
    return folder


def _install(folder: Path) -> None:
    """No script of a package runs. Fails the test when they cannot be had."""
    command = ["npm", "install", "--no-audit", "--no-fund", "--ignore-scripts"]
    try:
        subprocess.run(command, cwd=folder, check=True, capture_output=True, text=True, timeout=180)
    except FileNotFoundError:
        shutil.rmtree(folder)
        pytest.fail("npm is not installed; this test needs it")
    except (subprocess.CalledProcessError, subprocess.TimeoutExpired) as error:
        shutil.rmtree(folder)
        pytest.fail(f"npm could not install the packages: {error.stderr!r}")


def ran(*command: str | Path, cwd: Path, **env: str) -> subprocess.CompletedProcess[str]:
    """A command that has ended, however it ended."""
    return subprocess.run(
        [str(part) for part in command],
        cwd=cwd,
        env={**os.environ, **env},
        capture_output=True,
        text=True,
        check=False,
        timeout=120,
    )
