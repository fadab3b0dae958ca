"""schemathesis over every operation of the contract, against the running service: what it makes of the contract alone.

It makes requests that keep the contract, and requests that break it in one place. Every answer has to be one that the
contract describes, and a fault of the service never is. As a process of its own, with its own view of warnings.
"""

import re
import subprocess
import sys
from pathlib import Path

#: A brief may keep the contract and still contradict itself, or name a food that is not there: 422 and 404 are right.
#: The other two follow resources that a service creates and deletes, and there are none.
NOT_FOR_US = ("positive_data_acceptance", "use_after_free", "ensure_resource_availability")


def test_every_answer_is_one_that_the_contract_describes(server: str, tmp_path: Path) -> None:
    options = {
        "--exclude-checks": ",".join(NOT_FOR_US),
        "--phases": "examples,coverage,fuzzing",
        "--max-examples": "20",
        "--seed": "1",
        "--request-timeout": "10",
        "--max-time": "15",
    }
    command = [sys.executable, "-m", "schemathesis.cli", "run", f"{server}/openapi.json", "--no-color"]
    arguments = [part for option in options.items() for part in option]
    done = subprocess.run([*command, *arguments], cwd=tmp_path, capture_output=True, text=True, check=False, timeout=90)
    assert done.returncode == 0, done.stdout + done.stderr
    selected, tested = (re.search(rf"{word}: +(\d+)", done.stdout) for word in ("Selected", "Tested"))
    assert selected is not None
    assert tested is not None
    assert int(tested[1]) == int(selected[1])
