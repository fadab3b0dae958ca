"""Accept as RFC 9110, section 12.5.1 has it; the first table is the worked example of that section."""

import pytest

from service.negotiation import acceptable

#: Media types that are offered, the first choice first, each its own name.
OFFERED = tuple((each, each) for each in ("application/json", "text/html", "text/plain", "image/jpeg"))

#: RFC 9110, section 12.5.1: "text/*;q=0.3, text/plain;q=0.7, text/plain;format=flowed, text/plain;format=fixed;q=0.4,
#: */*;q=0.5" gives text/html 0.3, image/jpeg 0.5, and text/plain 0.7. Parameters other than q are not told apart here.
EXAMPLE = "text/*;q=0.3, text/plain;q=0.7, */*;q=0.5"


@pytest.mark.parametrize(
    ("offered", "chosen"),
    [(("text/html", "image/jpeg"), "image/jpeg"), (("text/plain", "image/jpeg"), "text/plain")],
)
def test_the_most_specific_range_decides(offered: tuple[str, ...], chosen: str) -> None:
    assert acceptable(EXAMPLE, tuple((each, each) for each in offered)) == chosen


@pytest.mark.parametrize("accept", ["", "*/*", "nonsense", "application/*", "text/html;q=0.5, application/json;q=0.5"])
def test_the_first_choice_is_taken_among_equals(accept: str) -> None:
    assert acceptable(accept, OFFERED) == "application/json"


@pytest.mark.parametrize("accept", ["image/png", "application/json;q=0, text/*;q=0, image/*;q=0"])
def test_nothing_is_chosen_where_nothing_is_acceptable(accept: str) -> None:
    assert acceptable(accept, OFFERED) is None


def test_a_range_that_cannot_be_read_is_passed_over() -> None:
    assert acceptable("text/html;q=high, text/plain;q=0.1", OFFERED) == "text/plain"
