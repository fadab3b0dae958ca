"""A typed Python client, generated from the contract alone, calls the running service."""

import json
import re
import sys
from pathlib import Path
from typing import Any

import pytest

from tests.clients.conftest import BRIEFS, CONTRACT, ran

CALLER = Path(__file__).with_name("call.py")


@pytest.fixture(scope="module")
def generated(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder that holds the package larderline_client. A warning of the generator is a failure."""
    folder = tmp_path_factory.mktemp("python")
    options = ["--path", str(CONTRACT), "--output-path", "larderline_client", "--meta", "none", "--fail-on-warning"]
    tools = f"{Path(sys.executable).parent}:/usr/bin:/bin"  # the generator formats with ruff
    done = ran(Path(sys.executable).with_name("openapi-python-client"), "generate", *options, cwd=folder, PATH=tools)
    assert done.returncode == 0, done.stdout + done.stderr
    (folder / "larderline_client" / "py.typed").touch()
    (folder / "call.py").write_text(CALLER.read_text())
    (folder / "wrong.py").write_text(CALLER.read_text().replace("each.grams", "each.gramms"))
    return folder


def checked(folder: Path, file: str) -> tuple[int, str]:
    """What strict mypy says of one file, away from the settings of this repository."""
    command = [sys.executable, "-m", "mypy", "--strict", "--config-file", "", "--follow-imports", "silent", file]
    done = ran(*command, cwd=folder, MYPYPATH=str(folder))
    return done.returncode, done.stdout + done.stderr


def test_its_caller_is_well_typed(generated: Path) -> None:
    status, said = checked(generated, "call.py")
    assert status == 0, said


def test_its_types_know_a_wrong_name(generated: Path) -> None:
    status, said = checked(generated, "wrong.py")
    assert status == 1
    assert 'has no attribute "gramms"' in said


def test_it_reads_a_plan_a_conflict_and_a_problem_document(
    generated: Path, address: str, expected: dict[str, Any]
) -> None:
    done = ran(sys.executable, "-W", "error", "call.py", address, *BRIEFS, cwd=generated)
    assert done.returncode == 0, done.stderr
    assert json.loads(done.stdout) == expected


def test_its_names_read_well(generated: Path) -> None:
    """No name is made up by the generator: it numbers what the contract gives no name."""
    files = sorted(path.stem for path in (generated / "larderline_client").rglob("*.py"))
    assert {"make_plan", "break_down", "plan_answer", "brief_body", "brief_body_nutrition_as"} <= set(files)
    assert [name for name in files if re.search(r"type_\d|_\d$|response", name)] == []
