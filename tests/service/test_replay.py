"""`larderline replay`: a saved brief, answered again."""

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any, get_args

import pytest

from service import cli, replay
from service.planner import Planner, open_planner
from service.reacher import reached
from service.reworker import reworked
from service.schemas.brief import BriefBody
from service.schemas.reach import ReachBody
from service.schemas.replay import ReplayAnswer
from service.schemas.rework import ReworkBody
from service.settings import Settings
from solver.catalogue import Catalogue
from solver.deadline import Deadline
from solver.errors import UnusableBrief
from tests.service.conftest import Run
from tests.service.test_faults import LIES, LyingBackend

Document = dict[str, Any]

Replay = Callable[[Document], ReplayAnswer]
Save = Callable[[Document], Document]


@pytest.fixture
def planner(catalogue: Catalogue, monkeypatch: pytest.MonkeyPatch) -> Planner:
    """One in this process, with the table that the tests share; replays use such a one as well."""
    monkeypatch.setattr(replay, "open_planner", lambda settings: open_planner(settings, catalogue=catalogue))
    return open_planner(Settings(), catalogue=catalogue)


@pytest.fixture
def again(planner: Planner) -> Replay:
    """Replays a record."""
    assert planner
    return lambda record: replay.replay(json.dumps(record).encode(), Settings())


@pytest.fixture
def saved(planner: Planner, tmp_path: Path) -> Save:
    """The record of a plan, as `--save` writes it."""

    def save(brief: Document) -> Document:
        answer = planner.answer(planner.asked(BriefBody.model_validate(brief)), Deadline.after(10))
        replay.save(tmp_path / "record.json", "plan", json.dumps(brief).encode(), answer)
        record: Document = json.loads((tmp_path / "record.json").read_text())
        return record

    return save


def test_a_plan_that_is_saved_is_the_same_again(larderline: Run, salmon: Document, tmp_path: Path) -> None:
    file = str(tmp_path / "record.json")
    assert larderline("plan", "--save", file, "-", stdin=json.dumps(salmon)).returncode == 0
    done = larderline("replay", file)
    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout.startswith("Salmon for the late guest: the same (plan; by highs ")
    record = json.loads(Path(file).read_text())
    record["answer"]["outcome"] = "undecided"
    done = larderline("replay", "--json", "-", stdin=json.dumps(record))
    told = json.loads(done.stdout)
    assert (done.returncode, told["verdict"], told["before"], told["after"]) == (6, "different", "undecided", "plan")


def test_what_is_different_is_said(again: Replay, saved: Save, salmon: Document) -> None:
    """As if the default width of a band had been another one then."""
    record = saved(salmon)
    record["answer"]["targets"][0]["at_most"] = 900
    found = again(record)
    assert found.verdict == "different"
    text = replay.readable_replay(found)
    assert text.startswith("Salmon for the late guest: different (plan; by highs ")
    assert text.endswith(")\n  energy_kcal at most, kcal: 900 -> 618\n")


def test_another_optimum_of_a_brief_with_ties_is_as_good(again: Replay, saved: Save, salmon: Document) -> None:
    """Two items of one food: whatever one has more, the other has less, and no target can tell."""
    salmon["pantry"].append({**salmon["pantry"][2], "name": "more spinach"})
    record = saved(salmon)
    assert again(record).verdict == "the same"
    first, second = record["answer"]["quantities"][-2:]
    first["grams"], second["grams"] = first["grams"] + 10, second["grams"] - 10
    found = again(record)
    assert found.verdict == "as good, other amounts"
    assert [each.what for each in found.differences] == ["spinach in the dish, g", "more spinach in the dish, g"]


def test_a_rework_and_what_can_be_reached_are_replayed_as_well(planner: Planner, again: Replay, examples: Path) -> None:
    dish = json.loads((examples / "reworks" / "soup-made-richer.json").read_text())
    pantry = json.loads((examples / "reach" / "salmon-for-one.json").read_text())
    dish_answer = reworked(planner, ReworkBody.model_validate(dish), Deadline.after(10))
    pantry_answer = reached(planner, ReachBody.model_validate(pantry), Deadline.after(10))
    for job, asked, answer in (("rework", dish, dish_answer), ("reach", pantry, pantry_answer)):
        found = again({"job": job, "asked": asked, "answer": answer.model_dump(mode="json")})
        assert found.verdict == "the same"
        assert found.title


def test_a_fault_that_is_mended_is_different_and_one_that_is_not_is_the_same(
    again: Replay, catalogue: Catalogue, salmon: Document, monkeypatch: pytest.MonkeyPatch
) -> None:
    record = {"asked": salmon, "fault": "BackendError"}
    mended = again(record)
    assert (mended.verdict, mended.before, mended.after) == ("different", "fault BackendError", "plan")
    broken = LyingBackend(LIES["crashes"])
    monkeypatch.setattr(
        replay, "open_planner", lambda settings: open_planner(settings, catalogue=catalogue, backend=broken)
    )
    found = again(record)
    assert (found.verdict, found.before, found.after) == ("the same", "fault BackendError", "fault BackendError")


@pytest.mark.parametrize(
    ("record", "pointer"),
    [
        ({"asked": {}}, "/answer"),
        ({"asked": {}, "answer": {"outcome": "plan"}}, "/proof"),
        ({"answer": {}}, "/asked"),
        ({"asked": {}, "fault": "E"}, "/title"),
        ({"asked": {}, "fault": "E", "job": "breakdown"}, "/job"),
        ([], ""),
    ],
)
def test_what_is_no_record_is_refused(again: Replay, record: Document, pointer: str) -> None:
    with pytest.raises(UnusableBrief) as refused:
        again(record)
    assert pointer in {problem.pointer for problem in refused.value.problems}


def test_a_brief_that_is_taken_for_a_record_is_told_how_to_make_one(larderline: Run, salmon: Document) -> None:
    done = larderline("replay", "-", stdin=json.dumps(salmon))
    assert done.returncode == 2
    assert done.stderr == (
        "/asked: This is no record of what was asked and answered. "
        "Save one with `larderline plan BRIEF --save RECORD`.\n"
    )


def test_a_record_that_cannot_be_saved_is_said(larderline: Run, salmon: Document) -> None:
    done = larderline("plan", "--save", "/nowhere/record.json", "-", stdin=json.dumps(salmon))
    assert done.returncode == 2
    assert "Weigh out" in done.stdout
    assert done.stderr == "larderline: /nowhere/record.json: No such file or directory\n"


def test_every_verdict_has_a_status_and_none_is_shared_with_an_outcome() -> None:
    assert set(cli.REPLAY_STATUS) == set(get_args(ReplayAnswer.model_fields["verdict"].annotation))
    statuses = [*cli.EXIT_STATUS.values(), *cli.REPLAY_STATUS.values(), cli.EXIT_UNUSABLE, 1]
    assert sorted(statuses) == [0, 0, 1, 2, 3, 4, 5, 6]
