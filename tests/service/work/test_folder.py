"""The folder of the work: whose it is, and that nothing is left of it."""

import os
import signal
import stat
import subprocess
import sys
from pathlib import Path

from service.work.folder import work_folder
from tests.service.conftest import REPOSITORY


def test_it_is_its_owners_alone_and_goes_with_all_that_is_in_it(tmp_path: Path) -> None:
    with work_folder(tmp_path) as folder:
        assert folder is not None
        assert stat.S_IMODE(folder.stat().st_mode) == 0o700
        (folder / "work.sqlite").write_text("answers")
    assert list(tmp_path.iterdir()) == []


def test_where_none_can_be_made_there_is_none(tmp_path: Path) -> None:
    with work_folder(tmp_path / "nowhere") as folder:
        assert folder is None


def test_one_that_was_killed_is_tidied_up_after_and_one_that_lives_is_left_alone(tmp_path: Path) -> None:
    script = "import sys; from pathlib import Path; from service.work.folder import work_folder\n"
    script += "with work_folder(Path(sys.argv[1])) as folder: print(folder, flush=True); sys.stdin.read()"
    command = [sys.executable, "-c", script, str(tmp_path)]
    with subprocess.Popen(command, cwd=REPOSITORY, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True) as other:
        assert other.stdout is not None
        theirs = Path(other.stdout.readline().strip())
        with work_folder(tmp_path):
            assert theirs.is_dir()
        os.kill(other.pid, signal.SIGKILL)
        other.wait()
    assert theirs.is_dir()
    with work_folder(tmp_path):
        assert not theirs.exists()
