"""The three files that a run of CBC reads and writes: in memory where the system can, so that none is ever left behind.

Memory needs no disk that has room and can be written, and it is gone with the last process that has it open.
"""

import os
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

#: Where a process finds what it has open (Linux, proc(5)).
_OPEN = Path("/proc/self/fd")


@dataclass(frozen=True, slots=True)
class CbcFiles:
    """Paths that are right here and in the process of CBC. descriptors: what that process has to have open for it."""

    model: Path
    answer: Path
    point: Path
    descriptors: tuple[int, ...] = ()


@contextmanager
def cbc_files() -> Iterator[CbcFiles]:
    """Three files for one solve, gone afterwards."""
    if not (hasattr(os, "memfd_create") and _OPEN.exists()):
        with tempfile.TemporaryDirectory(prefix="larderline-cbc-") as name:
            folder = Path(name)
            yield CbcFiles(folder / "model.mps", folder / "answer.txt", folder / "point.bin")
        return
    descriptors = tuple(os.memfd_create(f"larderline-{name}") for name in ("model", "answer", "point"))
    try:
        model, answer, point = (_OPEN / str(each) for each in descriptors)
        yield CbcFiles(model, answer, point, descriptors)
    finally:
        for each in descriptors:
            os.close(each)
