"""The dish with candidates in place of what is left out of it, as a dish to be made anew.

What stands in is taken into the base dish, in as much as stands for the item, so that the plan keeps to that amount
unless something else has to hold. How far it may be from it is our choice: from half to twice as much, and a fifth
less to a quarter more of what binds, since twice the gelatine is rubber and half of it is soup.
"""

from collections.abc import Sequence
from dataclasses import replace
from typing import TypeAlias

from solver.brief import Brief
from solver.closest import BaseAmount
from solver.joining import door, joined
from solver.numerics import PRINTED_STEP_G
from solver.pantry import PantryItem
from solver.rework import ReworkAsked
from solver.rework_fixes import Fix
from solver.rework_said import Said, Says
from solver.roles import Role
from solver.substitutes_candidates import Candidate
from solver.substitutes_suited import LeftOut

#: The least and the most of what stands in, as parts of what stands for the item; of what binds, and of all else.
BINDER_PARTS = (0.8, 1.25)
PARTS = (0.5, 2.0)

#: What is left out, and what stands in for it.
Pair: TypeAlias = tuple[LeftOut, Candidate]


def replaced(asked: ReworkAsked, fix: Fix | None, pairs: Sequence[Pair]) -> ReworkAsked | None:
    """The dish with each candidate where its item was.

    None where there is too little of one, where no group of the brief can tell whether it is of it, and where one
    stands in twice.
    """
    if len({candidate.item.name for _, candidate in pairs}) < len(pairs):
        return None
    found: ReworkAsked | None = asked
    for left, candidate in pairs:
        found = None if found is None else _replaced(found, fix, left, candidate)
    return found


def _replaced(asked: ReworkAsked, fix: Fix | None, left: LeftOut, candidate: Candidate) -> ReworkAsked | None:
    name, gone, factor = candidate.item.name, left.item.name, candidate.suited.grams_per_gram
    amounts = [BaseAmount(name, use.component, _printed(factor * use.grams)) for use in left.uses]
    item = _limited(candidate, sum(each.grams for each in amounts))
    brief = None if item is None else _with(asked, fix, item, is_pantry=candidate.is_pantry)
    if brief is None:
        return None
    own = Said(f"{gone} replaced", Says.INSTEAD, frozenset({gone}), left.component, instead=frozenset({name}))
    base = replace(asked.base, amounts=(*asked.base.amounts, *amounts))
    return replace(asked, brief=replace(brief, base=base), said=(*asked.said, own))


def _with(asked: ReworkAsked, fix: Fix | None, item: PantryItem, *, is_pantry: bool) -> Brief | None:
    """The brief with an item, which may be one of its own that was held back."""
    brief, name = asked.brief, item.name
    if is_pantry:
        pantry = tuple(item if each.name == name else each for each in brief.pantry)
        out, held = brief.leave_out - {name}, brief.only_if_needed - {name}
        return replace(brief, pantry=pantry, leave_out=out, only_if_needed=held)
    is_taken = any(each.name == name for each in brief.pantry)
    return None if is_taken or not door(asked.posed(fix))(item) else joined(brief, [item])


def _limited(candidate: Candidate, stands_for_g: float) -> PantryItem | None:
    """About as much as stands for the item; None where its own limits allow none of that."""
    item = candidate.item
    fewest, most = BINDER_PARTS if candidate.suited.role is Role.BINDER else PARTS
    limits = [limit for limit in (item.on_hand_g, item.at_most_g) if limit is not None]
    low, high = max(item.at_least_g, fewest * stands_for_g), min([*limits, most * stands_for_g])
    return replace(item, at_least_g=low, at_most_g=high) if low <= high else None


def _printed(grams: float) -> float:
    """To what is printed, at least one step of it."""
    return max(round(grams, 1), PRINTED_STEP_G)
