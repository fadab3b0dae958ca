"""What is particular to CBC through PuLP: its process and files, its words, its precision."""

import os
import stat
import struct
import subprocess
import sys
import tempfile
import threading
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import numpy as np
import pytest

from solver.backends.base import Status
from solver.backends.cbc_process import run_cbc
from solver.backends.pulp_cbc import PulpCbcBackend
from solver.backends.pulp_model import to_pulp
from solver.deadline import Deadline
from solver.errors import BackendError
from solver.program import LinearProgram, Rows
from tests.solver.backends.every_backend import ample
from tests.solver.backends.random_programmes import market_split, small_programme

HARD = market_split(rows=4, columns=30, seed=0)


@pytest.fixture
def temporary_files(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Path]:
    """An empty directory that temporary files go to, and that must be empty again afterwards."""
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path))
    yield tmp_path
    assert list(tmp_path.iterdir()) == []


#: The command ends with `-solution FILE -saveSolution FILE`.
_FIND_FILES = "for word; do answer=$middle; middle=$point; point=$word; done"


def cbc_that(directory: Path, *script: str) -> PulpCbcBackend:
    """A backend whose CBC is a shell script."""
    program = directory / "cbc"
    program.write_text("\n".join(("#!/bin/sh", _FIND_FILES, *script)), encoding="utf-8")
    program.chmod(program.stat().st_mode | stat.S_IXUSR)
    return PulpCbcBackend(str(program))


