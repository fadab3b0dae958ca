"""A rule's band as linear rows over the uses.

With weights u of its group and v of the other over raw grams q:  (u - lower v) @ q >= 0  and  (upper v - u) @ q >= 0;
without another group, u @ q against the ends themselves.
"""

import numpy as np

from solver.bands import Side
from solver.board import Board
from solver.brief import Brief
from solver.numerics import FloatArray
from solver.rules import By, Group, Rule, counted_g
from solver.uses import Use

#: What a ratio's miss is normalised with: so much of the second group in a portion, g (our choice).
TYPICAL_G = 100.0


def rule_sides(rule: Rule, board: Board, brief: Brief) -> tuple[Side, ...]:
    """The one or two sides of a rule's band."""
    missing = brief.count_missing_as.get("sodium_mg", 0.0)
    of = _weights(rule.of, rule.by, board, missing)
    to = None if rule.to is None else _weights(rule.to, By.RAW_MASS, board, missing)
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


def _weights(group: Group, by: By, board: Board, missing: float) -> FloatArray:
    """G counted per g of each use, (uses,)."""
    return np.array([_weight(group, by, use, missing) for use in board.uses])


def _weight(group: Group, by: By, use: Use, missing: float) -> float:
    if use.is_spoon or not group.holds(use.item.name, use.component.name):
        return 0.0
    return counted_g(use.item.food, by, missing)
