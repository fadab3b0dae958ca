"""What the README says in numbers and names is what the product does, and what it tells one to type works.

The two commands that make an environment are run by `.ci/run`, in a fresh clone, as they are written.
"""

import json
import re
import shlex
import subprocess
from pathlib import Path
from typing import Any

import httpx2
import pytest

from service.cli import EXIT_STATUS
from service.settings import Settings, misspelt
from solver.quantities import QUANTITIES
from solver.targets_default import default_within
from tests.service.conftest import Run

ROOT = Path(__file__).parents[2]


@pytest.fixture(scope="module")
def readme() -> str:
    return (ROOT / "README.md").read_text()


def test_it_lists_everything_a_target_may_be_of(readme: str) -> None:
    listed = readme.partition("A target may be `of`")[2].partition("##")[0]
    assert re.findall(r"`(\w+)`", listed) == [quantity.name for quantity in QUANTITIES]


def test_its_default_widths_are_those_of_the_solver(readme: str) -> None:
    width = readme.partition("**Default `within`**")[2].partition("- **")[0]
    share, ratio, energy, amount = (float(number) for number in re.findall(r"[\d.]*\d", width))
    assert default_within("fat_share_percent", 70) == share
    assert default_within("ketogenic_ratio", 4) == ratio
    assert default_within("energy_kcal", 600) == pytest.approx(600 * energy / 100)
    assert default_within("protein_g", 30) == pytest.approx(30 * amount / 100)


def test_its_exit_statuses_are_those_of_the_command_line(readme: str) -> None:
    rows = re.findall(r"\| `(\w+)` \|.*\| (\d) \|", readme)
    assert {outcome: int(status) for outcome, status in rows} == EXIT_STATUS


def test_the_files_that_it_names_exist(readme: str) -> None:
    named = set(re.findall(r"(?:openapi|service)/[\w./-]*\w", readme))
    assert named
    assert all((ROOT / name).exists() for name in named)


#: What a command of the README begins with, as a shell would read it.
MAKES_AN_ENVIRONMENT, LARDERLINE, CURL = "python3 -m venv", ".venv/bin/larderline", "curl"

ADDRESS = "http://127.0.0.1:8000"


def commands(readme: str, beginning: str) -> list[str]:
    """The commands that begin so; one that makes an environment gives what it does at its end as well."""
    lines = re.findall(r"(?:^    (?=\S)).*$", readme, re.MULTILINE)
    ends = [line.rpartition(" && ")[2] for line in lines if line.strip().startswith(MAKES_AN_ENVIRONMENT)]
    return [line.strip() for line in (*lines, *ends) if line.strip().startswith(beginning)]


def test_every_command_in_it_is_one_that_is_run_here_or_in_a_fresh_clone(readme: str) -> None:
    lines = re.findall(r"(?:^    (?=\S)).*$", readme, re.MULTILINE)
    known = (MAKES_AN_ENVIRONMENT, LARDERLINE, CURL)
    assert [line for line in lines if not line.strip().startswith(known)] == []
    made = commands(readme, MAKES_AN_ENVIRONMENT)
    assert len(made) == 2, ".ci/run runs both of them, from the first word to the last"
    assert f'"${{#commands[@]}}" -eq {len(made)}' in (ROOT / ".ci" / "run").read_text()


def test_its_plan_command_prints_a_plan(readme: str, larderline: Run) -> None:
    (command,) = commands(readme, f"{LARDERLINE} plan")
    done = larderline(*shlex.split(command)[1:])
    assert (done.returncode, done.stderr) == (0, "")
    assert "Weigh out" in done.stdout


def test_its_serve_command_listens_where_it_says(readme: str) -> None:
    (command,) = commands(readme, f"{LARDERLINE} serve")
    assert command == f"{LARDERLINE} serve", "the fixture that starts the service adds a free port, and nothing else"
    assert f"service on {ADDRESS}" in readme
    assert f"http://{Settings().host}:{Settings().port}" == ADDRESS


def test_its_requests_are_answered(readme: str, server: str) -> None:
    requests = commands(readme, CURL)
    assert len(requests) >= 2
    for request in requests:
        assert ADDRESS in request
        words = shlex.split(request.replace(ADDRESS, server))
        done = subprocess.run(words, cwd=ROOT, capture_output=True, text=True, check=True, timeout=20)
        answer = json.loads(done.stdout)
        assert answer.get("outcome", "plan") in {"plan", "work"}
        assert not answer.get("type", "").startswith("/problems/"), answer


def test_its_documentation_page_is_there(readme: str, client: httpx2.Client) -> None:
    for address in set(re.findall(r"`(?:GET )?(/[a-z]*)`", readme)):
        assert client.get(address).status_code == 200, address


def test_the_json_in_it_is_taken(readme: str, client: httpx2.Client, salmon: dict[str, Any]) -> None:
    pieces = [json.loads(piece.replace(", ...", "")) for piece in re.findall(r"`(\{\s*\".*?\})`", readme, re.DOTALL)]
    assert pieces
    for piece in pieces:
        salmon_item, butter, spinach = salmon["pantry"]
        if "kind" in piece:
            salmon_item = {**salmon_item, "source": piece, "at_least": None}
        else:
            butter = {**butter, "at_most": piece}
        brief = {**salmon, "pantry": [salmon_item, butter, spinach]}
        response = client.post("/v1/plans", json=brief)
        assert response.status_code == 200, response.text


def test_the_variable_of_every_limit_that_it_names_exists(readme: str) -> None:
    named = re.findall(r"LARDERLINE_[A-Z_]*[A-Z]", readme)
    assert list(misspelt(named)) == []
