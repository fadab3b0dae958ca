"""A heading with wrapped lines under it, as the terminal shows a part of an answer."""

import textwrap
from collections.abc import Iterable, Iterator

_WIDTH = 100
_INDENT = "  "


def part(heading: str, texts: Iterable[str]) -> Iterator[str]:
    """An empty line, the heading, then each text; nothing where there are no texts."""
    lines = [
        line
        for text in texts
        for line in textwrap.wrap(text, _WIDTH, initial_indent=_INDENT, subsequent_indent=_INDENT)
    ]
    if lines:
        yield ""
        yield heading
        yield from lines
