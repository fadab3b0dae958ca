"""How far the cooking table is off: `python -m tests.benchmarks.bench_cooking`.

Each usable pair is left out and its cooked fat share (percent of 4-9-4 energy) estimated from all others. Wanted: a
median of at most 1.8 percentage points and a 90th percentile of at most 6.
"""

import sys
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import exp, isnan

import numpy as np

from reference_data import reference_folder
from reference_data.from_pairs.exclusions import why_excluded
from reference_data.from_pairs.leaving_out import evidence_of, left_out, residuals_of, spread_of
from reference_data.from_pairs.matching import Pair, find_pairs
from reference_data.from_pairs.mixes import FORMS, fit_mix, pairs_of
from solver.catalogue import load_catalogue
from solver.cooking_curves import FEWEST_ROWS, fat_kept_g
from solver.cooking_estimate import estimate
from solver.foods import Food

WORST = 10

#: The larger of the two reasons for an exclusion that look at the result; the other is unbreaded fried rows that
#: gained fat, which stay out here.
MISMATCH = "the samples do not match"

#: Words that grade or trim a cut without changing what it is.
GRADES = frozenset({"choice", "select", "all", "grades", "prime", '0"', '1/8"', '1/4"', "usda"})


@dataclass(frozen=True, slots=True)
class Guess:
    """Fat retention as estimated without the pair, and its stated 90 % interval."""

    retention: float
    low: float
    high: float


def fat_share(food: Food, retention: float = 1.0) -> float:
    """Percent of the 4-9-4 energy from fat, when this much of the fat is kept and all else stays."""
    fat = 9 * food.value("fat_g") * retention
    return 100 * fat / (4 * food.value("protein_g") + fat + 4 * food.value("total_carbohydrate_g"))


def guesses(pairs: Sequence[Pair]) -> list[Guess]:
    """What the product would say of each pair without it: the curve for a mix, else the estimate."""
    evidence = [evidence_of(pair) for pair in pairs]
    estimates = left_out(evidence)
    residuals = residuals_of(evidence, estimates)
    found = []
    for place, pair in enumerate(pairs):
        retention = estimates[place].fat_retention_g_per_g
        factor = exp(spread_of(pair.kind, evidence[place].method, evidence, residuals, without=place).log_retention)
        found.append(of_mix(pair, pairs) or Guess(retention, retention / factor, retention * factor))
    return found


def of_mix(pair: Pair, pairs: Sequence[Pair]) -> Guess | None:
    """By the curve of the other rows; None for what is no mix, or a mix of too few rows."""
    for form in FORMS:
        rows = pairs_of(form, pairs)
        if pair in rows and len(rows) >= FEWEST_ROWS:
            mix = fit_mix(form, [row for row in rows if row is not pair])
            fat = pair.raw.value("fat_g") / 100
            kept = fat_kept_g(mix.segments, 1.0, fat)
            return Guess(kept / fat, (kept - mix.fat_kept_half) / fat, (kept + mix.fat_kept_half) / fat)
    return None


def group_and_method(pairs: Sequence[Pair]) -> list[float]:
    """The baseline: the mean retention of the other pairs of the same food group and method."""
    means = []
    for pair in pairs:
        alike = [p for p in pairs if p is not pair and (p.raw.group, p.method) == (pair.raw.group, pair.method)]
        means.append(np.mean([p.fat_retention_g_per_g for p in alike or pairs]))
    return [float(mean) for mean in means]


def cut_of(pair: Pair) -> tuple[frozenset[str], str]:
    """The cut without grade and trim, for leaving out all its siblings."""
    return evidence_of(pair).raw.words - GRADES, pair.kind


def cut_left_out(pairs: Sequence[Pair]) -> list[float]:
    """The estimate without any pair of the same cut, whatever its grade, trim or method."""
    cuts = [cut_of(pair) for pair in pairs]
    evidence = [evidence_of(pair) for pair in pairs]
    return [
        estimate(
            own.raw, own.method, [e for e, other in zip(evidence, cuts, strict=True) if other != cut]
        ).fat_retention_g_per_g
        for own, cut in zip(evidence, cuts, strict=True)
    ]