@pytest.fixture
def elsewhere(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("elsewhere")


def test_the_version_is_that_of_cbc() -> None:
    assert PulpCbcBackend().version.startswith("2.")


@pytest.mark.usefixtures("temporary_files")
def test_a_solve_leaves_no_files() -> None:
    session = PulpCbcBackend().open(small_programme(1, feasible=True, integers=True))
    assert session.solve(ample()).status is Status.OPTIMAL


@pytest.mark.usefixtures("temporary_files")
@pytest.mark.parametrize(
    ("script", "words"),
    [
        (["exit 3"], "ended with code 3"),
        (["kill -SEGV $$"], "ended by signal 11"),
        (["exit 0"], "without an answer"),
        (["echo 'Optimal - objective value 1' > $answer", ": > $point"], "another model"),
        (["echo 'Stopped on a whim - objective value 1' > $answer"], "outside its table"),
    ],
)
def test_a_failed_solve_is_an_error_and_leaves_no_files(script: list[str], words: str, elsewhere: Path) -> None:
    session = cbc_that(elsewhere, *script).open(HARD)
    with pytest.raises(BackendError, match=words):
        session.solve(ample())


class InterruptedByTheKeyboard(threading.Event):
    """Stands for ctrl-C while CBC runs."""

    def is_set(self) -> bool:
        raise KeyboardInterrupt


def test_cbc_is_ended_when_our_own_code_is_interrupted(tmp_path: Path) -> None:
    slow = ["sh", "-c", f"echo $$ > {tmp_path}/pid; exec sleep 60"]
    with pytest.raises(KeyboardInterrupt):
        run_cbc(slow, (), Deadline.after(60.0), InterruptedByTheKeyboard())
    process = int((tmp_path / "pid").read_text(encoding="utf-8"))
    with pytest.raises(ProcessLookupError):
        os.kill(process, 0)


def test_cbc_is_ended_when_it_overstays_its_deadline() -> None:
    ended = run_cbc(["sleep", "60"], (), Deadline.after(-0.95), threading.Event())
    assert ended is not None
    assert ended.status is Status.TIME_LIMIT
    assert ended.x is None


def test_a_missing_cbc_is_an_error() -> None:
    with pytest.raises(BackendError, match="no CBC"):
        PulpCbcBackend("/nowhere/cbc")


@pytest.mark.usefixtures("temporary_files")
def test_a_running_solve_stops_soon_when_it_is_interrupted() -> None:
    session = PulpCbcBackend().open(HARD)
    threading.Timer(0.2, session.interrupt).start()
    answer = session.solve(ample())
    assert answer.status is Status.INTERRUPTED


def test_a_point_that_breaks_rows_is_not_taken_for_a_solution(elsewhere: Path) -> None:
    program = small_programme(4, feasible=True, integers=False)
    model = to_pulp(program)
    numbers = [0.0] * (1 + 2 * len(model.row_of)) + [1e6] * (2 * len(model.column_of))
    counts = len(model.row_of), len(model.column_of)
    (elsewhere / "broken.bin").write_bytes(struct.pack(f"<2i{len(numbers)}d", *counts, *numbers))
    script = f"cp {elsewhere}/broken.bin $point", "echo 'Stopped on time - objective value 1' > $answer"
    answer = cbc_that(elsewhere, *script).open(program).solve(ample())
    assert answer.status is Status.TIME_LIMIT
    assert answer.x is None
    assert answer.objective is None


def test_a_point_is_read_to_the_last_digit() -> None:
    # a third of 2 has no end in decimals; the printed solution would stop after eight digits
    third = LinearProgram(
        cost=np.ones(1),
        rows=Rows.from_dense(np.array([[3.0]])),
        row_lower=np.array([2.0]),
        row_upper=np.array([np.inf]),
        column_lower=np.zeros(1),
        column_upper=np.ones(1),
        integer=np.zeros(1, dtype=np.bool_),
    )
    answer = PulpCbcBackend().open(third).solve(ample())
    assert answer.x is not None
    assert answer.x[0] == pytest.approx(2 / 3, abs=1e-15)


@pytest.mark.usefixtures("temporary_files")
def test_an_amount_in_whole_steps_that_misses_its_band_is_infeasible_though_cbc_crashes_on_it() -> None:
    # steps of 12 cannot reach 8 to 10; CBC 2.10.3 without preprocessing crashes on writing this down
    program = LinearProgram(
        cost=np.ones(1),
        rows=Rows.from_dense(np.array([[12.0]])),
        row_lower=np.array([8.0]),
        row_upper=np.array([10.0]),
        column_lower=np.zeros(1),
        column_upper=np.array([np.inf]),
        integer=np.ones(1, dtype=np.bool_),
    )
    answer = PulpCbcBackend().open(program).solve(ample())
    assert answer.status is Status.INFEASIBLE
    assert answer.x is None


def test_a_crash_that_a_second_look_does_not_explain_stays_an_error(elsewhere: Path) -> None:
    crash_once = (
        "case $* in *'preprocess off'*) kill -SEGV $$;; esac",
        "echo 'Unbounded - objective value 0' > $answer",
    )
    with pytest.raises(BackendError, match="signal 11"):
        cbc_that(elsewhere, *crash_once).open(HARD).solve(ample())


def test_a_free_whole_column_is_solved_to_the_optimum() -> None:
    # least -8 x with 4 x + y <= 23, 2 <= x <= 6 and y whole: y = -1 lets x be 6. With its integer preprocessing
    # CBC 2.10.3 stops at x = 5.75, y = 0 and calls it optimal
    program = LinearProgram(
        cost=np.array([-8.0, 0.0]),
        rows=Rows.from_dense(np.array([[-2.0, -5.0], [4.0, 1.0]])),
        row_lower=np.array([-12.0, -np.inf]),
        row_upper=np.array([np.inf, 23.0]),
        column_lower=np.array([2.0, -np.inf]),
        column_upper=np.array([6.0, np.inf]),
        integer=np.array([False, True]),
    )
    answer = PulpCbcBackend().open(program).solve(ample())
    assert answer.objective == pytest.approx(-48.0, abs=1e-6)


_A_LONG_SOLVE = """
from solver.backends.pulp_cbc import PulpCbcBackend
from tests.solver.backends.every_backend import ample
from tests.solver.backends.random_programmes import market_split
PulpCbcBackend().open(market_split(rows=5, columns=40, seed=0)).solve(ample())
"""


def children_of(process: int) -> list[int]:
    """Linux, proc(5)."""
    return [int(each) for each in Path(f"/proc/{process}/task/{process}/children").read_text(encoding="utf-8").split()]


def until(happens: Callable[[], bool]) -> None:
    ends = time.monotonic() + 10
    while not happens():
        assert time.monotonic() < ends
        time.sleep(0.02)


def test_cbc_ends_and_leaves_no_files_when_we_are_killed_outright(tmp_path: Path) -> None:
    env = {**os.environ, "TMPDIR": str(tmp_path)}
    root = Path(__file__).parents[3]
    with subprocess.Popen([sys.executable, "-c", _A_LONG_SOLVE], cwd=root, env=env) as ours:
        until(lambda: bool(children_of(ours.pid)))
        (cbc,) = children_of(ours.pid)
        until(lambda: "cbc" in Path(f"/proc/{cbc}/cmdline").read_text(encoding="utf-8").partition("\0")[0])
        ours.kill()
    until(lambda: not Path(f"/proc/{cbc}").exists())
    assert list(tmp_path.iterdir()) == []


def test_a_disk_that_cannot_be_written_stops_no_solve(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(tempfile, "tempdir", "/nowhere")
    session = PulpCbcBackend().open(small_programme(1, feasible=True, integers=True))
    assert session.solve(ample()).status is Status.OPTIMAL
