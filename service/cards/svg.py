"""A drawing as SVG 1.1, to stand inside a page: no style sheet and no script, so that any policy allows it."""

from collections.abc import Mapping
from html import escape
from types import MappingProxyType

from service.cards.drawing import Area, Box, Drawing, Ink, Label, Line, Shape

#: Own palette, each at least 3 : 1 against white and against near black (WCAG 2.2, 1.4.11); a test counts it.
PALETTE: Mapping[Ink, str] = MappingProxyType(
    {
        "text": "currentColor",
        "quiet": "#7d8590",
        "fat": "#b0781c",
        "protein": "#3a84a8",
        "carbohydrate": "#9a62ad",
        "alcohol": "#7f7a6a",
        "mark": "#c2563c",
    }
)


def svg(drawing: Drawing) -> str:
    """An `svg` element; its label is the alternative text."""
    shapes = "".join(_shape(shape) for shape in drawing.shapes)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {drawing.width:g} {drawing.height:g}" role="img" '
        f'font-family="inherit" aria-label="{escape(drawing.text)}">{shapes}</svg>'
    )


def _shape(shape: Shape) -> str:
    match shape:
        case Box():
            colour = PALETTE[shape.ink]
            paint = f'fill="none" stroke="{colour}"' if shape.open else f'fill="{colour}"'
            place = f'x="{shape.x:.2f}" y="{shape.y:.2f}" width="{shape.width:.2f}" height="{shape.height:.2f}"'
            return f"<rect {place} {paint}/>"
        case Line():
            colour = "Canvas" if shape.paper else PALETTE[shape.ink]
            return f'<polyline points="{_points(shape)}" fill="none" stroke="{colour}" stroke-width="{shape.width:g}"/>'
        case Area():
            colour = PALETTE[shape.ink]
            return f'<polygon points="{_points(shape)}" fill="{colour}" fill-opacity="0.25" stroke="{colour}"/>'
        case Label():
            place = f'x="{shape.x:.2f}" y="{shape.y:.2f}" font-size="{shape.size:g}" text-anchor="{shape.anchor}"'
            return f'<text {place} fill="currentColor">{escape(shape.text)}</text>'


def _points(shape: Line | Area) -> str:
    return " ".join(f"{x:.2f},{y:.2f}" for x, y in shape.points)
