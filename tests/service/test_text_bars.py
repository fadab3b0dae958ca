"""Bars of the terminal form: each character is where its number is."""

import pytest

from service.schemas.dish import TargetAnswer
from service.text_bars import share_bar, target_bar

BAND = {"at_least": 10.0, "at_most": 20.0}


def target(**fields: object) -> TargetAnswer:
    plain = {"id": "x", "of": "protein_g", "per": "portion", "unit": "g", "aim": None, "within": None, "priority": None}
    told = {"basis": "as_eaten", "value": 15.0, "reason": None, "met": True, "binding": False, "miss": 0.0}
    ends = {"at_least": None, "at_most": None, "worst_case": None}
    return TargetAnswer.model_validate({**plain, **told, **ends, **fields})


@pytest.mark.parametrize(
    ("percent", "bar"),
    [(0, ""), (100, "\u2588" * 24), (50, "\u2588" * 12), (1, "\u258e"), (52.1, "\u2588" * 12 + "\u258c")],
)
def test_a_share_is_as_long_as_it_is_large(percent: float, bar: str) -> None:
    """24 characters of 8 eighths: 1 % is 1.92 eighths, 52.1 % is 12 characters and 4 eighths."""
    assert share_bar(percent) == bar


@pytest.mark.parametrize(
    ("value", "place"),
    [(15.0, 12), (10.0, 6), (19.99, 17), (5.0, 0), (0.0, 0), (24.9, 23), (1000.0, 23)],
)
def test_a_value_is_marked_where_it_lies(value: float, place: int) -> None:
    """The axis of a band from 10 to 20 goes from 5 to 25, so a character is 5/6."""
    met = 10 <= value <= 20
    bar = target_bar(target(**BAND, value=value, met=met))
    assert bar is not None
    assert len(bar) == 24
    assert bar.index("\u25cf" if met else "\u2715") == place


def test_the_ends_of_a_band_are_marked() -> None:
    bar = target_bar(target(**BAND))
    assert bar == " " * 6 + "\u251c" + "\u2500" * 5 + "\u25cf" + "\u2500" * 5 + "\u2524" + " " * 5


def test_a_band_with_one_end_has_it_in_the_middle() -> None:
    least, most = target_bar(target(at_least=10.0)), target_bar(target(at_most=10.0, value=5.0))
    assert least is not None
    assert least == " " * 12 + "\u251c" + "\u2500" * 5 + "\u25cf" + "\u2500" * 5
    assert most == "\u2500" * 6 + "\u25cf" + "\u2500" * 5 + "\u2524" + " " * 11


@pytest.mark.parametrize("fields", [{"value": None, **BAND}, {"at_most": 0.0}, {"at_least": 5.0, "at_most": 5.0}])
def test_where_there_is_nothing_to_draw_there_is_no_bar(fields: dict[str, object]) -> None:
    assert target_bar(target(**fields)) is None
