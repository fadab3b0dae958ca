"""The board: every use of every item that counts, and what 100 g of it weighs in with and brings to the plate."""

from dataclasses import dataclass, replace

import numpy as np

from solver.as_eaten import COLUMNS, PLACE, as_eaten
from solver.brief import Brief
from solver.holds_ends import corners, counted_at
from solver.missing import Counted
from solver.mixtures import CAREFUL, Mixtures
from solver.numerics import FloatArray
from solver.pans import Pan, pans_of
from solver.uses import Use, uses_of


@dataclass(frozen=True, slots=True, eq=False)
class Board:
    """uses: in column order. raw, eaten: (uses, len(COLUMNS)), per 100 g; zero for spoons, which their pan describes.

    by_item: for each item that counts, the numbers of its uses. hopeful: as of Mixtures.
    corners: the same board at each end of what the brief has to hold within; none where it has to hold as stated.
    """

    uses: tuple[Use, ...]
    raw: FloatArray
    eaten: FloatArray
    pans: tuple[Pan, ...]
    by_item: tuple[tuple[int, ...], ...]
    hopeful: bool = False
    corners: tuple["Board", ...] = ()

    @property
    def spoons(self) -> range:
        """Numbers of the uses that are drippings spooned back; they come last."""
        first = len(self.uses)
        while first and self.uses[first - 1].is_spoon:
            first -= 1
        return range(first, len(self.uses))


def board_of(brief: Brief, counted: Counted, mixtures: Mixtures = CAREFUL) -> Board:
    """Lay out the items that count."""
    parts = sorted(brief.parts, key=lambda part: part.name)  # so that their order in a brief never matters
    uses = uses_of(counted.items, parts)
    raw = _raw(uses, counted)
    pans = tuple(_mixed(pan, mixtures) for pan in pans_of(parts, uses, raw))
    return Board(
        uses=uses,
        raw=raw,
        eaten=_eaten(uses, raw, pans),
        pans=pans,
        by_item=_by_item(uses, counted),
        hopeful=mixtures.hopeful,
        corners=_corners(brief, counted, mixtures),
    )


def _raw(uses: tuple[Use, ...], counted: Counted) -> FloatArray:
    numbers = [use.number for use in uses if use.number is not None]
    if len(uses) == len(numbers) == len(counted.items):
        return counted.matrix  # each item has one use, in its place
    return np.vstack((counted.matrix[numbers], np.zeros((len(uses) - len(numbers), len(COLUMNS)))))


def _by_item(uses: tuple[Use, ...], counted: Counted) -> tuple[tuple[int, ...], ...]:
    if len(uses) == len(counted.items):
        return tuple(zip(range(len(uses)), strict=True))
    by_item: list[list[int]] = [[] for _ in counted.items]
    for n, use in enumerate(uses):
        if use.number is not None:
            by_item[use.number].append(n)
    return tuple(map(tuple, by_item))


def _corners(brief: Brief, counted: Counted, mixtures: Mixtures) -> tuple[Board, ...]:
    if brief.holds is None:
        return ()
    stated = replace(brief, holds=None)
    return tuple(board_of(stated, counted_at(brief, counted, corner), mixtures) for corner in corners(brief.holds))


def _mixed(pan: Pan, mixtures: Mixtures) -> Pan:
    given = mixtures.given.get(pan.component.name)
    return pan if given is None or pan.settled is not None else replace(pan, sources=given)


def _eaten(uses: tuple[Use, ...], raw: FloatArray, pans: tuple[Pan, ...]) -> FloatArray:
    if not pans:
        return raw
    eaten = raw.copy()
    for pan in pans:
        for n in pan.members:
            eaten[n] = as_eaten(raw[n], pan.component, uses[n].placed)
        if pan.settled is not None and pan.settled.raw_g > 0:
            # From each gram alike: the steam, and with a column of its own, which gives it back, the rendered fat.
            rendered_g = pan.settled.rendered_g if pan.has_column else 0.0
            gone = 100 * (pan.settled.evaporated_g + rendered_g) / pan.settled.raw_g
            eaten[pan.members, PLACE["water_g"]] = raw[pan.members, PLACE["water_g"]] - gone
    return eaten
