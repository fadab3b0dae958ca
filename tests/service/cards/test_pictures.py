"""Each picture against the answer that it draws: lengths and places in proportion, and every number in its words."""

import re

import pytest

from service.cards.drawing import Area, Box, Drawing, Label
from service.cards.pictures.bands import bands
from service.cards.pictures.brings import brings
from service.cards.pictures.changes import changes
from service.cards.pictures.plate import plate
from service.cards.pictures.region import region
from service.cards.reader import Reader
from service.schemas.answer import ConflictAnswer, PlanAnswer
from service.schemas.reach import CurveAnswer, PolygonAnswer
from service.schemas.rework import ReworkAnswer
from service.words import number
from tests.service.cards.conftest import KINDS, Ask

READER = Reader()

_AXIS = {"id": "protein_g", "of": "protein_g", "unit": "g", "per": "portion", "basis": "as_eaten"}
FRONTIER = {
    "x": _AXIS,
    "y": {**_AXIS, "id": "fat_g", "of": "fat_g"},
    "complete": True,
    "checked": "certificate checked",
    "note": None,
    "left_out": [],
}
HULL = {"outer": False, "gap_percent": 0}
EXACT = {"kind": "curve", "in_bands": False, "gap": 0}


@pytest.fixture(scope="module")
def plan(ask: Ask) -> PlanAnswer:
    return PlanAnswer.model_validate(ask("plan").json())


def boxes(drawing: Drawing) -> list[Box]:
    return [shape for shape in drawing.shapes if isinstance(shape, Box)]


def labels(drawing: Drawing) -> list[str]:
    return [shape.text for shape in drawing.shapes if isinstance(shape, Label)]


@pytest.mark.parametrize("kind", KINDS)
def test_every_picture_of_a_card_has_its_words(ask: Ask, kind: str) -> None:
    drawn = re.findall("<svg[^>]*>", ask(kind, format="html").text)
    assert drawn
    assert [each for each in drawn if not re.search('role="img".* aria-label="[^"]{20,}"', each)] == []


def test_a_bar_of_who_brings_what_is_as_long_as_its_percent(plan: PlanAnswer) -> None:
    drawing = brings(plan.brings, READER)
    percent = [
        item.percent[name] or 0.0 for item in plan.brings for name in ("fat_g", "protein_g", "available_carbohydrate_g")
    ]
    longest = max(percent)
    unit = max(box.width for box in boxes(drawing)) / longest
    assert [box.width / unit for box in boxes(drawing)] == pytest.approx([each for each in percent if each > 0])
    for item in plan.brings:
        assert item.name in drawing.text
    for each in percent:
        assert f"{each:.0f} %" in drawing.text


def test_the_percent_of_who_brings_all_of_it_stands_inside_the_picture(plan: PlanAnswer) -> None:
    item = plan.brings[0].model_copy(update={"percent": dict.fromkeys(plan.brings[0].percent, 100.0)})
    drawing = brings([item], READER)
    labels = [shape for shape in drawing.shapes if isinstance(shape, Label) and shape.text == "100 %"]
    assert len(labels) == 3
    ends = [label.x + len(label.text) * 0.6 * label.size for label in labels]
    assert max(ends) < drawing.width  # 0.6 of its size is a wide letter


def test_on_the_board_and_on_the_plate_the_bars_are_equally_long(plan: PlanAnswer) -> None:
    """Mass is kept: what is cooked, what rendered and what evaporated is what was raw."""
    cooked = [each for each in plan.components if each.method is not None]
    assert cooked
    drawing = plate(plan.components, READER)
    found = iter(boxes(drawing))
    for each in cooked:
        board = next(found)
        parts = [each.cooked_g, each.returned_g, each.lost_g, each.evaporated_g]
        on_plate = [next(found) for grams in parts if grams > 0]
        assert sum(box.width for box in on_plate) == pytest.approx(board.width, rel=1e-3)
        assert [box.width / board.width for box in on_plate] == pytest.approx(
            [grams / each.raw_g for grams in parts if grams > 0]
        )
        for grams in (each.raw_g, *parts):
            assert grams == 0 or READER.weight(grams) in drawing.text


