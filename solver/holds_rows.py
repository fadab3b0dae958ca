"""The worst case of a row over every composition that a brief has to hold within.

Amounts are never negative, so the least that a row can come to is a change of its coefficients: each column of each
item at its adverse end. Energy is taken apart into the macronutrients that it comes from, so that the columns of one
row move apart from each other, and the worst case is exact.

A pan with a column is no sum over its items: with weights w, rendered fat D = max_k line_k and its weight p, the row
is an end of w + p line_k. It can fall by no more than each item's greatest fall over the lines and the ends of fat and
protein, which is what is taken off: a safe bound, never too little. So is the ratio of a fatty acid or cholesterol
to rendered fat at its worst end. A pan that the scale has settled moves as a whole, by a number.
"""

from collections.abc import Iterator, Mapping
from dataclasses import replace

import numpy as np

from solver.as_eaten import COLUMNS, PLACE, SLICE_COLUMNS, rendered
from solver.board import Board
from solver.brief import Brief, EnergyBasis
from solver.cooked import CookedComponent
from solver.holds_cooking import half_kept_g, half_kept_g_per_g
from solver.holds_ways import ways_off
from solver.numerics import FloatArray
from solver.pans import Pan
from solver.posed import posed
from solver.targets import WeightBasis

#: What goes with the fat of an item as it is.
_WITH_FAT = ("fat_g", SLICE_COLUMNS["fat"])


def worst_posed(
    board: Board, counts: Mapping[str, float], basis: WeightBasis, brief: Brief
) -> Iterator[tuple[FloatArray, FloatArray, float]]:
    """As `posed`, of the worst composition, and what a settled pan may take off besides: once for each way to be off.

    counts: column of `as_eaten` to what it counts in a row that has to reach something.
    """
    if not board.corners:
        yield *posed(board, counts, basis), 0.0
        return
    uses, off, pans, constant = _stated_and_off(board, counts, basis, brief)
    for items in ways_off(len(board.by_item), None if brief.holds is None else brief.holds.most_off):
        moved = [use for item in items for use in board.by_item[item]]
        weights = uses.copy()
        weights[moved] -= off[moved]
        yield weights, pans, constant


def _stated_and_off(
    board: Board, counts: Mapping[str, float], basis: WeightBasis, brief: Brief
) -> tuple[FloatArray, FloatArray, FloatArray, float]:
    """Weights of the uses as stated, what each can fall by, weights of the pans, and what a settled pan takes off."""
    wanted = _taken_apart(counts, brief)
    if basis is WeightBasis.RAW:
        uses, pans = posed(board, wanted, basis)
        return uses, _fall(board.raw, [corner.raw for corner in board.corners], wanted), pans, 0.0
    uses, pans = posed(replace(board, pans=_with_all_sources(board)), wanted, basis)
    off = _fall(board.eaten, [corner.eaten for corner in board.corners], wanted)
    served = _fall(board.raw, [corner.raw for corner in board.corners], wanted)
    constant = 0.0
    for number, pan in enumerate(board.pans):
        of_pan = [corner.pans[number] for corner in board.corners]
        if pan.has_column:
            weight = float(pans[number])
            off[pan.members] = _fall_in(board, pan, of_pan, wanted, weight)
            if pan.settled is None:
                uses[pan.members] -= abs(weight) * half_kept_g_per_g(pan.component, brief.holds)
            else:
                constant += _settled_fall(pan.settled, of_pan, weight)
                constant += abs(weight) * half_kept_g(pan.component, pan.settled.raw_g, brief.holds) / 100
        elif pan.spoon is not None:
            # With less fat run out than is spooned back, all of it is eaten.
            off[pan.members] = np.maximum(off, served)[pan.members]
    return uses, off, pans, constant


def _taken_apart(counts: Mapping[str, float], brief: Brief) -> dict[str, float]:
    wanted = dict(counts)
    if brief.energy_basis is not EnergyBasis.DECLARED and "basis_energy_kcal" in wanted:
        weight = wanted.pop("basis_energy_kcal")
        for name in SLICE_COLUMNS.values():
            wanted[name] = wanted.get(name, 0.0) + weight
    return wanted


def _fall(stated: FloatArray, moved: list[FloatArray], wanted: Mapping[str, float]) -> FloatArray:
    """The most that each use's weight can fall, (uses,), each column at its worst end."""
    off = np.zeros(len(stated))
    for name, weight in wanted.items():
        place = PLACE[name]
        off += np.max([weight * (stated[:, place] - end[:, place]) for end in moved], axis=0, initial=0.0)
    return off


def _with_all_sources(board: Board) -> tuple[Pan, ...]:
    pans = []
    for number, pan in enumerate(board.pans):
        held = [_each_source(at, at.pans[number]) for at in (board, *board.corners)]
        sources = np.vstack([pan.sources, *held])
        pans.append(replace(pan, sources=sources))
    return tuple(pans)


def _each_source(board: Board, pan: Pan) -> FloatArray:
    """What 100 g of rendered fat take along; of a settled pan by item: only its composition decides the mixture."""
    if pan.settled is None:
        return pan.sources
    raw = board.raw[pan.members]
    rows = [100 * rendered(row) / row[PLACE["fat_g"]] for row in raw if row[PLACE["fat_g"]] > 0]
    return np.array(rows).reshape(-1, len(COLUMNS))


def _fall_in(board: Board, pan: Pan, moved: list[Pan], wanted: Mapping[str, float], weight: float) -> FloatArray:
    """The most that the members of a pan with a column can take off, (members,)."""
    apart = {name: value for name, value in wanted.items() if name not in _WITH_FAT}
    members = pan.members
    off = _fall(board.eaten[members], [corner.eaten[members] for corner in board.corners], apart)
    together = np.zeros(len(members))
    for corner, its_pan in zip(board.corners, moved, strict=True):
        of_fat = sum(
            (wanted.get(name, 0.0) * (board.eaten - corner.eaten)[members, PLACE[name]] for name in _WITH_FAT),
            np.zeros(len(members)),
        )
        lines = np.zeros((1, len(members)))
        if pan.settled is None:
            lines = np.vstack([lines, pan.lines - its_pan.lines])
        together = np.maximum(together, (of_fat + weight * lines).max(axis=0))
    return off + together


def _settled_fall(settled: CookedComponent, moved: list[Pan], weight: float) -> float:
    rendered = [each.settled.rendered_g for each in moved if each.settled is not None]
    return max((weight * (settled.rendered_g - grams) / 100 for grams in rendered), default=0.0)