def sibling_errors(pairs: Sequence[Pair]) -> list[float]:
    """The floor: the same cut and method in another grade or trim, its retention taken as it is; one error a pair."""
    errors = []
    for pair in pairs:
        same = [p for p in pairs if p is not pair and p.method == pair.method and cut_of(p) == cut_of(pair)]
        if same:
            errors.append(abs(fat_share(pair.raw, same[0].fat_retention_g_per_g) - fat_share(pair.cooked)))
    return errors


def errors_of(pairs: Sequence[Pair], retentions: Iterable[float]) -> list[float]:
    """Percentage points by which the cooked fat share is missed."""
    both = zip(pairs, retentions, strict=True)
    return [abs(fat_share(pair.raw, retention) - fat_share(pair.cooked)) for pair, retention in both]


def say(title: str, errors: Sequence[float]) -> None:
    """One line of the table."""
    numbers = f"{np.median(errors):5.2f} {np.percentile(errors, 90):6.2f}"
    sys.stdout.write(f"{title:<66} {numbers}  ({len(errors)})\n")


def say_coverage(pairs: Sequence[Pair], found: Sequence[Guess]) -> None:
    """How often the measured retention lies in the stated interval."""
    inside = [g.low <= pair.fat_retention_g_per_g <= g.high for pair, g in zip(pairs, found, strict=True)]
    half = [(fat_share(p.raw, g.high) - fat_share(p.raw, g.low)) / 2 for p, g in zip(pairs, found, strict=True)]
    sys.stdout.write(
        f"the stated 90 % interval holds the truth in {100 * np.mean(inside):.1f} % of {len(inside)}; "
        f"its half-width is {np.median(half):.1f} points in the median\n"
    )


def say_yields(pairs: Sequence[Pair]) -> None:
    """The same for yields, percentage points of the raw weight."""
    evidence = [evidence_of(pair) for pair in pairs]
    residuals = residuals_of(evidence, left_out(evidence))
    misses = np.abs(residuals.yield_g_per_g)
    stated = [
        spread_of(pair.raw.kind, pair.method, evidence, residuals, without=place).yield_g_per_g
        for place, pair in enumerate(evidence)
    ]
    say("yield, percentage points, each pair left out", list(100 * misses))
    inside = 100 * np.mean(misses <= stated)
    sys.stdout.write(f"the stated 90 % interval of the yield holds the truth in {inside:.1f} %\n")


def say_worst(pairs: Sequence[Pair], errors: Sequence[float]) -> None:
    """The largest misses by name."""
    for error, name in sorted(zip(errors, (pair.cooked.name for pair in pairs), strict=True), reverse=True)[:WORST]:
        sys.stdout.write(f"  {error:5.1f}  {name}\n")


def main() -> None:
    """Measure and print."""
    everything = find_pairs(load_catalogue(reference_folder() / "sr28"))
    usable = [pair for pair in everything if not why_excluded(pair)]
    whole = [p for p in everything if not isnan(fat_share(p.raw) + fat_share(p.cooked))]
    found = guesses(usable)
    ours = errors_of(usable, (guess.retention for guess in found))
    sys.stdout.write(f"error of the cooked fat share, percentage points{'':<19} median   90th\n")
    say("ours, each pair left out", ours)
    say("ours, capped at 1 as the optimiser uses it", errors_of(usable, (min(1.0, g.retention) for g in found)))
    say("ours, every pair of the same cut left out", errors_of(usable, cut_left_out(usable)))
    mended = [pair for pair in everything if not why_excluded(pair) or MISMATCH in why_excluded(pair)]
    say("ours, with the mismatched samples put back in", errors_of(mended, (g.retention for g in guesses(mended))))
    say("baseline: raw taken as eaten", errors_of(usable, [1.0] * len(usable)))
    say("baseline: mean of group and method, each pair left out", errors_of(usable, group_and_method(usable)))
    say("baseline: raw taken as eaten, all crude pairs", errors_of(whole, [1.0] * len(whole)))
    true = [min(1.0, pair.fat_retention_g_per_g) for pair in usable]
    say("floor of the cap: the true retention, capped at 1", errors_of(usable, true))
    say("floor of the samples: same cut and method, other grade or trim", sibling_errors(usable))
    say_coverage(usable, found)
    say_yields(usable)
    sys.stdout.write("the worst, by name:\n")
    say_worst(usable, ours)


if __name__ == "__main__":
    main()
