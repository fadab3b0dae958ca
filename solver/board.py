"""The board: every use of every item that counts, and what 100 g of it weighs in with and brings to the plate."""

from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np

from solver.as_eaten import COLUMNS, PLACE, as_eaten
from solver.brief import Brief
from solver.holds_ends import corners, counted_at
from solver.missing import Counted
from solver.mixtures import CAREFUL, Mixtures
from solver.numerics import FloatArray
from solver.pans import Pan, pans_of
from solver.uses import Use, uses_of


@dataclass(frozen=True, eq=False)  # without slots, so that what stands where is worked out once, if it is asked for
class Board:
    """uses: in column order. raw, eaten: (uses, len(COLUMNS)), per 100 g; zero for spoons, which their pan describes.

    items: how many count. hopeful: as of Mixtures.
    corners: the same board at each end of what the brief has to hold within; none where it has to hold as stated.
    """

    uses: tuple[Use, ...]
    raw: FloatArray
    eaten: FloatArray
    pans: tuple[Pan, ...]
    items: int
    hopeful: bool = False
    corners: tuple["Board", ...] = ()

    @property
    def is_one_each(self) -> bool:
        """Whether each item has one use, in its own place, and nothing is spooned back."""
        return len(self.uses) == self.items

    @cached_property
    def by_item(self) -> tuple[tuple[int, ...], ...]:
        """For each item, the numbers of its uses."""
        by_item: list[list[int]] = [[] for _ in range(self.items)]
        for n, use in enumerate(self.uses):
            if use.number is not None:
                by_item[use.number].append(n)
        return tuple(map(tuple, by_item))

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
        items=len(counted.items),
        hopeful=mixtures.hopeful,
        corners=_corners(brief, counted, mixtures),
    )


def _raw(uses: tuple[Use, ...], counted: Counted) -> FloatArray:
    if len(uses) == len(counted.items):
        return counted.matrix  # each item has one use, in its place
    numbers = [use.number for use in uses if use.number is not None]
    return np.vstack((counted.matrix[numbers], np.zeros((len(uses) - len(numbers), len(COLUMNS)))))


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
