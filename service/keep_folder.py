"""A folder of bounded size: what is put in last stays, the oldest goes.

Several processes may share it. Each drops what is too much after it has put something in, so together they are within
the bounds as soon as the last of them is done.
"""

import re
import secrets
from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, datetime
from itertools import groupby
from pathlib import Path

#: The names that are ours, all files of one record with the same beginning, which sorts by time; others stay.
_OURS = re.compile(r"(larderline-\d{8}T\d{6}\.\d{6}-[0-9a-f]{8})\.(?:mps|json|json\.part)")


@dataclass(frozen=True, slots=True)
class KeepFolder:
    """path: made when it is first needed, for this user alone. files, size_bytes: the most that it may hold."""

    path: Path
    files: int
    size_bytes: int

    def put(self, write: Callable[[Path], bool], text: Callable[[str | None], str]) -> str:
        """Keep a record; returns its name. Raises whatever goes wrong, and leaves nothing behind then.

        write: writes the programme to a path and says if there was one. text: of the record, given the programme's
        name, None without one.
        """
        self.path.mkdir(mode=0o700, parents=True, exist_ok=True)
        stem = f"larderline-{datetime.now(UTC):%Y%m%dT%H%M%S.%f}-{secrets.token_hex(4)}"
        programme, part = self.path / f"{stem}.mps", self.path / f"{stem}.json.part"
        try:
            for each in (programme, part):
                each.touch(mode=0o600)
            has_one = write(programme)
            if not has_one:
                programme.unlink()
            part.write_text(text(programme.name if has_one else None), encoding="utf-8")
            part.replace(self.path / f"{stem}.json")
        except BaseException:
            programme.unlink(missing_ok=True)
            part.unlink(missing_ok=True)
            raise
        finally:
            self._drop_the_oldest()
        return f"{stem}.json"

    def _drop_the_oldest(self) -> None:
        ours = sorted(file.name for file in self.path.iterdir() if _OURS.fullmatch(file.name))
        files, size_bytes = 0, 0
        for _, record in reversed([(stem, list(names)) for stem, names in groupby(ours, _stem)]):
            files += len(record)
            size_bytes += sum(_size_bytes(self.path / name) for name in record)
            if files > self.files or size_bytes > self.size_bytes:
                for name in record:
                    (self.path / name).unlink(missing_ok=True)


def _stem(name: str) -> str:
    found = _OURS.fullmatch(name)
    return found[1] if found else name


def _size_bytes(file: Path) -> int:
    """Another process may have dropped it by now."""
    try:
        return file.stat().st_size
    except FileNotFoundError:
        return 0
