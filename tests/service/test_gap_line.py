"""The line that shows a gap closing: on a terminal, and nowhere else."""

import io
import json
import os
import pty
import re
import sys
from pathlib import Path
from subprocess import Popen
from typing import Any

import pytest

from service import gap_line as module
from service.gap_line import gap_line
from solver.backends.highs import HighsBackend
from solver.deadline import Deadline
from solver.solve import solve
from solver.watch import Look
from tests.service.conftest import REPOSITORY, Run
from tests.solver.larder import brief


class Terminal(io.StringIO):
    def isatty(self) -> bool:
        return True


@pytest.fixture
def looks(monkeypatch: pytest.MonkeyPatch) -> list[Look]:
    """What is seen of a small brief; every look is shown."""
    monkeypatch.setattr(module, "_QUIET_S", 0.0)
    monkeypatch.setattr(module, "_EVERY_S", 0.0)
    seen: list[Look] = []
    solve(brief(), HighsBackend(), Deadline.after(10), watch=seen.append)
    return seen


def test_a_terminal_shows_each_look_and_is_left_empty(looks: list[Look]) -> None:
    terminal = Terminal()
    with gap_line(terminal) as watch:
        assert watch is not None
        watch(looks[0])
        assert re.fullmatch(r"\r\x1b\[Kbalanced: best \S+, bound \S+, gap 0 \(0 s\)", terminal.getvalue())
    assert terminal.getvalue().endswith("\r\x1b[K")


@pytest.mark.parametrize(
    ("value", "bound", "said"), [(None, 0.5, "nothing yet"), (3.0, None, "best 3 "), (3.0, 1.0, "gap 2 ")]
)
def test_what_is_not_known_is_not_said(looks: list[Look], value: float | None, bound: float | None, said: str) -> None:
    look = Look(looks[0].formulation, looks[0].level, value, bound, None)
    assert said in module.in_words(look, 1.0)


def test_elsewhere_there_is_nobody_to_look() -> None:
    piped = io.StringIO()
    with gap_line(piped) as watch:
        assert watch is None
    assert piped.getvalue() == ""


def test_what_is_solved_at_once_shows_no_line(looks: list[Look], monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(module, "_QUIET_S", 60.0)
    terminal = Terminal()
    with gap_line(terminal) as watch:
        assert watch is not None
        watch(looks[0])
    assert terminal.getvalue() == ""


def on_a_terminal(*arguments: str) -> str:
    """What the command line shows there."""
    ours, theirs = pty.openpty()
    command = [sys.executable, "-m", "service", *arguments]
    shown = b""
    with Popen(command, cwd=REPOSITORY, stdin=theirs, stdout=theirs, stderr=theirs) as process:
        os.close(theirs)
        try:
            while piece := os.read(ours, 4096):
                shown += piece
        except OSError:  # Linux says so when the other end is closed
            pass
        assert process.wait(timeout=20) == 0
    os.close(ours)
    return shown.decode()


def test_the_command_line_shows_the_gap_closing_and_bars_on_a_terminal(
    work_brief: dict[str, Any], tmp_path: Path
) -> None:
    file = tmp_path / "brief.json"
    file.write_text(json.dumps({**work_brief, "time_limit_s": 2}))
    shown = on_a_terminal("plan", str(file))
    gaps = [float(gap) for gap in re.findall(r"balanced: best \S+, bound \S+, gap (\S+) ", shown)]
    assert gaps == sorted(gaps, reverse=True)
    assert gaps
    assert "\x1b[K" not in shown.rpartition("Weigh out")[2]
    assert "At a glance\r\n  energy from fat" in shown


def test_piped_it_is_plain(larderline: Run, work_brief: dict[str, Any]) -> None:
    done = larderline("plan", "-", stdin=json.dumps({**work_brief, "time_limit_s": 2}))
    assert (done.returncode, done.stderr) == (0, "")
    assert "At a glance" not in done.stdout
    assert "\x1b" not in done.stdout
