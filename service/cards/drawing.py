"""A drawing: plain shapes on a plane, for whatever draws them. Lengths are in drawing units, y goes down."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Literal, TypeAlias

#: What a shape is drawn with. `text` is the colour of the words around it.
Ink: TypeAlias = Literal["text", "quiet", "fat", "protein", "carbohydrate", "alcohol", "mark"]

#: Tells areas apart without colour.
Texture: TypeAlias = Literal["plain", "slanted", "upright", "level", "open"]

#: How wide every picture is: on a telephone its words stay as large as those around it.
WIDTH = 324.0

#: Distance between the lines of a texture.
_SPACING = 4.0


@dataclass(frozen=True, slots=True)
class Box:
    """A filled rectangle, or with the texture `open` its outline."""

    x: float
    y: float
    width: float
    height: float
    ink: Ink
    open: bool = False


@dataclass(frozen=True, slots=True)
class Line:
    """A line through points. paper: drawn in the colour of the ground, to show on a filled box."""

    points: tuple[tuple[float, float], ...]
    ink: Ink
    width: float = 1.0
    paper: bool = False


@dataclass(frozen=True, slots=True)
class Area:
    """A closed outline with a faint filling."""

    points: tuple[tuple[float, float], ...]
    ink: Ink


@dataclass(frozen=True, slots=True)
class Label:
    """Words on one line; x, y is the foot of their start, middle or end."""

    x: float
    y: float
    text: str
    anchor: Literal["start", "middle", "end"] = "start"
    size: float = 11.0


Shape: TypeAlias = Box | Line | Area | Label


@dataclass(frozen=True, slots=True)
class Drawing:
    """text: the alternative in words, with every number that is shown."""

    width: float
    height: float
    shapes: tuple[Shape, ...]
    text: str


def textured(box: Box, texture: Texture) -> Iterator[Shape]:
    """A box with its texture; nothing where it has no width."""
    if box.width <= 0:
        return
    yield replace(box, open=texture == "open")
    for start, end in _lines(box.width, box.height, texture):
        points = ((box.x + start[0], box.y + start[1]), (box.x + end[0], box.y + end[1]))
        yield Line(points, box.ink, 1.2, paper=True)


def _lines(width: float, height: float, texture: Texture) -> Iterator[tuple[tuple[float, float], tuple[float, float]]]:
    """The lines of a texture, inside a box at the origin."""
    if texture == "upright":
        for number in range(1, int(width / _SPACING) + 1):
            yield (number * _SPACING - 2, 0.0), (number * _SPACING - 2, height)
    elif texture == "level":
        for number in range(1, int(height / _SPACING) + 1):
            yield (0.0, number * _SPACING - 2), (width, number * _SPACING - 2)
    elif texture == "slanted":
        for number in range(1, int((width + height) / (1.5 * _SPACING)) + 1):
            along = number * 1.5 * _SPACING
            start = (max(0.0, along - height), min(along, height))
            yield start, (min(along, width), max(0.0, along - width))
