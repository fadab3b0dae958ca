import pytest

from service.words import band, number


@pytest.mark.parametrize(
    ("value", "unit", "expected"),
    [
        (75.0, "%", "75 %"),
        (0.1 + 0.2, "g", "0.3 g"),
        (4.0, "1", "4 : 1"),
        (1234567.0, "mg", "1234567 mg"),
        (1e-9, "g", "0 g"),
        (650.0, "", "650"),
    ],
)
def test_numbers_are_written_as_a_person_writes_them(value: float, unit: str, expected: str) -> None:
    assert number(value, unit) == expected


def test_a_band_names_the_ends_it_has() -> None:
    assert band(74.0, 76.0, "%") == "74 to 76 %"
    assert band(35.0, None, "g") == "at least 35 g"
    assert band(None, 5.0, "g") == "at most 5 g"
    assert band(None, 0.0, "g") == "at most 0 g"
