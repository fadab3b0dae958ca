"""Which of the foods that a brief does not have would belong to a group, where a group is more than names.

A group of a rule or choice may be all items, a food group, or what has an allergen. A food that is proposed is counted
by it like what was there, or the proposal could break what was asked.
"""

from collections.abc import Callable
from typing import TypeAlias

from solver.pantry import PantryItem

#: Whether an item belongs to a group; None where nobody can say, and then it may not be proposed.
Joins: TypeAlias = Callable[[PantryItem], bool | None]


def nothing_joins(_: PantryItem) -> bool:
    """A group of names: nothing else is ever of it."""
    return False


def all_join(_: PantryItem) -> bool:
    """A group of everything."""
    return True
