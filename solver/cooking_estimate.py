"""The estimate for a food without a pair of its own: a mean of the measured pairs, each weighed by its likeness.

Protein stays, so what a pair tells is how much of the raw fat is kept: y F_cooked / F_raw with y = P_raw / P_cooked.
The estimate is the weighted mean of its logarithm, since fat kept is a proportion. A pair counts the more, the more
words its name shares, the closer its raw fat, and if kind and family of method are the same.
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil, exp, log

import numpy as np

from solver.cooking_kinds import FAMILY
from solver.numerics import FloatArray

#: Exponents of the weight; round numbers, chosen once on the pairs themselves. A pair without a word in common counts
#: e^-6; twice the raw fat e^-1.4; another family of method e^-2; another kind e^-8: only when there is no other.
WORDS, RAW_FAT, OTHER_FAMILY, OTHER_KIND = 6.0, 2.0, 2.0, 8.0

#: Least fat, g per 100 g, whose logarithm is taken; below it the release prints too few digits.
LEAST_FAT_G = 0.1

#: A pool of fewer residuals than this has no 90th percentile of its own (n of 9 is the least that has one).
LEAST_POOL = 9

_SAYS_NOTHING = frozenset(
    {"and", "to", "the", "raw", "cooked", "meat", "products", "separable", "trimmed", "fat", "lean", "only"}
)


@dataclass(frozen=True, slots=True)
class Raw:
    """A raw food as the estimate sees it: the words of its name, its kind, and its fat, g per 100 g."""

    words: frozenset[str]
    kind: str
    fat_g: float


@dataclass(frozen=True, slots=True)
class Evidence:
    """A usable pair: the raw food, the method, and what the pair says; retention as sampled, so above 1 at times."""

    raw: Raw
    method: str
    yield_g_per_g: float
    fat_retention_g_per_g: float


@dataclass(frozen=True, slots=True)
class Estimate:
    """Yield and fat retention as sampled (uncapped), g per g."""

    yield_g_per_g: float
    fat_retention_g_per_g: float


def words_of(name: str) -> frozenset[str]:
    """The words of a name that tell foods apart."""
    return frozenset(re.findall(r'[a-z0-9/"%]+', name.lower())) - _SAYS_NOTHING


def estimate(raw: Raw, method: str, evidence: Sequence[Evidence]) -> Estimate:
    """What becomes of a raw food under a method, from at least one pair."""
    weights = np.array([_likeness(raw, method, pair) for pair in evidence])
    weights = np.exp(weights - weights.max())
    kept = _mean(weights, [log_retention(pair) for pair in evidence])
    return Estimate(_mean(weights, [pair.yield_g_per_g for pair in evidence]), exp(kept))


def log_retention(pair: Evidence) -> float:
    """The logarithm of the fat retention; of 0.01 where nothing is left."""
    return log(max(pair.fat_retention_g_per_g, 0.01))


def pool_of(kind: str, method: str, evidence: Sequence[Evidence]) -> tuple[str, list[int]]:
    """The pairs to judge an estimate by: a name and their places. The narrowest pool that is large enough."""
    family = FAMILY[method]
    of_kind = [place for place, pair in enumerate(evidence) if pair.raw.kind == kind]
    of_family = [place for place, pair in enumerate(evidence) if FAMILY[pair.method] == family]
    pools = (
        (f"{kind}; {method}", [place for place in of_kind if evidence[place].method == method]),
        (f"{kind}; {family} methods", sorted({*of_kind} & {*of_family})),
        (f"{kind}; all methods", of_kind),
        (f"all kinds; {family} methods", of_family),
    )
    large = (pool for pool in pools if len(pool[1]) >= LEAST_POOL)
    return next(large, ("all kinds; all methods", list(range(len(evidence)))))


def half_interval_90(residuals: Sequence[float] | FloatArray) -> float:
    """The half-interval that holds the next residual nine times in ten: the ceil(0.9 (n + 1))th smallest of n sizes.

    That rank is the split conformal one (Vovk, Gammerman and Shafer, 2005; from memory): it needs no law of errors.
    """
    sizes = sorted(abs(residual) for residual in residuals)
    return float(sizes[min(ceil(0.9 * (len(sizes) + 1)), len(sizes)) - 1])


def _likeness(raw: Raw, method: str, pair: Evidence) -> float:
    shared = len(raw.words & pair.raw.words) / max(len(raw.words | pair.raw.words), 1)
    ratio = log(max(raw.fat_g, LEAST_FAT_G) / max(pair.raw.fat_g, LEAST_FAT_G))
    other_family = FAMILY[method] != FAMILY[pair.method]
    other_kind = raw.kind != pair.raw.kind
    return -WORDS * (1 - shared) - RAW_FAT * abs(ratio) - OTHER_FAMILY * other_family - OTHER_KIND * other_kind


def _mean(weights: FloatArray, values: Sequence[float]) -> float:
    return float(np.average(values, weights=weights))
