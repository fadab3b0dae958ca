"""The band of a rule on the share of energy as linear rows.

With energy E of the group and T of the dish, both as eaten:  E - lower T >= 0  and  upper T - E >= 0.  Energy is
that of protein, fat, carbohydrate and alcohol on the brief's basis. What a pan loses is the group's where all that
gives fat in it is of the group, and the others' where none is. Where only some is, each row takes the worse for it.
"""

import numpy as np

from solver.as_eaten import SLICE_COLUMNS
from solver.bands import Side, energy_aim_kcal
from solver.board import Board
from solver.brief import Brief
from solver.numerics import BoolArray, FloatArray
from solver.pans import Pan
from solver.posed import guarded, posed
from solver.rules import Rule
from solver.targets import WeightBasis

_EATEN = WeightBasis.AS_EATEN


def share_sides(rule: Rule, board: Board, brief: Brief) -> tuple[Side, ...]:
    """The one or two sides of its band, in kcal of the batch."""
    ends = ((rule.lower, 1.0), (rule.upper, -1.0))
    return tuple(_side(rule, bound, sign, board, brief) for bound, sign in ends if bound is not None)


def share_whole_kcal(sign: float, board: Board, grams100: FloatArray, rendered100: FloatArray) -> float:
    """Energy of the dish as a row of this sign counts it, kcal. grams100: (uses,), rendered100: (pans,), in 100 g."""
    weights, pans = posed(board, _slices(-sign), _EATEN)
    return -sign * float(weights @ grams100 + pans @ rendered100)


def _slices(weight: float) -> dict[str, float]:
    return dict.fromkeys(SLICE_COLUMNS.values(), weight)


def _side(rule: Rule, bound: float, sign: float, board: Board, brief: Brief) -> Side:
    inside = np.array([not use.is_spoon and rule.of.holds(use.item.name, use.component.name) for use in board.uses])
    of_group, of_others = _slices(sign * (1 - bound / 100)), _slices(-sign * bound / 100)
    (uses, pans), (other_uses, other_pans) = (posed(board, counts, _EATEN) for counts in (of_group, of_others))
    weights = np.where(inside, uses, other_uses)
    is_split = False
    for number, pan in enumerate(board.pans):
        givers = _givers(pan, inside)
        is_split = is_split or bool(givers.any() and not givers.all())
        pans[number] = _whose(givers, pans[number], other_pans[number], hopeful=board.hopeful)
        if pan.spoon is not None:
            weights[pan.spoon] = _whose(givers, uses[pan.spoon], other_uses[pan.spoon], hopeful=board.hopeful)
    careful = any(guarded(board, counts, _EATEN) for counts in (of_group, of_others)) or is_split
    guard = careful and not board.hopeful
    return Side(rule, sign > 0, weights, pans, 0.0, energy_aim_kcal(brief), guard)


def _givers(pan: Pan, inside: BoolArray) -> BoolArray:
    """Of each item whose fat may run out in the pan and be lost, or come back, whether it is of the group."""
    if not pan.has_column and pan.spoon is None:
        return np.zeros(0, dtype=np.bool_)
    whole = pan.component.is_mix or pan.component.is_weighed
    return np.asarray(inside[pan.members[(pan.fat if whole else pan.own) > 0]], dtype=np.bool_)


def _whose(givers: BoolArray, of_group: float, of_others: float, *, hopeful: bool) -> float:
    if not givers.any():
        return of_others
    if givers.all():
        return of_group
    return max(of_group, of_others) if hopeful else min(of_group, of_others)
