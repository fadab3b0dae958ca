"""The folder of the file that workers share: made when the service starts, removed when it ends.

A service that was killed could not remove its own; the next one does. Each holds a lock (flock(2)) on a file of its
folder for as long as it lives, and the kernel frees it with the process.
"""

import shutil
import sys
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import BinaryIO

if sys.platform != "win32":
    import fcntl

_PREFIX = "larderline-work-"
_LOCK = "held"


@contextmanager
def work_folder(where: Path | None) -> Iterator[Path | None]:
    """A folder that only its owner may open; None where none can be made, and then nothing is kept for later.

    where: the folder to make it in; that of the system for temporary files when None.
    """
    try:
        folder = Path(tempfile.mkdtemp(prefix=_PREFIX, dir=where))
        lock = (folder / "taken").open("wb")
    except OSError:
        yield None
        return
    with lock:
        _is_free(lock)
        (folder / "taken").rename(folder / _LOCK)  # nobody finds it under this name before it is locked
        _remove_those_of_the_dead(folder)
        try:
            yield folder
        finally:
            shutil.rmtree(folder, ignore_errors=True)


def _is_free(lock: BinaryIO) -> bool:
    """Whether nobody else held it; now it is ours. Where there are no such locks nobody is known to be dead."""
    if sys.platform == "win32":
        return False
    try:
        fcntl.flock(lock, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError:
        return False
    return True


def _remove_those_of_the_dead(own: Path) -> None:
    for other in own.parent.glob(f"{_PREFIX}*/{_LOCK}"):
        if other.parent == own:
            continue
        try:
            with other.open("rb") as lock:
                is_left = _is_free(lock)
        except OSError:
            continue
        if is_left:
            shutil.rmtree(other.parent, ignore_errors=True)
