"""A card as Markdown: CommonMark, with tables as GitHub Flavored Markdown has them (section 4.10)."""

import re
from collections.abc import Iterator

from service.cards.card import PLACES, AnySection, Card, Notes, Picture, Steps, Table

#: What has a meaning in CommonMark wherever it stands, and `|`, which ends a cell.
_MEANING = re.compile(r"([\\`*_{}\[\]<>#|~])")

#: What has a meaning at the start of a line: lists, quotes, numbered lists.
_AT_START = re.compile(r"^(\s*)([-+>]|\d+(?=[.)](?:\s|$)))")


def markdown(card: Card) -> str:
    """The card as text."""
    blocks = [f"# {plain(card.title)}", plain(card.lead)]
    blocks += [block for place in PLACES for section in card.at(place) for block in _blocks(section)]
    return "\n\n".join(blocks) + "\n"


def plain(text: str) -> str:
    """A text that means itself and nothing else."""
    escaped = _MEANING.sub(r"\\\1", " ".join(text.split()))
    return _AT_START.sub(lambda found: f"{found[1]}{found[2]}\\" if found[2].isdigit() else f"\\{found[2]}", escaped)


def _blocks(section: AnySection) -> Iterator[str]:
    if section.heading:
        yield f"## {plain(section.heading)}"
    match section:
        case Table():
            yield "\n".join(_table(section))
        case Notes():
            if section.texts:
                yield "\n".join(f"- {plain(text)}" for text in section.texts)
        case Steps():
            yield "\n".join(_steps(section))
        case Picture():
            yield plain(section.drawing.text)


def _table(table: Table) -> Iterator[str]:
    yield _row(table.titles)
    yield _row(tuple("---:" if 1 <= place <= table.numeric else "---" for place in range(len(table.titles))), raw=True)
    for row in table.rows:
        yield _row(row)


def _row(cells: tuple[str, ...], *, raw: bool = False) -> str:
    return f"| {' | '.join(cells if raw else map(plain, cells))} |"


def _steps(steps: Steps) -> Iterator[str]:
    for number, step in enumerate(steps.steps, 1):
        facts = f" ({plain(', '.join(step.facts))})" if step.facts else ""
        safe = f" **{plain(step.safe)}**" if step.safe else ""
        yield f"{number}. {plain(step.text)}{facts}{safe}"
