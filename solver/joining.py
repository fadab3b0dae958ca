"""A brief with more in its pantry: its rules and choices count what is new as they count what was there."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace

from solver.brief import Brief
from solver.choices import Choice, Then
from solver.joins import Joins
from solver.pantry import PantryItem
from solver.rules import By, Group, Rule

#: Pairs of items of one choice that a search over many foods poses; a choice of more is left to the plan (our choice).
MOST_PAIRS = 2000


def door(brief: Brief) -> Callable[[PantryItem], bool]:
    """Who may join: of whom every group can tell if it is of it, and whom every rule that counts it knows how to count.

    An item that is not counted out in pieces is barred where a rule counts pieces of its kind.
    """
    every = _all_joins(brief)
    pieces = [rule.of.joins for rule in brief.rules if rule.by is By.PIECES]

    def may_join(item: PantryItem) -> bool:
        return all(joins(item) is not None for joins in every) and not any(joins(item) for joins in pieces)

    return may_join


def joined(brief: Brief, items: Sequence[PantryItem]) -> Brief:
    """The brief with these items in its pantry, in each group of its rules and choices that they belong to."""
    return replace(
        brief,
        pantry=(*brief.pantry, *items),
        rules=tuple(_rule(rule, items) for rule in brief.rules),
        choices=tuple(_choice(choice, items) for choice in brief.choices),
    )


def joined_for_search(brief: Brief, items: Sequence[PantryItem]) -> Brief:
    """As `joined`, where no more than one of the items is ever used: no pairs of them are spoken of.

    Where a choice still has too many pairs it stays as it is, which makes a bound lower, never wrong.
    """
    wide, of_pairs = joined(brief, items), [choice for choice in brief.choices if choice.then is Then.NONE_OF]
    rest = (choice for choice in wide.choices if choice.then is not Then.NONE_OF)
    return replace(wide, choices=(*rest, *of_pairs, *(each for choice in of_pairs for each in _pairs(choice, items))))


def _pairs(choice: Choice, items: Sequence[PantryItem]) -> Iterator[Choice]:
    """What a choice of pairs says of each new item and those that were there."""
    new = _joining(choice.joins, items), _joining(choice.others_join, items)
    if len(new[0]) * len(choice.others) + len(choice.items) * len(new[1]) <= MOST_PAIRS:
        yield replace(choice, items=new[0])
        yield replace(choice, others=new[1])


def _all_joins(brief: Brief) -> list[Joins]:
    of_rules = [group.joins for rule in brief.rules for group in (rule.of, rule.to) if group is not None]
    return of_rules + [joins for choice in brief.choices for joins in (choice.joins, choice.others_join)]


def _rule(rule: Rule, items: Sequence[PantryItem]) -> Rule:
    return replace(rule, of=_group(rule.of, items), to=None if rule.to is None else _group(rule.to, items))


def _group(group: Group, items: Sequence[PantryItem]) -> Group:
    return replace(group, items=group.items | _joining(group.joins, items))


def _choice(choice: Choice, items: Sequence[PantryItem]) -> Choice:
    others = choice.others | _joining(choice.others_join, items)
    return replace(choice, items=choice.items | _joining(choice.joins, items), others=others)


def _joining(joins: Joins, items: Sequence[PantryItem]) -> frozenset[str]:
    return frozenset(item.name for item in items if joins(item))
