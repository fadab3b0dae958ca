"""Prefer headers; the first examples are those of RFC 7240, sections 2 and 4.3, from memory."""

import pytest

from service.preference import LONGEST, Preference, preference_of

ASYNC = Preference(respond_async=True)


@pytest.mark.parametrize(
    ("said", "meant"),
    [
        (["respond-async, wait=100", "handling=lenient"], Preference(respond_async=True, wait_s=100)),
        (["respond-async", "wait=100", "handling=lenient"], Preference(respond_async=True, wait_s=100)),
        (["Lenient", "RESPOND-ASYNC"], ASYNC),
        (['respond-async = ""'], ASYNC),
        (["priority=5; foo; bar=2, respond-async"], ASYNC),
        (['foo; some-parameter=", respond-async"'], Preference()),
        (["wait=10, wait=20, respond-async"], Preference(respond_async=True, wait_s=10)),
        (['wait="3", respond-async'], Preference(respond_async=True, wait_s=3)),
        (["wait=3"], Preference(wait_s=3)),
        ([], Preference()),
    ],
)
def test_a_header_is_read_as_the_rfc_has_it(said: list[str], meant: Preference) -> None:
    assert preference_of(said) == meant


@pytest.mark.parametrize(
    "said",
    ["", ",,,", "=", "respond-async=yes", "respond-async x", '"respond-async"', 'respond-async;"', "re spond-async"],
)
def test_what_cannot_be_read_is_passed_over(said: str) -> None:
    assert preference_of([said]) == Preference()
    assert preference_of([said, "respond-async"]).respond_async or said.startswith("respond-async=")


@pytest.mark.parametrize("wait", ["-1", "1.5", "1e3", "soon", "9" * 30, ""])
def test_a_wait_that_is_no_number_of_seconds_is_none(wait: str) -> None:
    assert preference_of([f"respond-async, wait={wait}"]) == ASYNC


@pytest.mark.parametrize("piece", [",", '"', ';"', "a=", "respond-async;", '"\\', " "])
def test_a_hostile_header_is_read_no_further_than_anybody_means(piece: str) -> None:
    long = piece * (LONGEST // len(piece) + 1)
    assert preference_of([long * 100, "respond-async"]).wait_s == 0
    assert not preference_of([long, "respond-async"]).respond_async or piece == "respond-async;"
