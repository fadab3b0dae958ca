import json
import os
from collections.abc import Callable
from pathlib import Path
from subprocess import CompletedProcess
from typing import Any, get_args

import pytest

from service import cli
from service.schemas.answer import Answer
from service.settings import Settings

Run = Callable[..., CompletedProcess[str]]


def test_a_plan_is_printed_and_ends_with_0(larderline: Run) -> None:
    done = larderline("plan", "openapi/examples/patties-for-four.json")
    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout.startswith("Patties for the four at the corner table (4 portions)\n")
    for heading in ("Weigh out, before cooking, for the whole batch", "Targets", "Proof", "Exactness", "Reminder"):
        assert f"\n{heading}\n" in done.stdout


HEADINGS = ("Cook", "Cautions", "The plate may be off")


def test_a_cooked_plan_says_how_it_is_cooked_what_to_mind_and_how_far_it_may_be_off(larderline: Run) -> None:
    done = larderline("plan", "openapi/examples/patties-spooned-back.json")
    assert (done.returncode, done.stderr) == (0, "")
    cook, cautions, off = (done.stdout.partition(f"\n{heading}\n")[2] for heading in HEADINGS)
    assert cook.startswith("  patties (broiled patty): ")
    assert "spoon back" in cook.partition("\n\n")[0]
    assert "has to reach 71.2 °C (160 °F)" in " ".join(cautions.partition("\n\n")[0].split())
    assert off.startswith("  A portion, nine times in ten")


def test_a_brief_is_read_from_standard_input(larderline: Run, salmon: dict[str, Any]) -> None:
    done = larderline("plan", "-", stdin=json.dumps(salmon))
    assert done.returncode == 0
    assert done.stdout.startswith("Salmon for the late guest (1 portion)\n")


def test_a_conflict_is_explained_and_ends_with_3(larderline: Run) -> None:
    done = larderline("plan", "openapi/examples/conflict-too-little-energy.json")
    assert done.returncode == 3
    assert "No plan meets the brief. These cannot be had together:\n  - " in done.stdout
    assert "MISSED by" in done.stdout


def test_json_on_standard_output_is_the_answer_and_nothing_else(larderline: Run, examples: Path) -> None:
    for path, outcome in (("eggs-by-the-spoon", "plan"), ("conflict-too-little-energy", "conflict")):
        done = larderline("plan", "--json", str(examples / f"{path}.json"))
        assert json.loads(done.stdout)["outcome"] == outcome


@pytest.mark.parametrize("backend", ["highs", "scipy-highs", "pulp-cbc"])
def test_no_solver_writes_into_the_answer(larderline: Run, examples: Path, backend: str) -> None:
    env = {**os.environ, "LARDERLINE_BACKEND": backend}
    done = larderline("plan", "--json", str(examples / "patties-for-four.json"), env=env)
    assert done.returncode == 0, done.stderr
    assert json.loads(done.stdout)["proof"]["solver"] == backend


def test_an_unusable_brief_ends_with_2_and_a_line_for_each_problem(larderline: Run, salmon: dict[str, Any]) -> None:
    salmon["pantry"][0]["on_hand"] = "a handful"
    salmon["targets"][0]["of"] = "energy_kj"
    done = larderline("plan", "-", stdin=json.dumps(salmon))
    assert (done.returncode, done.stdout) == (2, "")
    first, second = done.stderr.splitlines()
    assert first.startswith("/pantry/0/on_hand: ")
    assert second.startswith("/targets/0/of: ")
    assert "energy_kcal" in second


def test_an_unusable_brief_with_json_is_the_problem_document(larderline: Run, salmon: dict[str, Any]) -> None:
    done = larderline("plan", "--json", "-", stdin=json.dumps({**salmon, "portions": True}))
    assert (done.returncode, done.stderr) == (2, "")
    document = json.loads(done.stdout)
    assert document["status"] == 422
    assert document["problems"][0]["pointer"] == "/portions"


@pytest.mark.parametrize("text", ["", '{"title": "x", "title": "y"}', "[" * 100_000])
def test_text_that_is_no_brief_ends_with_2(larderline: Run, text: str) -> None:
    done = larderline("plan", "-", stdin=text)
    assert (done.returncode, done.stdout) == (2, "")
    assert len(done.stderr.splitlines()) == 1
    assert "Traceback" not in done.stderr


def test_a_file_that_is_not_there_ends_with_2(larderline: Run) -> None:
    done = larderline("plan", "no-such-brief.json")
    assert done.returncode == 2
    assert done.stderr == "larderline: no-such-brief.json: No such file or directory\n"


@pytest.mark.parametrize("workers", ["0", "65"])
def test_a_number_of_workers_that_cannot_be_is_all_that_is_said_to_be_wrong(larderline: Run, workers: str) -> None:
    done = larderline("serve", "--workers", workers)
    assert done.returncode == 1
    assert done.stderr.startswith("larderline: LARDERLINE_WORKERS: ")
    assert "SOLVES" not in done.stderr


def test_a_setting_out_of_range_stops_the_start(larderline: Run) -> None:
    done = larderline("serve", env={**os.environ, "LARDERLINE_PORT": "99999"})
    assert done.returncode == 1
    assert done.stderr.startswith("larderline: LARDERLINE_PORT: ")
    assert len(done.stderr.splitlines()) == 1


def test_a_misspelt_setting_stops_the_start(larderline: Run) -> None:
    done = larderline("serve", env={**os.environ, "LARDERLINE_SOLVES_AT_ONE": "1"})
    assert done.returncode == 1
    meant = "there is no such setting; did you mean LARDERLINE_SOLVES_AT_ONCE?"
    assert done.stderr == f"larderline: LARDERLINE_SOLVES_AT_ONE: {meant}\n"


def test_a_food_table_that_is_not_there_stops_the_start(larderline: Run) -> None:
    done = larderline("serve", "--port", "0", env={**os.environ, "LARDERLINE_FOOD_TABLE": "/no/such/folder"})
    assert done.returncode == 1
    assert done.stderr.startswith("larderline: cannot start: /no/such/folder/")
    assert len(done.stderr.splitlines()) == 1


def test_no_command_is_a_usage_error(larderline: Run) -> None:
    assert larderline().returncode == 2


def test_each_outcome_has_an_exit_status_of_its_own() -> None:
    outcomes = {get_args(model.model_fields["outcome"].annotation)[0] for model in get_args(get_args(Answer)[0])}
    assert set(cli.EXIT_STATUS) == outcomes
    assert len({*cli.EXIT_STATUS.values(), cli.EXIT_UNUSABLE, 1}) == 5


def test_undecided_ends_with_4(larderline: Run, salmon: dict[str, Any]) -> None:
    done = larderline("plan", "-", stdin=json.dumps({**salmon, "time_limit_s": 1e-9}))
    assert done.returncode == 4
    assert "\nUndecided\n" in done.stdout


def test_the_ceiling_of_the_time_limit_is_a_setting(larderline: Run, salmon: dict[str, Any]) -> None:
    env = {**os.environ, "LARDERLINE_TIME_LIMIT_CEILING_S": "1"}
    done = larderline("plan", "-", stdin=json.dumps(salmon), env=env)
    assert done.returncode == 2
    assert done.stderr.startswith("/time_limit_s: ")


def test_the_default_address_is_local() -> None:
    settings = Settings()
    assert (settings.host, settings.port) == ("127.0.0.1", 8000)
