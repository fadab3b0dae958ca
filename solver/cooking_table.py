"""The cooking table: what is left of a raw food or a mix, from which evidence, and how far it may be off."""

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from types import MappingProxyType

from solver.cooking_curves import Segment
from solver.cooking_estimate import Evidence, Raw, estimate, words_of
from solver.cooking_kinds import is_pumped, is_raw, kind_of
from solver.cooking_rows import CookingRow, FatCurve, MethodSpread
from solver.foods import Food
from solver.tables import Table, read_table

_MIX_NUMBERS = (
    "yield at no fat g/g",
    "yield lost per fat g/g",
    "yield half-interval g/g",
    "fat kept half-interval g/g",
    "least fat g/g",
    "most fat g/g",
    "rows",
)


@dataclass(frozen=True, slots=True)
class CookingTable:
    """All rows. measured: by raw food id; evidence: all usable pairs; spreads: by kind and method."""

    measured: Mapping[str, tuple[Evidence, ...]]
    evidence: tuple[Evidence, ...]
    spreads: Mapping[tuple[str, str], MethodSpread]
    curves: tuple[FatCurve, ...]
    source: str

    def applies_to(self, food: Food) -> tuple[CookingRow | FatCurve, ...]:
        """The curves, then the rows, for a raw food of the food table; none where `why_nothing` gives a reason."""
        if self.why_nothing(food) is not None:
            return ()
        raw = Raw(words_of(food.name), kind_of(food.name, food.group) or "", food.value("fat_g"))
        methods = [method for kind, method in self.spreads if kind == raw.kind]
        rows = [self._row(food, raw, method) for method in methods]
        return (*(curve for curve in self.curves if _is_of(curve, raw.kind)), *rows)

    def row(self, food: Food, method: str) -> CookingRow | None:
        """The row of a food under one method; None where there is none."""
        kind = kind_of(food.name, food.group) or ""
        if (kind, method) not in self.spreads or self.why_nothing(food) is not None:
            return None
        return self._row(food, Raw(words_of(food.name), kind, food.value("fat_g")), method)

    def why_nothing(self, food: Food) -> str | None:
        """Why no row applies to a food; None when some do."""
        kind = kind_of(food.name, food.group)
        if kind is None or not any(known == kind for known, _ in self.spreads):
            return "the table has no pairs of raw and cooked rows for this kind of food"
        if not is_raw(food.name):
            return "the description does not say that the food is raw"
        if is_pumped(food.name):
            return "pumped or cured meat: brine leaves first, so neither yield nor retention follows from the pairs"
        return "protein or fat is missing" if food.is_missing("fat_g") or food.is_missing("protein_g") else None

    def _row(self, food: Food, raw: Raw, method: str) -> CookingRow:
        spread = self.spreads[raw.kind, method]
        own = [pair for pair in self.measured.get(food.id, ()) if pair.method == method]
        guess = estimate(raw, method, self.evidence)
        kept = own[0].fat_retention_g_per_g if own else guess.fat_retention_g_per_g
        shrunk = own[0].yield_g_per_g if own else guess.yield_g_per_g
        return CookingRow(
            method=method,
            kind=raw.kind,
            measured=bool(own),
            yield_g_per_g=min(1.0, shrunk),
            yield_half_interval_g_per_g=spread.yield_half,
            fat_retention_g_per_g=min(1.0, kept),
            fat_retention_as_sampled_g_per_g=kept,
            fat_retention_low_g_per_g=min(1.0, kept / spread.factor),
            fat_retention_high_g_per_g=kept * spread.factor,
            pairs=spread.pairs,
            why="a raw and a cooked row of this very food" if own else spread.why,
            source=self.source,
        )


