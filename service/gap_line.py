"""One line on a terminal that shows a gap closing while a brief is solved; nothing anywhere else."""

import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from typing import TextIO

from service.words import number
from solver.watch import Look, Watch

#: Seconds before anything is shown: what is solved by then needs no line.
_QUIET_S = 0.5

#: Seconds between two times that it is written.
_EVERY_S = 0.1

#: ECMA-48: to the beginning of the line, and erase to its end.
_FRESH = "\r\x1b[K"


@contextmanager
def gap_line(terminal: TextIO) -> Iterator[Watch | None]:
    """What shows each look on the terminal; None where the stream leads to none. In the end the line is empty again."""
    if not terminal.isatty():
        yield None
        return
    line = _Line(terminal)
    try:
        yield line.show
    finally:
        line.clear()


def in_words(look: Look, seconds: float) -> str:
    """A look in one short line."""
    if look.value is None:
        best = "nothing yet"
    elif look.bound is None:
        best = f"best {number(look.value)}"
    else:
        gap = max(look.value - look.bound, 0.0)
        best = f"best {number(look.value)}, bound {number(look.bound)}, gap {number(gap)}"
    return f"{look.level.name}: {best} ({seconds:.0f} s)"


class _Line:
    def __init__(self, terminal: TextIO) -> None:
        self._terminal = terminal
        self._began_s = time.monotonic()
        self._next_s = self._began_s + _QUIET_S
        self._is_shown = False

    def show(self, look: Look) -> None:
        now = time.monotonic()
        if now < self._next_s:
            return
        self._next_s, self._is_shown = now + _EVERY_S, True
        self._write(in_words(look, now - self._began_s))

    def clear(self) -> None:
        if self._is_shown:
            self._write("")

    def _write(self, words: str) -> None:
        with suppress(OSError):  # a terminal that is gone ends no solve
            self._terminal.write(_FRESH + words)
            self._terminal.flush()
