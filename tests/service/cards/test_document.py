"""The sheets of a PDF: what a reader would see of them, from the drawing commands and the text of each page."""

import io

import pypdf
import pytest
from pypdf.generic import ContentStream

from service.cards.card import AnySection, Card, Notes, Picture, Table
from service.cards.document import document
from service.cards.drawing import Box, Drawing, Label

PICTURE = Picture("Of the energy", "left", Drawing(300, 60, (Box(0, 0, 90, 20, "fat"), Label(0, 40, "fat 75 %")), ""))
TABLE = Table("What was asked", "left", ("asked", "has"), (("energy", "650 kcal"), ("protein", "39 g")))


def pages(*sections: AnySection) -> list[pypdf.PageObject]:
    return list(pypdf.PdfReader(io.BytesIO(document(Card("Patties", "4 portions", sections)))).pages)


def filled(page: pypdf.PageObject) -> int:
    """How many shapes are painted with a colour (`f` and `B`, ISO 32000-1, 8.5.3)."""
    operators = [operator for _, operator in ContentStream(page.get_contents(), page.pdf).operations]
    return sum(operator in {b"f", b"B"} for operator in operators)


def test_a_table_below_a_picture_has_none_of_its_colour() -> None:
    (page,) = pages(PICTURE, TABLE)
    assert filled(page) == 1, "the bar of the picture alone"


@pytest.mark.parametrize("section", [PICTURE, TABLE], ids=["picture", "table"])
def test_a_heading_is_never_left_alone_at_the_foot_of_a_sheet(section: AnySection) -> None:
    below = "fat 75 %" if section is PICTURE else "650 kcal"
    together = set()
    for lines in range(50, 75):
        texts = [page.extract_text() for page in pages(Notes("", "left", ("a line",) * lines), section)]
        (place,) = [number for number, text in enumerate(texts) if section.heading in text]
        assert below in texts[place], f"after {lines} lines"
        together.add(place)
    assert together == {0, 1}, "the foot of the first sheet was passed"
