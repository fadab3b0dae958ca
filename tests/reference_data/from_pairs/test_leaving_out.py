"""The estimates are near what was measured, and their stated intervals hold it nine times in ten."""

import numpy as np
import pytest

from reference_data.from_pairs.exclusions import why_excluded
from reference_data.from_pairs.leaving_out import evidence_of, left_out, residuals_of, spread_of
from reference_data.from_pairs.matching import Pair, find_pairs
from solver.catalogue import Catalogue
from solver.foods import Food


@pytest.fixture(scope="module")
def usable(catalogue: Catalogue) -> list[Pair]:
    return [pair for pair in find_pairs(catalogue) if not why_excluded(pair)]


def fat_share(food: Food, retention: float = 1.0) -> float:
    fat = 9 * food.value("fat_g") * retention
    return 100 * fat / (4 * food.value("protein_g") + fat + 4 * food.value("total_carbohydrate_g"))


def test_the_cooked_fat_share_is_missed_by_less_than_was_asked(usable: list[Pair]) -> None:
    estimates = left_out([evidence_of(pair) for pair in usable])
    errors = [
        abs(fat_share(pair.raw, found.fat_retention_g_per_g) - fat_share(pair.cooked))
        for pair, found in zip(usable, estimates, strict=True)
    ]
    assert np.median(errors) < 1.8
    assert np.percentile(errors, 90) < 6


def test_the_stated_interval_holds_the_truth_nine_times_in_ten(usable: list[Pair]) -> None:
    evidence = [evidence_of(pair) for pair in usable]
    residuals = residuals_of(evidence, left_out(evidence))
    inside = [
        abs(residuals.log_retention[place])
        <= spread_of(pair.raw.kind, pair.method, evidence, residuals, without=place).log_retention
        for place, pair in enumerate(evidence)
    ]
    # 742 pairs: two standard errors of a share of 0.9 are 0.022.
    assert np.mean(inside) == pytest.approx(0.9, abs=0.022)


def test_a_pair_without_a_method_is_no_evidence(catalogue: Catalogue) -> None:
    nameless = next(pair for pair in find_pairs(catalogue) if pair.method is None)
    with pytest.raises(ValueError, match="how it was cooked"):
        evidence_of(nameless)
