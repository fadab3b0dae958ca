"""What stays undecided or breaks is kept where a setting asks for it; a disk that is full stops no plan."""

import json
import logging
import os
import re
import stat
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from fastapi.testclient import TestClient

from service.app import create_app
from service.keep_folder import KeepFolder
from service.keeping import Keeper
from service.schemas.brief import BriefBody
from service.settings import Settings
from solver.backends.base import Backend
from solver.backends.highs import HighsBackend
from solver.backends.stop import Stop
from solver.catalogue import Catalogue
from tests.service.conftest import REPOSITORY, Run
from tests.service.test_faults import LIES, LyingBackend

Document = dict[str, Any]


def records(folder: Path) -> list[Document]:
    return [json.loads(file.read_text()) for file in sorted(folder.glob("*.json"))]


def asked(catalogue: Catalogue, brief: Document, folder: Path | None, backend: Backend | None = None) -> Document:
    """What the service answers, with this folder set."""
    app = create_app(Settings(keep_folder=folder), catalogue=catalogue, backend=backend)
    with TestClient(app, raise_server_exceptions=False) as client:
        answer: Document = client.post("/v1/plans", json=brief).json()
        return answer


@pytest.fixture
def hopeless(salmon: Document) -> Document:
    """No brief is decided in so short a time."""
    return {**salmon, "time_limit_s": 1e-9}