def load_cooking_table(folder: Path) -> CookingTable:
    """Read pairs, estimates, mixes and curves, all .csv. Raises ReferenceDataError for a missing or damaged table."""
    pairs = read_table(folder / "pairs.csv")
    usable = [place for place, status in enumerate(pairs.texts("status")) if status == "measured"]
    evidence = _evidence(pairs)
    ids = pairs.texts("raw food id")
    measured: dict[str, tuple[Evidence, ...]] = {}
    for place in usable:
        measured[ids[place]] = (*measured.get(ids[place], ()), evidence[place])
    return CookingTable(
        MappingProxyType(measured),
        tuple(evidence[place] for place in usable),
        MappingProxyType(_spreads(read_table(folder / "estimates.csv"))),
        _curves(read_table(folder / "mixes.csv"), read_table(folder / "curves.csv")),
        pairs.texts("source")[0],
    )


def _is_of(curve: FatCurve, kind: str) -> bool:
    of_sausage = "sausage" in curve.mix
    return (kind == "sausage" and of_sausage) or (kind == "mince" and not of_sausage)


def _evidence(pairs: Table) -> list[Evidence]:
    names, kinds, methods = (pairs.texts(column) for column in ("raw description", "kind", "method"))
    numbers = pairs.numbers(["raw fat g", "yield g/g", "fat retention as sampled g/g"])
    return [
        Evidence(Raw(words_of(name), kind, float(fat)), method, float(shrunk), float(kept))
        for name, kind, method, (fat, shrunk, kept) in zip(names, kinds, methods, numbers, strict=True)
    ]


def _spreads(table: Table) -> dict[tuple[str, str], MethodSpread]:
    counts = ("pairs of kind and method", "pairs of the value", "pairs of the interval")
    numbers = table.numbers(["yield half-interval g/g", "fat retention factor g/g", *counts])
    texts = (table.texts(column) for column in ("kind", "method", "pool of the interval", "remark"))
    spreads = {}
    for kind, method, pool, remark, row in zip(*texts, numbers, strict=True):
        half, factor, own, of_value, of_interval = map(float, row)
        why = (
            f"estimate from {of_value:.0f} pairs of {kind}, {own:.0f} of them {method}, each weighed by its likeness; "
            f"interval from {of_interval:.0f} pairs ({pool})"
        )
        spreads[kind, method] = MethodSpread(half, factor, int(own), f"{why}; {remark}" if remark else why)
    return spreads


def _curves(mixes: Table, curves: Table) -> tuple[FatCurve, ...]:
    segments: dict[str, tuple[Segment, ...]] = {}
    slopes = curves.numbers(["a g/g", "b gain g/g", "b loss g/g"])
    for mix, (a, gain, loss) in zip(curves.texts("mix"), slopes, strict=True):
        segments[mix] = (*segments.get(mix, ()), Segment(float(a), float(gain - loss)))
    texts = zip(*(mixes.texts(column) for column in ("mix", "method", "remark", "source")), strict=True)
    return tuple(
        _curve(mix, method, segments[mix], remark=remark, source=source, numbers=row)
        for (mix, method, remark, source), row in zip(texts, mixes.numbers(_MIX_NUMBERS).tolist(), strict=True)
    )


def _curve(
    mix: str, method: str, segments: tuple[Segment, ...], *, remark: str, source: str, numbers: list[float]
) -> FatCurve:
    at_no_fat, lost, yield_half, kept_half, least, most, rows = numbers
    return FatCurve(
        mix=mix,
        method=method,
        segments=segments,
        yield_at_no_fat_g_per_g=at_no_fat,
        yield_lost_per_fat_g_per_g=lost,
        yield_half_interval_g_per_g=yield_half,
        fat_kept_half_interval_g_per_g=kept_half,
        least_fat_g_per_g=least,
        most_fat_g_per_g=most,
        rows=int(rows),
        why=_why(int(rows), remark),
        source=source,
    )


def _why(rows: int, remark: str) -> str:
    fitted = f"curve fitted to {rows} pairs of raw and cooked rows"
    return f"{fitted}; {remark}" if remark else fitted
