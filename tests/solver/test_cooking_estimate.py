"""The estimate lies among its evidence, and nearer to what is more alike."""

from math import exp

import pytest
from hypothesis import given
from hypothesis import strategies as st

from solver.cooking_estimate import Evidence, Raw, estimate, half_interval_90, log_retention, pool_of, words_of

LOIN = Raw(words_of("Pork, fresh, loin, raw"), "pork", 10.0)


def pair(name: str, kind: str, method: str, kept: float, *, shrunk: float = 0.7, fat_g: float = 10.0) -> Evidence:
    return Evidence(Raw(words_of(name), kind, fat_g), method, shrunk, kept)


@given(st.lists(st.tuples(st.floats(0.1, 2), st.floats(0.3, 1), st.floats(0.1, 60)), min_size=1, max_size=8))
def test_the_estimate_lies_between_the_least_and_the_greatest_of_its_evidence(
    rows: list[tuple[float, float, float]],
) -> None:
    evidence = [pair("Pork, leg", "pork", "roasted", kept, shrunk=shrunk, fat_g=fat) for kept, shrunk, fat in rows]
    found = estimate(LOIN, "roasted", evidence)
    kept, shrunk, _ = zip(*rows, strict=True)
    assert min(kept) - 1e-9 <= found.fat_retention_g_per_g <= max(kept) + 1e-9
    assert min(shrunk) - 1e-9 <= found.yield_g_per_g <= max(shrunk) + 1e-9


def test_two_equally_like_pairs_give_their_geometric_mean() -> None:
    evidence = [pair("Pork, leg", "pork", "roasted", 0.4), pair("Pork, leg", "pork", "roasted", 0.9)]
    assert estimate(LOIN, "roasted", evidence).fat_retention_g_per_g == pytest.approx((0.4 * 0.9) ** 0.5)


@pytest.mark.parametrize(
    ("near", "far"),
    [
        (pair("Pork, fresh, loin", "pork", "roasted", 0.5), pair("Pork, leg", "pork", "roasted", 1.0)),
        (pair("Pork, leg", "pork", "roasted", 0.5), pair("Pork, leg", "pork", "braised", 1.0)),
        (pair("Pork, leg", "pork", "roasted", 0.5), pair("Pork, leg", "fish", "roasted", 1.0)),
        (pair("Pork, leg", "pork", "roasted", 0.5, fat_g=9), pair("Pork, leg", "pork", "roasted", 1.0, fat_g=2)),
    ],
    ids=["words", "family of method", "kind", "raw fat"],
)
def test_what_is_more_alike_counts_more(near: Evidence, far: Evidence) -> None:
    assert estimate(LOIN, "roasted", [near, far]).fat_retention_g_per_g < (0.5 * 1.0) ** 0.5


def test_a_pair_that_kept_nothing_has_a_logarithm() -> None:
    assert exp(log_retention(pair("Pork", "pork", "roasted", 0.0))) == pytest.approx(0.01)


def test_the_pool_widens_until_it_is_large_enough() -> None:
    evidence = [pair("Pork", "pork", "roasted", 0.9)] * 5 + [pair("Pork", "pork", "baked", 0.9)] * 4
    assert pool_of("pork", "roasted", evidence) == ("pork; oven methods", list(range(9)))
    assert pool_of("pork", "roasted", evidence * 2)[0] == "pork; roasted"
    assert pool_of("pork", "grilled", evidence)[0] == "pork; all methods"
    assert pool_of("fish", "baked", evidence)[0] == "all kinds; oven methods"
    assert pool_of("fish", "grilled", evidence)[0] == "all kinds; all methods"


def test_nine_of_ten_is_the_ninth_of_nine_sizes_and_never_beyond_the_largest() -> None:
    assert half_interval_90([-9, 1, 2, 3, 4, 5, 6, 7, 8]) == 9
    assert half_interval_90(range(1, 20)) == 18
    assert half_interval_90([0.5]) == 0.5
