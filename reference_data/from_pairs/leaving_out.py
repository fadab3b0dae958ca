"""What the estimate says of each usable pair when that pair is left out: the spread of the table, and its benchmark."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from reference_data.from_pairs.matching import Pair
from solver.cooking_estimate import (
    LEAST_POOL,
    Estimate,
    Evidence,
    Raw,
    estimate,
    half_interval_90,
    log_retention,
    pool_of,
    words_of,
)
from solver.numerics import FloatArray


@dataclass(frozen=True, slots=True)
class Spread:
    """90 % half-intervals: of the logarithm of fat retention, and of yield, g per g; from so many pairs of a pool."""

    log_retention: float
    yield_g_per_g: float
    pairs: int
    pool: str


@dataclass(frozen=True, slots=True, eq=False)
class Residuals:
    """What the estimates miss, pair by pair (measured less estimated): logarithm of retention, and yield."""

    log_retention: FloatArray
    yield_g_per_g: FloatArray


def evidence_of(pair: Pair) -> Evidence:
    """A usable pair as the estimate sees it. Raises ValueError for a pair without a method."""
    if pair.method is None:
        raise ValueError(f"{pair.cooked.id} does not say how it was cooked")
    raw = Raw(words_of(pair.raw.name), pair.kind, pair.raw.value("fat_g"))
    return Evidence(raw, pair.method, pair.yield_g_per_g, pair.fat_retention_g_per_g)


def left_out(evidence: Sequence[Evidence]) -> list[Estimate]:
    """The estimate of each pair from all the others."""
    return [
        estimate(pair.raw, pair.method, [*evidence[:place], *evidence[place + 1 :]])
        for place, pair in enumerate(evidence)
    ]


def residuals_of(evidence: Sequence[Evidence], estimates: Sequence[Estimate]) -> Residuals:
    """Measured less estimated, for each pair."""
    both = list(zip(evidence, estimates, strict=True))
    return Residuals(
        np.array([log_retention(pair) - np.log(of_it.fat_retention_g_per_g) for pair, of_it in both]),
        np.array([pair.yield_g_per_g - of_it.yield_g_per_g for pair, of_it in both]),
    )


def spread_of(
    kind: str, method: str, evidence: Sequence[Evidence], residuals: Residuals, without: int | None = None
) -> Spread:
    """The spread to state for a kind and a method, from the residuals of its pool; `without` leaves one pair out.

    Where the kind has too few pairs and the pool is of all kinds, it is at least the largest miss of the kind's own.
    """
    pool, places = pool_of(kind, method, evidence)
    places = [place for place in places if place != without]
    own = [place for place, pair in enumerate(evidence) if pair.raw.kind == kind and place != without]
    few = own if len(own) < LEAST_POOL else []
    return Spread(
        _at_least(half_interval_90(residuals.log_retention[places]), residuals.log_retention[few]),
        _at_least(half_interval_90(residuals.yield_g_per_g[places]), residuals.yield_g_per_g[few]),
        len(places),
        pool,
    )


def _at_least(half_interval: float, misses: FloatArray) -> float:
    return max([half_interval, *(abs(float(miss)) for miss in misses)])