def test_nothing_is_kept_unless_it_is_asked_for(
    catalogue: Catalogue, hopeless: Document, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    assert asked(catalogue, hopeless, None)["outcome"] == "undecided"
    assert list(tmp_path.iterdir()) == []


def test_what_stays_undecided_is_kept_with_its_programme_for_this_user_alone(
    catalogue: Catalogue, hopeless: Document, tmp_path: Path
) -> None:
    folder = tmp_path / "new" / "kept"
    answer = asked(catalogue, hopeless, folder)
    (record,) = records(folder)
    assert record["asked"] == hopeless
    assert record["answer"] == answer
    assert (record["job"], record["fault"], record["solver"]) == ("plan", None, f"highs {HighsBackend().version}")
    assert "ENDATA" in (folder / record["programme"]).read_text()
    assert stat.S_IMODE(folder.stat().st_mode) == 0o700
    assert {stat.S_IMODE(file.stat().st_mode) for file in folder.iterdir()} == {0o600}
    assert len(list(folder.iterdir())) == 2


@pytest.mark.parametrize("lie", ["crashes", "has a fault", "says failed", "shows half of it"])
def test_what_breaks_is_kept_with_its_programme(
    catalogue: Catalogue, salmon: Document, tmp_path: Path, lie: str
) -> None:
    assert asked(catalogue, salmon, tmp_path, LyingBackend(LIES[lie]))["status"] == 500
    (record,) = records(tmp_path)
    assert record["answer"] is None
    assert record["fault"] in {"BackendError", "ZeroDivisionError", "VerificationError"}
    assert "secret" not in json.dumps(record)
    assert "ENDATA" in (tmp_path / record["programme"]).read_text()


def test_plans_conflicts_and_what_is_refused_are_not_kept(
    catalogue: Catalogue, salmon: Document, examples: Path, tmp_path: Path
) -> None:
    conflict = json.loads((examples / "conflict-too-little-energy.json").read_text())
    assert asked(catalogue, salmon, tmp_path)["outcome"] == "plan"
    assert asked(catalogue, conflict, tmp_path)["outcome"] == "conflict"
    assert asked(catalogue, {**salmon, "exclude": {"allergens": ["milk"]}, "portions": 1}, tmp_path)["status"] == 422
    assert list(tmp_path.iterdir()) == []


def test_reworks_and_reach_that_stay_undecided_are_kept_as_well(
    catalogue: Catalogue, examples: Path, tmp_path: Path
) -> None:
    app = create_app(Settings(keep_folder=tmp_path), catalogue=catalogue)
    with TestClient(app) as client:
        for job, example in (("reworks", "soup-made-richer"), ("reach", "salmon-for-one")):
            document = json.loads((examples / job / f"{example}.json").read_text())
            document["brief"]["time_limit_s"] = 1e-9
            assert client.post(f"/v1/{job}", json=document).status_code == 200
    assert [record["job"] for record in records(tmp_path)] == ["rework", "reach"]


def test_what_nobody_waits_for_any_more_is_not_kept(salmon: Document, tmp_path: Path) -> None:
    keeper, body, stop = Keeper(KeepFolder(tmp_path, 10, 10**6)), BriefBody.model_validate(salmon), Stop()
    stop.set()
    with keeper.asked("plan", body, HighsBackend(), stop) as kept:
        kept.undecided = body
    assert list(tmp_path.iterdir()) == []


def put(folder: KeepFolder, size_bytes: int = 1000) -> str:
    def write(path: Path) -> bool:
        path.write_text("x" * size_bytes)
        return True

    return folder.put(write, lambda programme: f"{programme}")


def test_no_more_files_are_kept_than_the_limit_and_the_oldest_go(tmp_path: Path) -> None:
    (tmp_path / "notes.json").write_text("ours is not the only file here")
    folder = KeepFolder(tmp_path, files=6, size_bytes=10**6)
    names = [put(folder) for _ in range(8)]
    assert sorted(file.name for file in tmp_path.glob("larderline-*.json")) == names[-3:]
    assert len(list(tmp_path.glob("*.mps"))) == 3
    assert (tmp_path / "notes.json").exists()


def test_no_more_bytes_are_kept_than_the_limit_and_the_oldest_go(tmp_path: Path) -> None:
    folder = KeepFolder(tmp_path, files=100, size_bytes=10_000)
    names = [put(folder, 2900) for _ in range(8)]
    assert sorted(file.name for file in tmp_path.glob("*.json")) == names[-3:]
    put(folder, 20_000)
    assert list(tmp_path.iterdir()) == [], "what is too large by itself does not stay either"


def test_the_limits_are_those_of_the_settings(catalogue: Catalogue, hopeless: Document, tmp_path: Path) -> None:
    app = create_app(Settings(keep_folder=tmp_path, kept_files=4), catalogue=catalogue)
    with TestClient(app) as client:
        for _ in range(4):
            client.post("/v1/plans", json=hopeless)
    assert len(list(tmp_path.iterdir())) == 4


@pytest.fixture(params=["full", "read-only"])
def disk(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[Path]:
    """A real one, of memory: where nobody may make one, the test below with a limit on files stands in for it."""
    options = {"full": "size=4k", "read-only": "ro"}[request.param]
    made = subprocess.run(["mount", "-t", "tmpfs", "-o", options, "tmpfs", tmp_path], capture_output=True, check=False)
    if made.returncode:
        pytest.skip("only who may mount can have such a disk")
    yield tmp_path
    subprocess.run(["umount", "-l", tmp_path], check=True)


@pytest.mark.skipif(sys.platform != "linux", reason="the disk is one of Linux")
def test_a_full_or_read_only_disk_stops_no_answer(
    catalogue: Catalogue, hopeless: Document, disk: Path, caplog: pytest.LogCaptureFixture
) -> None:
    logging.getLogger("larderline").addHandler(caplog.handler)
    try:
        assert asked(catalogue, hopeless, disk)["outcome"] == "undecided"
        assert asked(catalogue, hopeless, disk / "deeper")["outcome"] == "undecided"
    finally:
        logging.getLogger("larderline").removeHandler(caplog.handler)
    said = {record.message.partition(":")[0] for record in caplog.records if record.name == "larderline"}
    assert said == {"not kept"}
    assert [file for file in disk.rglob("*") if file.is_file()] == []


def test_a_process_that_may_not_write_any_file_answers_all_the_same(hopeless: Document, tmp_path: Path) -> None:
    """POSIX, ulimit -f: the largest file that a process may write. The answer goes through a pipe."""
    command = f"ulimit -f 0; exec {sys.executable} -W error -m service plan -"
    env = {**os.environ, "LARDERLINE_KEEP_FOLDER": str(tmp_path)}
    done = subprocess.run(
        ["sh", "-c", command],
        input=json.dumps(hopeless),
        cwd=REPOSITORY,
        env=env,
        capture_output=True,
        text=True,
        check=False,
        timeout=60,
    )
    assert done.returncode == 4, done.stderr
    assert "\nUndecided\n" in done.stdout
    assert list(tmp_path.iterdir()) == []


def test_what_is_kept_can_be_replayed(larderline: Run, hopeless: Document, tmp_path: Path) -> None:
    env = {**os.environ, "LARDERLINE_KEEP_FOLDER": str(tmp_path)}
    assert larderline("plan", "-", stdin=json.dumps(hopeless), env=env).returncode == 4
    (kept,) = tmp_path.glob("*.json")
    done = larderline("replay", str(kept), env=env)
    assert (done.returncode, re.findall(": the same ", done.stdout)) == (0, [": the same "])
    assert len(list(tmp_path.glob("*.json"))) == 1, "what is replayed is not kept again"


def test_a_folder_that_cannot_be_made_is_named_for_what_it_is(
    larderline: Run, hopeless: Document, tmp_path: Path
) -> None:
    (tmp_path / "file").touch()
    env = {**os.environ, "LARDERLINE_KEEP_FOLDER": str(tmp_path / "file")}
    done = larderline("plan", "-", stdin=json.dumps(hopeless), env=env)
    assert (done.returncode, done.stderr) == (4, "not kept: File exists\n")
