"""A rule's band as linear rows over the uses.

With weights u of its group and v of the other over raw grams q:  (u - lower v) @ q >= 0  and  (upper v - u) @ q >= 0;
without another group, u @ q against the ends themselves. Shares of energy have rows of their own (`rule_shares`).
"""

import numpy as np

from solver.bands import Side
from solver.board import Board
from solver.brief import Brief
from solver.cook import cooked_part
from solver.numerics import FloatArray
from solver.pans import Pan
from solver.rule_shares import share_sides, share_whole_kcal
from solver.rules import By, Group, Rule, counted_g
from solver.uses import Use

#: What a ratio's miss is normalised with: so much of the second group in a portion, g (our choice).
TYPICAL_G = 100.0


def rule_sides(rule: Rule, board: Board, brief: Brief) -> tuple[Side, ...]:
    """The one or two sides of a rule's band."""
    if rule.by is By.ENERGY_SHARE:
        return share_sides(rule, board, brief)
    of = _weights(rule.of, rule.by, board)
    to = None if rule.to is None else _weights(rule.to, rule.to_by, board)
    found = []
    for bound, is_lower in ((rule.lower, True), (rule.upper, False)):
        if bound is not None:
            sign = 1.0 if is_lower else -1.0
            weights = of if to is None else of - bound * to
            least = bound if to is None else 0.0
            normaliser = max(bound, 0.01) * (1.0 if to is None else TYPICAL_G * brief.portions)
            pans = np.zeros(len(board.pans))
            found.append(Side(rule, is_lower, sign * weights * 100, pans, sign * least, normaliser))
    return tuple(found)


def _weights(group: Group, by: By, board: Board) -> FloatArray:
    """What counts per g of each use, (uses,)."""
    inside = np.array([not use.is_spoon and group.holds(use.item.name, use.component.name) for use in board.uses])
    each = _eaten(board) if by is By.AS_EATEN_MASS else np.array([_weight(by, use) for use in board.uses])
    return np.where(inside, each, 0.0)


def _weight(by: By, use: Use) -> float:
    step = use.item.step
    if by is By.PIECES:
        return 0.0 if step is None else step.amount / step.grams
    return counted_g(use.item.food, by)


def _eaten(board: Board) -> FloatArray:
    """G as eaten per g raw of each use, (uses,), drippings apart. No group holds a part of what was weighed."""
    each = np.ones(len(board.uses))
    for pan in board.pans:
        each[pan.members] = _of_pan(pan, board)
    return each


def _of_pan(pan: Pan, board: Board) -> list[float]:
    settled = pan.settled
    if settled is not None and (pan.component.is_mix or pan.component.cooked_g is not None):
        part = settled.cooked_g / settled.raw_g if settled.raw_g > 0 else 1.0
        return [part] * len(pan.members)
    fat_of = zip(pan.members, pan.fat, strict=True)
    return [cooked_part(pan.component, float(fat), board.uses[n].placed) for n, fat in fat_of]


def rule_whole(rule: Rule, sign: float, board: Board, grams100: FloatArray, rendered100: FloatArray) -> float:
    """What a row's miss is divided by to be in the unit of the band. sign: 1 of a lower end, -1 of an upper one.

    grams100: (uses,), rendered100: (pans,), in units of 100 g.
    """
    if rule.by is By.ENERGY_SHARE:
        return share_whole_kcal(sign, board, grams100, rendered100) / 100
    return 1.0 if rule.to is None else 100 * float(_weights(rule.to, rule.to_by, board) @ grams100)