def test_before_and_after_stand_in_proportion(ask: Ask) -> None:
    found = ReworkAnswer.model_validate(ask("rework").json()).changes
    assert found
    drawing = changes(found, READER)
    drawn = iter(boxes(drawing))
    for each in found:
        pair = [next(drawn).width if grams > 0 else 0.0 for grams in (each.before_grams, each.after_grams)]
        assert pair[0] * each.after_grams == pytest.approx(pair[1] * each.before_grams)
        assert f"{each.name} {each.before}, now {each.after}" in drawing.text


def test_the_corners_of_a_region_stand_where_their_values_are() -> None:
    """A pentagon: each place is the value, to the scale of its axis; y goes down."""
    corners = [(100.0, 20.0), (300.0, 20.0), (400.0, 40.0), (250.0, 60.0), (100.0, 45.0)]
    vertices = [{"x": x, "y": y, "attained": True, "amounts": []} for x, y in corners]
    polygon = PolygonAnswer.model_validate({**FRONTIER, "kind": "polygon", "vertices": vertices, **HULL})
    drawing = region(polygon, READER)
    assert drawing is not None
    (area,) = (shape for shape in drawing.shapes if isinstance(shape, Area))
    across, down = (list(places) for places in zip(*area.points, strict=True))
    wide, high = max(across) - min(across), max(down) - min(down)
    assert [(x - min(across)) / wide for x in across] == pytest.approx([(x - 100) / 300 for x, _ in corners])
    assert [(max(down) - y) / high for y in down] == pytest.approx([(y - 20) / 40 for _, y in corners])
    assert "100, 20; 300, 20; 400, 40; 250, 60; 100, 45" in drawing.text


def test_a_curve_is_drawn_through_the_values_of_its_formula() -> None:
    """50 / (1 + x) above and 10 below, from 1 to 4: 25 at the left end, and 10 at all others."""
    piece = {"start": 1, "stop": 4, "b": 0, "c": 1}
    most, least = {**piece, "a": 50, "d": 1}, {**piece, "a": 10, "d": 0}
    drawing = region(CurveAnswer.model_validate({**FRONTIER, **EXACT, "most": [most], "least": [least]}), READER)
    assert drawing is not None
    assert "1, 25; 4, 10; 1, 10; 4, 10" in drawing.text
    (area,) = (shape for shape in drawing.shapes if isinstance(shape, Area))
    (left, top), foot = area.points[0], max(y for _, y in area.points)
    wide = max(x for x, _ in area.points) - left
    for x, y in area.points[: len(area.points) // 2]:
        amount = 1 + 3 * (x - left) / wide
        assert 10 + 15 * (foot - y) / (foot - top) == pytest.approx(50 / (1 + amount))


def test_what_pulls_against_what_is_an_arrow_to_the_band_that_is_missed(ask: Ask) -> None:
    nearest = ConflictAnswer.model_validate(ask("conflict").json()).nearest
    assert nearest is not None
    missed = [target for target in nearest.targets if not target.met]
    assert missed
    with_arrows, without = (
        bands(targets, None, READER)
        for targets in (missed, [target.model_copy(update=_inside(target.value)) for target in missed])
    )
    assert len(with_arrows.shapes) == len(without.shapes) + 2 * len(missed)
    for target in missed:
        assert number(round(target.value or 0.0, 2), target.unit) in with_arrows.text


def _inside(value: float | None) -> dict[str, float]:
    assert value is not None
    return {"at_least": value - 1, "at_most": value + 1}


def test_a_picture_of_an_unknown_share_says_so(plan: PlanAnswer) -> None:
    item = plan.brings[0]
    unknown = item.model_copy(update={"percent": {**item.percent, "fat_g": None}})
    drawing = brings([unknown], READER)
    assert "?" in labels(drawing)
    assert "fat unknown" in drawing.text


def test_the_shipped_examples_show_every_picture(ask: Ask) -> None:
    headings = {
        "plan": ("Where each target lies", "Who brings what"),
        "conflict": ("What pulls against what",),
        "rework": ("Before and after",),
        "reach": ("What is reachable of two targets",),
    }
    for kind, wanted in headings.items():
        page = ask(kind, format="html").text
        assert [heading for heading in wanted if heading not in page] == [], kind
