"""RFC 8259 (JSON) read strictly, RFC 6901 (JSON pointer) written."""

import json
import math
from contextlib import suppress
from functools import partial

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.body import UnreadableBody, pointer
from service.body import read_json as read_json_up_to
from solver.errors import UnusableBrief

DEEPEST = 32

MOST = 50

read_json = partial(read_json_up_to, depth_limit=DEEPEST, values_limit=MOST)

plain_json = st.recursive(
    st.none()
    | st.booleans()
    | st.integers(-(10**14), 10**14)
    | st.floats(allow_nan=False, allow_infinity=False)
    # A lone surrogate is category Cs; everything else is text.
    | st.text(st.characters(exclude_categories=["Cs"])),
    lambda inner: (
        st.lists(inner, max_size=3)
        | st.dictionaries(st.text(st.characters(categories=["L", "N", "P"]), max_size=20), inner, max_size=3)
    ),
    max_leaves=8,
)


@given(plain_json)
def test_what_json_writes_is_read_back_unchanged(document: object) -> None:
    assert read_json(json.dumps(document).encode()) == document


@given(st.binary(max_size=60))
def test_any_bytes_are_read_or_refused_and_never_crash(raw: bytes) -> None:
    with suppress(UnreadableBody, UnusableBrief):
        assert json.dumps(read_json(raw))


@pytest.mark.parametrize(
    ("raw", "code"),
    [
        (b"", "empty_body"),
        (b" \n", "empty_body"),
        (b"\xff{}", "not_utf_8"),
        (b'{"title": "\xed\xa0\x80"}', "not_utf_8"),
        (b"{", "malformed_json"),
        (b"{} {}", "malformed_json"),
        (b"{'title': 1}", "malformed_json"),
        (b"[1,]", "malformed_json"),
        (b"[" * 100_000, "too_deep"),
        (b"[" * 900 + b"]" * 900, "too_deep"),
    ],
)
def test_bytes_that_are_no_json_are_unreadable(raw: bytes, code: str) -> None:
    with pytest.raises(UnreadableBody) as refused:
        read_json(raw)
    assert refused.value.problem.code == code
    assert refused.value.problem.pointer == ""


def test_malformed_json_is_located_by_line_and_column() -> None:
    with pytest.raises(UnreadableBody, match=r"^Line 2, column 3: "):
        read_json(b'{"title": "x",\n  portions: 2}')


def test_nesting_is_read_up_to_the_limit_and_not_beyond() -> None:
    read_json(b"[" * DEEPEST + b"]" * DEEPEST)
    with pytest.raises(UnreadableBody):
        read_json(b"[" * (DEEPEST + 2) + b"]" * (DEEPEST + 2))


@pytest.mark.parametrize("document", [[0] * MOST, [[0]] * (MOST // 2), {f"{n}": [0] for n in range(MOST // 2)}])
def test_values_are_read_up_to_the_limit_and_not_beyond(document: object) -> None:
    raw = json.dumps(document).encode()
    assert read_json(raw) == document
    with pytest.raises(UnusableBrief) as refused:
        read_json_up_to(raw, depth_limit=DEEPEST, values_limit=MOST - 1)
    assert [(p.pointer, p.code) for p in refused.value.problems] == [("", "too_many")]


def test_every_repeated_name_is_reported_with_its_pointer() -> None:
    with pytest.raises(UnusableBrief) as refused:
        read_json(b'{"a": 1, "a": 2, "list": [{"x/y": 1, "x/y": 1}]}')
    assert [(p.pointer, p.code) for p in refused.value.problems] == [
        ("/a", "duplicate_name"),
        ("/list/0/x~1y", "duplicate_name"),
    ]


def test_half_a_surrogate_pair_is_no_text() -> None:
    with pytest.raises(UnusableBrief) as refused:
        read_json(rb'{"a": ["\ud83c"], "\udf73": 1}')
    assert {(p.pointer, p.code) for p in refused.value.problems} == {("/a/0", "not_text"), ("", "unusable_name")}


def test_a_whole_surrogate_pair_is_one_character() -> None:
    assert read_json(rb'["\ud83c\udf73"]') == ["\N{COOKING}"]


@pytest.mark.parametrize("name", ["qq" * 5000, "qq\x1b[2J", "qq\u202e"])
def test_a_name_that_cannot_be_shown_is_refused_without_repeating_it(name: str) -> None:
    with pytest.raises(UnusableBrief) as refused:
        read_json(json.dumps({name: 1}).encode())
    assert [(p.pointer, p.code) for p in refused.value.problems] == [("", "unusable_name")]
    assert "qq" not in refused.value.problems[0].detail


def test_a_byte_order_mark_is_passed_over() -> None:
    assert read_json("\ufeff{}".encode()) == {}


@pytest.mark.parametrize(("text", "value"), [(b"NaN", math.nan), (b"1e999", math.inf), (b"-" + b"9" * 5000, -math.inf)])
def test_numbers_beyond_a_double_are_left_for_the_schema_to_refuse(text: bytes, value: float) -> None:
    assert repr(read_json(text)) == repr(value)


# The tokens and pointers of RFC 6901, section 5.
@pytest.mark.parametrize(
    ("path", "expected"),
    [((), ""), (("foo",), "/foo"), (("foo", 0), "/foo/0"), (("",), "/"), (("a/b",), "/a~1b"), (("m~n",), "/m~0n")],
)
def test_pointers_are_those_of_rfc_6901(path: tuple[str | int, ...], expected: str) -> None:
    assert pointer(path) == expected
