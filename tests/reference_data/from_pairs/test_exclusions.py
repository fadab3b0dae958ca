"""Each reason for leaving a pair out, on a pair that has it."""

import pytest

from reference_data.from_pairs.exclusions import why_excluded
from reference_data.from_pairs.matching import find_pairs
from solver.catalogue import Catalogue


@pytest.fixture(scope="module")
def reasons(catalogue: Catalogue) -> dict[str, str]:
    return {pair.cooked.id: why_excluded(pair) for pair in find_pairs(catalogue)}


@pytest.mark.parametrize(
    ("cooked", "reason"),
    [
        ("sr28:05058", "coated"),  # breast fried in batter
        ("sr28:01128", "added fat or milk"),  # egg, fried
        ("sr28:05018", "collagen"),  # skin, roasted
        ("sr28:05028", "broth"),  # chicken liver, simmered
        ("sr28:10220", "does not say how"),  # ground pork, cooked
        ("sr28:05098", "do not match"),  # thigh meat only: 157 % of the raw fat
        ("sr28:05063", "fried in added fat"),  # breast meat only, fried
        ("sr28:05060", ""),
        ("sr28:23573", ""),
    ],
)
def test_a_pair_is_left_out_for_what_is_wrong_with_it(reasons: dict[str, str], cooked: str, reason: str) -> None:
    found = reasons[cooked]
    assert reason in found if reason else not found


def test_no_pumped_pair_is_used(catalogue: Catalogue) -> None:
    used = [pair.raw.name for pair in find_pairs(catalogue) if not why_excluded(pair)]
    assert not [name for name in used if "added solution" in name or "ham" in name.lower().split(", ")]
