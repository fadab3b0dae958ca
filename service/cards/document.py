"""A card as PDF, on A4 or US letter, drawn from the same sections and drawings as the page.

The typeface is carried by a package, since the fonts that every reader of PDF has hold no more than Latin-1.
"""

from collections.abc import Iterator
from importlib.resources import files

from fpdf import FPDF
from fpdf.enums import XPos, YPos

from service.cards.card import PLACES, AnySection, Card, Notes, Paper, Picture, Steps, Table
from service.cards.document_drawing import draw, height_mm

_FONT = "card"
_MARGIN_MM = 12.0
_GREY = 90


def document(card: Card, paper: Paper = "A4") -> bytes:
    """The document. Letters that the typeface lacks are drawn as boxes."""
    pdf = _opened(card, paper)
    _line(pdf, card.title, 17, bold=True)
    _line(pdf, card.lead, 10, grey=True)
    for place in PLACES:
        for section in card.at(place):
            _section(pdf, section)
    return bytes(pdf.output())


def _opened(card: Card, paper: Paper) -> FPDF:
    pdf = FPDF(format=paper)
    pdf.set_margin(_MARGIN_MM)
    pdf.set_auto_page_break(auto=True, margin=_MARGIN_MM)
    folder = files("font_source_sans_pro") / "files"
    pdf.add_font(_FONT, "", str(folder / "SourceSansPro-Regular.ttf"))
    pdf.add_font(_FONT, "B", str(folder / "SourceSansPro-Semibold.ttf"))
    pdf.set_title(card.title)
    pdf.set_lang(card.language)
    pdf.set_creator("Larderline")
    pdf.add_page()
    return pdf


def _line(pdf: FPDF, text: str, size: float, *, bold: bool = False, grey: bool = False) -> None:
    pdf.set_font(_FONT, "B" if bold else "", size)
    pdf.set_text_color(_GREY if grey else 0)
    pdf.multi_cell(0, size * 0.42, text, new_x=XPos.LMARGIN, new_y=YPos.NEXT, align="L")
    pdf.set_text_color(0)


def _section(pdf: FPDF, section: AnySection) -> None:
    _heading(pdf, section)
    match section:
        case Table():
            _table(pdf, section)
        case Notes():
            size = 7.8 if section.weight == "small" else 9
            for text in section.texts:
                _line(pdf, f"\u2022 {text}", size, bold=section.weight == "loud")
        case Steps():
            for text, bold in _steps(section):
                _line(pdf, text, 9.5, bold=bold)
        case Picture():
            draw(pdf, section.drawing, _FONT)


def _heading(pdf: FPDF, section: AnySection) -> None:
    if pdf.will_page_break(_beginning_mm(section)):
        pdf.add_page()
    if section.heading:
        pdf.ln(2.2)
        _line(pdf, section.heading, 10.5, bold=True)
        pdf.ln(0.6)


def _beginning_mm(section: AnySection) -> float:
    """What has to stand together: the heading, and the picture, or as much as a few lines below it."""
    below = height_mm(section.drawing) if isinstance(section, Picture) else 14.0
    return below + (8.0 if section.heading else 0.0)


def _steps(steps: Steps) -> Iterator[tuple[str, bool]]:
    for number, step in enumerate(steps.steps, 1):
        facts = f" ({', '.join(step.facts)})" if step.facts else ""
        yield f"{number}. {step.text}{facts}", False
        if step.safe is not None:
            yield step.safe, True


def _table(pdf: FPDF, table: Table) -> None:
    columns = len(table.titles)
    align = tuple("RIGHT" if 1 <= place <= table.numeric else "LEFT" for place in range(columns))
    pdf.set_font(_FONT, "", 9)
    with pdf.table(
        borders_layout="HORIZONTAL_LINES",
        col_widths=(3, *(2,) * (columns - 1)),
        text_align=align,
        line_height=4.4,
        padding=(0.3, 1),
    ) as drawn:
        for cells in (table.titles, *table.rows):
            drawn.row(cells)
