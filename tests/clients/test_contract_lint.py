"""The contract, read by a linter with its own recommended rules: nothing is switched off, and no file of exceptions."""

import json
import shutil
from pathlib import Path
from typing import Any

from tests.clients.conftest import CONTRACT, ran

#: What the linter recommends without asking for it, and why it is not there: no licence has been chosen yet, and
#: nothing that can be asked of the two addresses of health is refused.
ADVICE = {
    ("info-license", "#/info"),
    *(("operation-4xx-response", f"#/paths/~1{name}/get/responses") for name in ("healthz", "readyz")),
}


def test_the_contract_passes_the_linter(npm_tools: Path, tmp_path: Path) -> None:
    shutil.copy(CONTRACT, tmp_path / "openapi.json")
    linter = npm_tools / "node_modules" / ".bin" / "redocly"
    options = ["--extends=recommended", "--format=json", "--max-problems=1000"]
    quiet = {"REDOCLY_TELEMETRY": "off", "REDOCLY_SUPPRESS_UPDATE_NOTICE": "true"}
    done = ran(linter, "lint", "openapi.json", *options, cwd=tmp_path, **quiet)
    found: dict[str, Any] = json.loads(done.stdout[done.stdout.index("{") :])
    problems = {(each["ruleId"], each["location"][0]["pointer"]) for each in found["problems"]}
    assert problems == ADVICE
    assert found["totals"]["errors"] == found["totals"]["ignored"] == 0
    assert done.returncode == 0
