"""Pictures: what they show is in their words, and they can be told apart without colour."""

import itertools

import pytest

from service.cards.drawing import Box, Line, textured
from service.cards.pictures.strip import strip
from service.cards.reader import Reader
from service.cards.svg import PALETTE, svg
from service.schemas.dish import DistributionAnswer

#: Grounds of the light and the dark page, which the browsers choose: white and a dark grey (Canvas).
GROUNDS = ("#ffffff", "#121212")


def luminance(colour: str) -> float:
    """Relative luminance (WCAG 2.2, definitions)."""
    parts = [byte / 255 for byte in bytes.fromhex(colour[1:])]
    red, green, blue = (part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    """Contrast ratio (WCAG 2.2, definitions)."""
    lighter, darker = sorted((luminance(one), luminance(other)), reverse=True)
    return (lighter + 0.05) / (darker + 0.05)


def test_the_contrast_is_counted_as_the_guidelines_do() -> None:
    """Black on white is 21 : 1, the largest there is (WCAG 2.2)."""
    assert contrast("#000000", "#ffffff") == pytest.approx(21)


@pytest.mark.parametrize("colour", [colour for colour in PALETTE.values() if colour != "currentColor"])
@pytest.mark.parametrize("ground", GROUNDS)
def test_every_ink_is_seen_on_both_grounds(colour: str, ground: str) -> None:
    assert contrast(colour, ground) >= 3, "WCAG 2.2, success criterion 1.4.11"


def test_textures_differ_without_colour() -> None:
    box = Box(0, 0, 40, 20, "fat")
    drawn = {texture: tuple(textured(box, texture)) for texture in ("plain", "slanted", "upright", "level", "open")}
    for one, other in itertools.combinations(drawn.values(), 2):
        assert one != other


@pytest.mark.parametrize("texture", ["slanted", "upright", "level"])
@pytest.mark.parametrize(("width", "height"), [(40, 20), (3, 22), (200, 5)])
def test_the_lines_of_a_texture_stay_inside_their_box(width: float, height: float, texture: str) -> None:
    lines = [shape for shape in textured(Box(5, 7, width, height, "fat"), texture) if isinstance(shape, Line)]  # type: ignore[arg-type]
    for line in lines:
        for x, y in line.points:
            assert 5 <= x <= 5 + width
            assert 7 <= y <= 7 + height


@pytest.mark.parametrize("shares", [(75, 22, 3, 0), (97, 1, 1, 1), (0, 50, 50, 0), (100, 0, 0, 0), (1, 1, 1, 97)])
def test_the_strip_says_its_numbers_and_its_words_do_not_overlap(shares: tuple[int, int, int, int]) -> None:
    fat, protein, carbohydrate, alcohol = shares
    percent = DistributionAnswer(fat=fat, protein=protein, carbohydrate=carbohydrate, alcohol=alcohol)
    drawn = strip(percent, Reader())
    boxes = [shape for shape in drawn.shapes if isinstance(shape, Box)]
    assert sum(box.width for box in boxes) == pytest.approx(drawn.width)
    labels = [shape for shape in drawn.shapes if not isinstance(shape, Box | Line)]
    places = [(label.x, label.x + 6.6 * len(label.text)) for label in labels]  # type: ignore[union-attr]
    for (_, end), (start, _) in itertools.pairwise(places):
        assert end <= start
    assert all(f" {share} %" in drawn.text for share in shares if share)


def test_what_an_ingredient_is_called_cannot_leave_its_place() -> None:
    percent = DistributionAnswer(fat=100, protein=0, carbohydrate=0, alcohol=0)
    drawn = strip(percent, Reader())
    assert "<script" not in svg(type(drawn)(drawn.width, drawn.height, drawn.shapes, '"><script>'))
