"""A typed TypeScript client, generated from the contract alone, calls the running service."""

import json
from pathlib import Path
from typing import Any

import pytest

from tests.clients.conftest import BRIEFS, CONTRACT, ran

HERE = Path(__file__).parent

STRICT = ("--strict", "--exactOptionalPropertyTypes", "--noUncheckedIndexedAccess")
TARGET = ("--target", "es2022", "--module", "nodenext", "--lib", "es2022,dom")


@pytest.fixture(scope="module")
def generated(npm_tools: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with the types of the service, the caller, and a caller with a wrong name in it."""
    folder = tmp_path_factory.mktemp("typescript")
    (folder / "node_modules").symlink_to(npm_tools / "node_modules")
    (folder / "package.json").write_text('{"type": "module"}')
    caller = (HERE / "call.ts").read_text()
    (folder / "call.ts").write_text(caller)
    (folder / "wrong.ts").write_text(caller.replace("each.grams", "each.gramms"))
    (folder / "node.d.ts").write_text((HERE / "node.d.ts").read_text())
    done = ran("node_modules/.bin/openapi-typescript", CONTRACT, "--output", "api.d.ts", cwd=folder)
    assert done.returncode == 0, done.stdout + done.stderr
    return folder


def compiled(folder: Path, file: str) -> tuple[int, str]:
    """What tsc says of one file; the program is written beside it."""
    done = ran("node_modules/.bin/tsc", *STRICT, *TARGET, "node.d.ts", file, cwd=folder)
    return done.returncode, done.stdout + done.stderr


def test_its_caller_is_well_typed_and_reads_a_plan_a_conflict_and_a_problem_document(
    generated: Path, address: str, expected: dict[str, Any]
) -> None:
    status, said = compiled(generated, "call.ts")
    assert status == 0, said
    done = ran("node", "call.js", address, *BRIEFS, cwd=generated)
    assert done.returncode == 0, done.stderr
    assert json.loads(done.stdout) == expected


def test_its_types_know_a_wrong_name(generated: Path) -> None:
    status, said = compiled(generated, "wrong.ts")
    assert status != 0
    assert "Property 'gramms' does not exist" in said
