"""The cooking tables as texts: CSV with LF, rounded to four places, empty where missing, the source last."""

import csv
import io
from collections.abc import Iterable, Iterator, Sequence
from math import exp, isfinite
from statistics import median

from reference_data.from_pairs.exclusions import why_excluded
from reference_data.from_pairs.leaving_out import Residuals, evidence_of, left_out, residuals_of, spread_of
from reference_data.from_pairs.matching import Pair, find_pairs
from reference_data.from_pairs.mixes import WIDENED, FittedMix, fit_mixes, mix_row
from reference_data.from_pairs.summary import summary
from solver.catalogue import Catalogue
from solver.cooking_curves import FEWEST_ROWS, fat_kept_g
from solver.cooking_estimate import LEAST_POOL, Evidence, log_retention
from solver.cooking_kinds import FAMILY

#: The id of the food table in sources.csv.
SOURCE = "sr28"

_PAIRS = (
    "raw food id",
    "cooked food id",
    "raw description",
    "cooked description",
    "kind",
    "method",
    "raw fat g",
    "yield g/g",
    "fat retention g/g",
    "fat retention as sampled g/g",
    "status",
    "reason",
)
_ESTIMATES = (
    "kind",
    "method",
    "yield g/g",
    "yield half-interval g/g",
    "fat retention g/g",
    "fat retention as sampled g/g",
    "fat retention factor g/g",
    "pairs of kind and method",
    "pairs of the value",
    "pairs of the interval",
    "pool of the interval",
    "remark",
)
_MIXES = (
    "mix",
    "method",
    "rows",
    "least fat g/g",
    "most fat g/g",
    "yield at no fat g/g",
    "yield lost per fat g/g",
    "yield half-interval g/g",
    "fat kept half-interval g/g",
    "remark",
)
_SEGMENTS = ("mix", "segment", "a g/g", "b gain g/g", "b loss g/g")
_MIX_ROWS = ("mix", "raw food id", "cooked food id", "fat g/g", "fat kept g/g", "fitted g/g")

_NO_PAIRS = "no pairs of this kind and method exist: estimated from the kind's nearest methods and widened by half"
_HOT_AIR = "no pairs with hot air exist: estimated from the oven methods and widened by half"
_FEW_ROWS = "too few rows for a curve: one share of the fat up to what the fattest row held, widened by half"
_STANDS_IN = "no rows with hot air exist: the broiled patty stands in, widened by half"


def all_tables(catalogue: Catalogue) -> dict[str, str]:
    """File name to content, for every file of the cooking table."""
    pairs = find_pairs(catalogue)
    usable = [pair for pair in pairs if not why_excluded(pair)]
    mixes = fit_mixes(usable)
    return {
        "pairs.csv": _csv(_PAIRS, map(_pair_cells, pairs)),
        "estimates.csv": _csv(_ESTIMATES, _estimate_rows([evidence_of(pair) for pair in usable])),
        "mixes.csv": _csv(_MIXES, map(_mix_cells, mixes)),
        "curves.csv": _csv(_SEGMENTS, (cells for mix in mixes for cells in _segment_rows(mix))),
        "curve_rows.csv": _csv(_MIX_ROWS, (cells for mix in mixes for cells in _fitted_rows(mix))),
        "README.md": summary(pairs),
    }


def _csv(header: Sequence[str], rows: Iterable[Sequence[str]]) -> str:
    stream = io.StringIO(newline="")
    writer = csv.writer(stream, lineterminator="\n")
    writer.writerow((*header, "source"))
    writer.writerows((*row, SOURCE) for row in rows)
    return stream.getvalue()


def _number(value: float) -> str:
    return f"{value:.4f}" if isfinite(value) else ""


def _pair_cells(pair: Pair) -> tuple[str, ...]:
    reason = why_excluded(pair)
    return (
        pair.raw.id,
        pair.cooked.id,
        pair.raw.name,
        pair.cooked.name,
        pair.kind,
        pair.method or "",
        _number(pair.raw.value("fat_g")),
        _number(pair.yield_g_per_g if reason else min(1.0, pair.yield_g_per_g)),
        _number(min(1.0, pair.fat_retention_g_per_g)),
        _number(pair.fat_retention_g_per_g),
        "excluded" if reason else "measured",
        reason or ("capped at 1: the samples differ" if pair.fat_retention_g_per_g > 1 else ""),
    )


def _estimate_rows(evidence: Sequence[Evidence]) -> Iterator[tuple[str, ...]]:
    residuals = residuals_of(evidence, left_out(evidence))
    for kind in sorted({pair.raw.kind for pair in evidence}):
        for method in FAMILY:
            like_it = _like_it(kind, method, evidence)
            if like_it:
                yield _estimate_cells(kind, method, like_it, evidence, residuals)


def _like_it(kind: str, method: str, evidence: Sequence[Evidence]) -> list[Evidence]:
    """The pairs that speak for a kind and method: its own, those of the family or, if they are enough, the kind's."""
    of_kind = [pair for pair in evidence if pair.raw.kind == kind]
    own = [pair for pair in of_kind if pair.method == method]
    of_family = [pair for pair in of_kind if FAMILY[pair.method] == FAMILY[method]]
    return own or of_family or (of_kind if len(of_kind) >= LEAST_POOL else [])


def _estimate_cells(
    kind: str, method: str, like_it: Sequence[Evidence], evidence: Sequence[Evidence], residuals: Residuals
) -> tuple[str, ...]:
    own = [pair for pair in like_it if pair.method == method]
    spread = spread_of(kind, method, evidence, residuals)
    factor = 1.0 if own else WIDENED
    retention = exp(median(log_retention(pair) for pair in like_it))
    return (
        kind,
        method,
        _number(min(1.0, median(pair.yield_g_per_g for pair in like_it))),
        _number(factor * spread.yield_g_per_g),
        _number(min(1.0, retention)),
        _number(retention),
        _number(exp(factor * spread.log_retention)),
        str(len(own)),
        str(len(like_it)),
        str(spread.pairs),
        spread.pool,
        "" if own else (_HOT_AIR if method == "hot air" else _NO_PAIRS),
    )


def _mix_cells(mix: FittedMix) -> tuple[str, ...]:
    fats = [mix_row(pair).fat for pair in mix.pairs]
    return (
        mix.form.name,
        "hot air" if mix.form.stands_in else mix.form.method,
        str(len(mix.pairs)),
        _number(min(fats)),
        _number(max(fats)),
        _number(mix.yield_at_no_fat),
        _number(max(0.0, -mix.yield_change)),
        _number(mix.yield_half),
        _number(mix.fat_kept_half),
        _remark(mix),
    )


def _remark(mix: FittedMix) -> str:
    if mix.form.stands_in:
        return _STANDS_IN
    if mix.yield_as:
        return f"all of one animal, so the weight's interval is that of the {mix.yield_as}, which has several"
    return "" if len(mix.pairs) >= FEWEST_ROWS else _FEW_ROWS


def _segment_rows(mix: FittedMix) -> Iterator[tuple[str, ...]]:
    for place, segment in enumerate(mix.segments, start=1):
        b = segment.b_g_per_g
        yield (mix.form.name, str(place), _number(segment.a_g_per_g), _number(max(b, 0.0)), _number(max(-b, 0.0)))


def _fitted_rows(mix: FittedMix) -> Iterator[tuple[str, ...]]:
    for pair in mix.pairs:
        row = mix_row(pair)
        fitted = fat_kept_g(mix.segments, 1.0, row.fat)
        yield (mix.form.name, pair.raw.id, pair.cooked.id, *map(_number, (row.fat, row.fat_kept, fitted)))
