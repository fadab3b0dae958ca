"""From how far the plate may be off to the answer that says so."""

from math import isinf

from service.schemas.plate_off import OffByAnswer, OffSourceAnswer, PlateOffAnswer, TotalsOffAnswer
from service.translate.numbers import rounded
from solver.plate_off import STATEMENT, PlateOff, Source, TotalsOff
from solver.plate_off_moves import OffBy


def to_plate_off(off: PlateOff) -> PlateOffAnswer:
    """As the contract has it."""
    return PlateOffAnswer(
        text=STATEMENT,
        batch=_totals(off.batch),
        portion=_totals(off.portion),
        fat_share_points=_maybe_off_by(off.fat_share_points),
        protein_share_points=_maybe_off_by(off.protein_share_points),
        carbohydrate_share_points=_maybe_off_by(off.carbohydrate_share_points),
        ketogenic_ratio=_maybe_off_by(off.ketogenic_ratio),
        sources=[_source(source) for source in off.sources],
        nothing_stated_for={name: list(items) for name, items in off.nothing_stated_for.items()},
    )


def _totals(off: TotalsOff) -> TotalsOffAnswer:
    return TotalsOffAnswer(
        grams=_off_by(off.grams),
        energy_kcal=_off_by(off.energy_kcal),
        energy_kj=_off_by(off.energy_kj),
        nutrients={name: _off_by(each) for name, each in off.values.items()},
    )


def _source(source: Source) -> OffSourceAnswer:
    return OffSourceAnswer(
        kind=source.kind.value,
        about=source.about,
        why=source.why,
        fat_share_points=_maybe_off_by(source.fat_share_points),
        energy_kcal=_off_by(source.energy_kcal),
    )


def _off_by(off: OffBy) -> OffByAnswer:
    return OffByAnswer(below=rounded(off.below), above=None if isinf(off.above) else rounded(off.above))


def _maybe_off_by(off: OffBy | None) -> OffByAnswer | None:
    return None if off is None else _off_by(off)
