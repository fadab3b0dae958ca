"""A drawing on a sheet of PDF."""

from fpdf import FPDF

from service.cards.drawing import Area, Box, Drawing, Ink, Label, Line, Shape
from service.cards.svg import PALETTE

#: Millimetres to a drawing unit.
_SCALE = 0.3

#: Points to a millimetre.
_POINTS_PER_MM = 72 / 25.4


def height_mm(drawing: Drawing) -> float:
    """The room that a drawing needs on a sheet."""
    return drawing.height * _SCALE


def draw(pdf: FPDF, drawing: Drawing, font: str) -> None:
    """Put a drawing below what stands there."""
    height = height_mm(drawing)
    left, top = pdf.get_x(), pdf.get_y() + 1
    # A table fills its cells with whatever colour is left to it.
    with pdf.local_context():
        for shape in drawing.shapes:
            _shape(pdf, shape, left, top, font)
    pdf.set_xy(left, top + height)


def _shape(pdf: FPDF, shape: Shape, left: float, top: float, font: str) -> None:
    match shape:
        case Box():
            _ink(pdf, shape.ink)
            place = (left + shape.x * _SCALE, top + shape.y * _SCALE, shape.width * _SCALE, shape.height * _SCALE)
            pdf.set_line_width(0.2)
            pdf.rect(*place, style="D" if shape.open else "F")
        case Line():
            _ink(pdf, shape.ink)
            if shape.paper:
                pdf.set_draw_color(255)
            pdf.set_line_width(shape.width * _SCALE)
            pdf.polyline([(left + x * _SCALE, top + y * _SCALE) for x, y in shape.points])
        case Area():
            _ink(pdf, shape.ink)
            pdf.set_line_width(0.3)
            pdf.polygon([(left + x * _SCALE, top + y * _SCALE) for x, y in shape.points], style="D")
        case Label():
            _label(pdf, shape, left, top, font)


def _label(pdf: FPDF, label: Label, left: float, top: float, font: str) -> None:
    pdf.set_font(font, "", label.size * _SCALE * _POINTS_PER_MM)
    width = pdf.get_string_width(label.text)
    back = {"start": 0.0, "middle": width / 2, "end": width}[label.anchor]
    pdf.text(left + label.x * _SCALE - back, top + label.y * _SCALE, label.text)


def _ink(pdf: FPDF, ink: Ink) -> None:
    colour = PALETTE[ink]
    red, green, blue = (0, 0, 0) if colour == "currentColor" else tuple(bytes.fromhex(colour[1:]))
    pdf.set_draw_color(red, green, blue)
    pdf.set_fill_color(red, green, blue)
