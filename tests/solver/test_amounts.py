"""Amounts as a kitchen writes them, and everything that is none."""

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from solver.amounts import LARGEST_VALUE, LONGEST_TEXT, Amount, parse_amount
from solver.errors import AmountError

ANY_CHARACTERS = st.characters(exclude_categories=())  # lone surrogates and unassigned ones as well
KITCHEN_SCRAPS = st.sampled_from(
    [*" 0123456789.,/-+()½⅟", "\N{FRACTION SLASH}", *["e", "to", "and", "cup", "lb", "oz", "tbsp"]]
)


@pytest.mark.parametrize(
    ("text", "value", "unit"),
    [
        ("1 1/2 tbsp", 1.5, "tbsp"),
        ("½ cup", 0.5, "cup"),
        ("6 large", 6, "large"),
        ("250 g", 250, "g"),
        ("2 cups, shredded", 2, "cups, shredded"),
        ("250g", 250, "g"),
        ("1tbsp", 1, "tbsp"),
        ("1½ cups", 1.5, "cups"),
        ("1 ½ cups", 1.5, "cups"),
        ("⅓ cup", 1 / 3, "cup"),
        ("⅛ tsp", 0.125, "tsp"),
        ("1⁄2 tsp", 0.5, "tsp"),  # noqa: RUF001  U+2044, the fraction slash
        ("⅟8 tsp", 0.125, "tsp"),
        ("1-1/2 tsp", 1.5, "tsp"),
        ("2-3/4 cups", 2.75, "cups"),
        ("1 and 1/2 cups", 1.5, "cups"),
        ("3/4 cup", 0.75, "cup"),
        ("5/4 cup", 1.25, "cup"),
        (".5 oz", 0.5, "oz"),
        ("0.25 tsp", 0.25, "tsp"),
        ("1 tbsp.", 1, "tbsp"),
        ("  2   fl. oz. ", 2, "fl. oz"),
        ("250\N{NO-BREAK SPACE}g", 250, "g"),
        ("1-cup", 1, "cup"),
        ("1 [cup_us]", 1, "[cup_us]"),
        ("0 g", 0, "g"),
        ("6", 6, ""),
        ('2 slices (4" x 4")', 2, 'slices (4" x 4")'),
        ("1 cup 8 fl oz", 1, "cup 8 fl oz"),
        ('1 cup 1/2" pieces', 1, 'cup 1/2" pieces'),
        ("1 serving 2 tbsp", 1, "serving 2 tbsp"),
        ("1 lb 2 tbsp", 1, "lb 2 tbsp"),
        ("1 bar (net 3 and 1 more)", 1, "bar (net 3 and 1 more)"),
    ],
)
def test_one_amount_is_a_number_and_the_words_of_its_unit(text: str, value: float, unit: str) -> None:
    assert parse_amount(text) == (Amount(value, unit),)


@pytest.mark.parametrize(
    ("text", "parts"),
    [
        ("1 lb 4 oz", [(1, "lb"), (4, "oz")]),
        ("1 lb. 4 oz.", [(1, "lb"), (4, "oz")]),
        ("1lb4oz", [(1, "lb"), (4, "oz")]),
        ("1 lb, 2 1/2 oz", [(1, "lb"), (2.5, "oz")]),
        ("1 cup 2 tbsp", [(1, "cup"), (2, "tbsp")]),
        ("1 cup + 2 tbsp", [(1, "cup"), (2, "tbsp")]),
        ("1 cup plus 2 tbsp", [(1, "cup"), (2, "tbsp")]),
        ("1 cup & 2 tbsp", [(1, "cup"), (2, "tbsp")]),
        ("1 large and 2 tbsp", [(1, "large"), (2, "tbsp")]),
        ("1½ cups + ½ tsp", [(1.5, "cups"), (0.5, "tsp")]),
        ("1 quart 1 cup 1 tbsp", [(1, "quart"), (1, "cup"), (1, "tbsp")]),
        ("1 kg 500 g", [(1, "kg"), (500, "g")]),
        ("1 cup 2 tbsp, shredded", [(1, "cup, shredded"), (2, "tbsp, shredded")]),
        ("1 cup + 2 tbsp chopped", [(1, "cup chopped"), (2, "tbsp chopped")]),
        ("8 oz + 2 tbsp, shredded", [(8, "oz"), (2, "tbsp, shredded")]),
    ],
)
def test_several_amounts_are_read_in_order(text: str, parts: list[tuple[float, str]]) -> None:
    assert parse_amount(text) == tuple(Amount(value, unit) for value, unit in parts)


