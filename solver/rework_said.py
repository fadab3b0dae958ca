"""What the cook says of a dish after tasting, as rules and choices of a brief.

How much each word asks for is our choice: what is less than about a fifth more or less is hardly tasted (common
practice, no source), so "more" is at least a fifth more and "less" at least a fifth less, and a factor such as "about
half as much" leaves a fifth of the amount it names on either side.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from enum import Enum

from solver.choices import Choice
from solver.closest import Base, UseName
from solver.numerics import PRINTED_STEP_G
from solver.rules import Group, Rule

#: The least that "more" asks for, and the most that "less" leaves, as parts of what there was.
MORE, LESS = 1.2, 0.8

#: What "about" leaves on either side of a factor, as a part of the amount that it names.
ABOUT = 0.2

#: What "more" asks for of what is not in the dish, g for each portion.
LEAST_NEW_G = 1.0


class Says(Enum):
    """The kinds of things a cook says."""

    MORE = "more"
    LESS = "less"
    ABOUT = "about"
    KEEP = "keep"
    LEAVE_OUT = "leave out"
    INSTEAD = "use instead"


@dataclass(frozen=True, slots=True)
class Said:
    """One thing said of one item, or of a group.

    id: unique among what is said, rules, choices and targets. component: None for all that they go into.
    factor: of "about", what there shall be as a part of what there was; None otherwise.
    instead: items of which at least one is used in place of these; empty otherwise.
    """

    id: str
    says: Says
    items: frozenset[str]
    component: str | None = None
    factor: float | None = None
    instead: frozenset[str] = frozenset()

    def speaks_of(self, use: UseName) -> bool:
        """Whether it is about a use, or about what comes in place of it."""
        return use[0] in self.instead or (use[0] in self.items and self.component in {None, use[1]})

    def asks_for(self, use: UseName, before_g: float, after_g: float) -> bool:
        """Whether it asked for this change."""
        if not self.speaks_of(use):
            return False
        is_more = self.says is Says.MORE or (self.factor or 0.0) > 1 or use[0] in self.instead
        return after_g > before_g if is_more else after_g < before_g


def group_g(said: Said, base: Base) -> float:
    """What there was of it, g."""
    return sum(
        each.grams for each in base.amounts if Group(said.items, said.component).holds(each.item, each.component)
    )


def band_g(said: Said, base: Base, portions: int) -> tuple[float | None, float | None]:
    """The least and most of the group that it asks for, g; None for an open side."""
    there = group_g(said, base)
    match said.says:
        case Says.MORE:
            return (there * MORE or LEAST_NEW_G * portions, None)
        case Says.LESS:
            return (None, there * LESS)
        case Says.ABOUT:
            wanted = there * (said.factor or 1.0)
            return (wanted * (1 - ABOUT), wanted * (1 + ABOUT))
        case _:
            return (None, 0.0)


def rules_of(said: Said, base: Base, portions: int) -> Iterator[Rule]:
    """The rules that it is."""
    if said.says is Says.KEEP:
        yield from _kept(said, base)
        return
    lower, upper = band_g(said, base, portions)
    yield Rule(said.id, Group(said.items, said.component), lower=lower, upper=upper)


def choices_of(said: Said) -> Iterator[Choice]:
    """The choice that it is, where something is used instead."""
    if said.says is Says.INSTEAD:
        yield Choice(f"{said.id}, one of these", said.instead, lower=1)


def as_it_was(identifier: str, use: UseName, grams: float) -> Rule:
    """A rule that holds a use at an amount, to what is printed."""
    item, component = use
    lower = max(grams - PRINTED_STEP_G, 0.0)
    return Rule(identifier, Group(frozenset({item}), component), lower=lower, upper=grams + PRINTED_STEP_G)


def _kept(said: Said, base: Base) -> Iterator[Rule]:
    """One rule for each use, so that nothing moves from one component to another either."""
    there = [each for each in base.amounts if said.speaks_of(each.use)]
    several = len(there) > 1
    for each in there:
        called = f"{said.id}: {each.item} in {each.component}" if several else said.id
        yield as_it_was(called, each.use, each.grams)
