import pytest

from solver.errors import AmountError
from solver.label_rounding import Printed
from solver.label_text import number_printed, read_printed


@pytest.mark.parametrize(
    ("text", "unit", "printed"),
    [
        ("0 g", "g", Printed(0)),
        ("0g", "g", Printed(0)),
        ("12", "g", Printed(12)),
        ("12.50 g", "g", Printed(12.5, 2)),
        ("<0.5 g", "g", Printed(0.5, 1, less_than=True)),
        ("< 1 g", "g", Printed(1, less_than=True)),
        ("less than 1 g", "g", Printed(1, less_than=True)),
        ("Contains less than 1 g", "g", Printed(1, less_than=True)),
        ("less than 5 mg", "mg", Printed(5, less_than=True)),
        ("trace", "g", Printed(0)),
        ("Traces", "g", Printed(0)),
        ("1,200 mg", "mg", Printed(1200)),
        ("2 mcg", "ug", Printed(2)),
        ("2 µg", "ug", Printed(2)),
        ("110 Calories", "kcal", Printed(110)),
        ("1540 kJ", "kj", Printed(1540)),
        ("0.4 g", "mg", Printed(400, -2)),
        ("400 mg", "g", Printed(0.4, 3)),
    ],
)
def test_a_value_is_read_as_printed(text: str, unit: str, printed: Printed) -> None:
    assert read_printed(text, unit, decimal_comma=False) == printed


def test_a_comma_means_what_the_layout_means_by_it() -> None:
    assert read_printed("1,5 g", "g", decimal_comma=True) == Printed(1.5, 1)
    assert read_printed("1,200 g", "g", decimal_comma=True) == Printed(1.2, 3)
    with pytest.raises(AmountError):
        read_printed("1,5 g", "g", decimal_comma=False)


@pytest.mark.parametrize("text", ["", "g", "lots", "-1 g", "1 g 2 g", "1..5", "> 1 g", "1/2 g", "1e5 g", "1 2 g"])
def test_what_no_label_prints_is_refused(text: str) -> None:
    with pytest.raises(AmountError) as error:
        read_printed(text, "g", decimal_comma=False)
    assert error.value.code == "unreadable_label_value"


@pytest.mark.parametrize(("text", "unit"), [("3 ml", "g"), ("3 g", "kcal"), ("300 kJ", "kcal"), ("300 kcal", "kj")])
def test_another_kind_of_unit_is_refused(text: str, unit: str) -> None:
    with pytest.raises(AmountError) as error:
        read_printed(text, unit, decimal_comma=False)
    assert error.value.code == "wrong_unit"


@pytest.mark.parametrize(("number", "decimals"), [(0, 0), (31.0, 0), (10, 0), (0.5, 1), (1e-9, 9), (1e22, 0)])
def test_a_bare_number_has_the_decimals_that_it_needs(number: float, decimals: int) -> None:
    assert number_printed(number) == Printed(number, decimals)