@pytest.mark.parametrize(
    ("text", "remedy_says"),
    [
        ("1,5 g", "with a point"),
        ("1,000 g", "without a comma"),
        ("1 lb 4,5 oz", "with a point"),
        ("2-3 tbsp", "one amount"),
        ("2–3 tbsp", "one amount"),  # noqa: RUF001  the en dash cooks type
        ("2 to 3 tbsp", "one amount"),
        ("1/2 - 3/4 cup", "one amount"),
        ("1 or 2 large", "one amount"),
        ("-1 g", "zero or more"),
        ("−1 g", "zero or more"),  # noqa: RUF001  U+2212, the minus sign
        ("1e3 g", "Write it out"),
        ("1e999 g", "Write it out"),
        ("1000001 g", "larger unit"),
        ("1 + 2 tbsp", "number and a unit"),
        ("1 cup + 2", "Give each its unit"),
    ],
)
def test_what_could_be_meant_in_two_ways_is_refused_with_a_remedy(text: str, remedy_says: str) -> None:
    with pytest.raises(AmountError) as refusal:
        parse_amount(text)
    assert refusal.value.code == "unreadable_amount"
    assert remedy_says in refusal.value.remedy


@pytest.mark.parametrize(
    "text",
    [
        *("", " ", "g", "a pinch", "half an onion", "some", "NaN g", "inf g", "∞ g", "+5 g"),
        *(
            "1/0 g",
            "1 1/0 g",
            "0/0",
            "1/2/3 g",
            "1.2.3 g",
            "1..2 g",
            "1 2 g",
            "1 000 g",
            "1_000 g",
            "1'000 g",
            "½½ cup",
        ),
        *(
            "1 3/2 cup",
            "² g",
            "٣ g",
            "1 %",
            "🥚",
            "6 🥚",
            "1 g\x00",
            "1\ng",
            "1 \ud800",
            "1 g\u202e",
            "\ufeff1 g",
            "1 \x1b[2J",
        ),
        *("9" * 5000, "9" * LONGEST_TEXT, "1/" + "9" * 5000, "1 " + "g" * LONGEST_TEXT, "(" * 5000),
    ],
)
def test_what_is_no_amount_is_refused(text: str) -> None:
    with pytest.raises(AmountError) as refusal:
        parse_amount(text)
    assert refusal.value.code == "unreadable_amount"


@given(st.text(ANY_CHARACTERS) | st.lists(KITCHEN_SCRAPS).map("".join))
@example("1" + " and 1" * 15)
@example("1 lb " * 20)
@example("1 " + "c" * 98)
def test_any_text_is_read_or_refused(text: str) -> None:
    read = read_or_refused(text)
    if isinstance(read, AmountError):
        assert read.code == "unreadable_amount"
        assert str(read).encode()
    else:
        assert read
        assert all(0 <= amount.value <= LARGEST_VALUE for amount in read)


def read_or_refused(text: str) -> tuple[Amount, ...] | AmountError:
    try:
        return parse_amount(text)
    except AmountError as refusal:
        return refusal


@given(whole=st.integers(0, 999), over=st.integers(1, 15), under=st.integers(2, 16))
def test_a_mixed_number_is_its_sum(whole: int, over: int, under: int) -> None:
    over = over % under or 1
    (amount,) = parse_amount(f"{whole} {over}/{under} cup")
    assert amount.value == pytest.approx(whole + over / under, rel=1e-15)


@given(st.decimals(0, 1_000_000, places=3))
def test_a_decimal_number_is_read_as_it_is_written(number: object) -> None:
    assert parse_amount(f"{number} g") == (Amount(float(str(number)), "g"),)


@pytest.mark.parametrize("value", [float("nan"), float("inf"), -1.0, -1e-300, LARGEST_VALUE * 2])
def test_an_amount_made_of_value_and_unit_obeys_the_same_limits(value: float) -> None:
    with pytest.raises(AmountError) as refusal:
        Amount(value, "g")
    assert refusal.value.code == "unreadable_amount"


@pytest.mark.parametrize("unit", ["g\x00", "\ud800", "🥚", "g" * (LONGEST_TEXT + 1)])
def test_an_amount_made_of_value_and_unit_has_a_printable_unit(unit: str) -> None:
    with pytest.raises(AmountError) as refusal:
        Amount(1.0, unit)
    assert refusal.value.code == "unreadable_amount"
