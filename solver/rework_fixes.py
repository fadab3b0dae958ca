"""What mends a dish that is dry, greasy, salty or bland: where the fix goes, in the order in which a cook tries it.

The table `rework_fixes.csv` says it (common practice, no source). The place is found in the dish: a mix is a component
that is mixed and cooked; the pan is one whose drippings are spooned back; the sauce is what is not cooked. A dish
without components is mix and sauce at once. What is cooked in pieces takes little in, so it is mended beside, and where
that cannot be, by what is put in with it: a stew is salted in its pot.
"""

import math
from collections.abc import Callable, Collection, Iterator, Mapping
from dataclasses import dataclass, replace
from math import isnan
from pathlib import Path
from typing import TypeAlias

from solver.brief import Brief
from solver.closest import Base, UseName
from solver.components import Component, Drippings
from solver.cook import SPOON_G
from solver.foods import Food
from solver.joins import all_join
from solver.rework_places import is_emulsion
from solver.rules import By, Group, Rule, counted_g
from solver.tables import read_table
from solver.uses import drippings_named

#: What a food does in a dish, by the words of the table: "fat", "rich", "moist", "liquid", "salt", "acid", "spice".
RolesOf: TypeAlias = Callable[[Food], Collection[str]]

_ROLES: Mapping[str, frozenset[str]] = {
    "fat": frozenset({"fat"}),
    "rich": frozenset({"rich"}),
    "fat and liquid": frozenset({"fat", "moist", "liquid"}),
    "salt": frozenset({"salt"}),
    "salt, acid and spice": frozenset({"salt", "acid", "spice"}),
}

#: The share of salt that may be left is in whole parts of so many, so that it can be read.
SHARE_PARTS = 100_000

#: Less than such a part of a component taken out of it is hardly tasted (our choice).
SLIGHT_PART = 0.01

#: What makes an emulsion stiffer, and at last breaks it, where there is more of it.
_THICKENS = frozenset({"fat"})


@dataclass(frozen=True, slots=True)
class FixRow:
    """One row of the table. factor: of what there was, at least (more) or at most (less).

    where: "mix", "pan" for its drippings, "sauce", "cooked" for what is cooked in pieces, or "everywhere".
    least_new_g: no less is added than that, g for each portion; but to an emulsion, which portions do not measure.
    """

    reason: str
    where: str
    of: str
    is_more: bool
    factor: float
    least_new_g: float
    what: str
    source: str


@dataclass(frozen=True, slots=True)
class Fix:
    """One way to mend a dish.

    component: None for more than one. uses: what it changes; none where each change has to be looked into. rules: what
    has to hold. teaspoons: component to the least and most of its drippings.
    """

    row: FixRow
    component: str | None
    uses: frozenset[UseName]
    rules: tuple[Rule, ...] = ()
    teaspoons: Mapping[str, tuple[int, int | None]] | None = None

    @property
    def text(self) -> str:
        """In words."""
        into = "" if self.component is None else f" ({self.component})"
        return f"{self.row.reason}: {self.row.what}{into}"

    def put_into(self, brief: Brief) -> Brief:
        """The brief that asks for it."""
        spooned = self.teaspoons or {}
        parts = tuple(
            replace(part, least_teaspoons=spooned[part.name][0], most_teaspoons=spooned[part.name][1])
            if part.name in spooned
            else part
            for part in brief.components
        )
        return replace(brief, components=parts, rules=(*brief.rules, *self.rules))


def load_fixes(path: Path) -> Mapping[str, tuple[FixRow, ...]]:
    """The table: reason to its rows, in order. Raises ReferenceDataError when it is missing or damaged."""
    table = read_table(path)
    texts = zip(*(table.texts(c) for c in ("reason", "where", "of", "more_or_less", "what", "source")), strict=True)
    found: dict[str, list[tuple[float, FixRow]]] = {}
    numbers = table.numbers(["order", "factor", "least_new_g_per_portion"])
    for (reason, where, of, way, what, source), (order, factor, new) in zip(texts, numbers, strict=True):
        least_new = 0.0 if isnan(new) else float(new)
        row = FixRow(reason, where, of, way == "more", float(factor), least_new, what, source)
        found.setdefault(reason, []).append((order, row))
    return {reason: tuple(row for _, row in sorted(rows, key=lambda each: each[0])) for reason, rows in found.items()}


def fixes_of(rows: Collection[FixRow], brief: Brief, base: Base, roles: RolesOf) -> tuple[Fix, ...]:
    """The fixes that the dish has a place for, in the order of the rows, but what is hardly tasted last."""
    found = (fix for row in rows for fix in _fixes(row, brief, base, roles))
    return tuple(sorted(found, key=lambda fix: _is_slight(fix, base)))


def _is_slight(fix: Fix, base: Base) -> bool:
    if fix.row.is_more or not fix.rules or fix.component is None:
        return False
    there = sum(each.grams for each in base.amounts if each.use in fix.uses)
    whole = sum(each.grams for each in base.amounts if each.component == fix.component)
    return (1 - fix.row.factor) * there < SLIGHT_PART * whole


def _fixes(row: FixRow, brief: Brief, base: Base, roles: RolesOf) -> Iterator[Fix]:
    if row.where == "everywhere":
        yield from _less_salt(row, brief, base, roles)
    elif row.where == "pan":
        yield from _spooned(row, brief, base)
    else:
        for component in brief.parts:
            if _is_place(component, row.where, brief) and not component.finished:
                yield from _in_component(row, component, brief, base, roles)


def _is_place(component: Component, where: str, brief: Brief) -> bool:
    if not brief.components:
        return where != "cooked"
    if where == "cooked":
        return component.method is not None and not component.is_mix
    return component.is_mix if where == "mix" else component.method is None


def _in_component(row: FixRow, component: Component, brief: Brief, base: Base, roles: RolesOf) -> Iterator[Fix]:
    groups = [(of, _names(wanted, component, brief, roles)) for of, wanted in _wanted(row, component, brief, base)]
    found = (_rule(row, of, Group(names, component.name), brief, base) for of, names in groups if names)
    rules = tuple(rule for rule in found if rule is not None)
    if rules:
        uses = frozenset((name, component.name) for rule in rules for name in rule.of.items)
        yield Fix(row, component.name, uses, rules)


def _wanted(row: FixRow, component: Component, brief: Brief, base: Base) -> Iterator[tuple[str, frozenset[str]]]:
    """What changes, in words and as roles: together, or each on its own.

    More of an emulsion beside what is cooked is more of its fat, and of the liquid that it has, so that it holds; one
    that is the dish itself is only thinned.
    """
    roles = _ROLES[row.of]
    if not (row.is_more and roles & _THICKENS and is_emulsion(component, brief, base)):
        yield row.of, roles
    elif any(part.method is not None for part in brief.components):
        yield "fat", _THICKENS
        yield "liquid", roles - _THICKENS
    else:
        yield row.of, roles - _THICKENS


def _names(wanted: frozenset[str], component: Component, brief: Brief, roles: RolesOf) -> frozenset[str]:
    return frozenset(
        item.name
        for item in brief.pantry
        if item.name not in brief.leave_out
        and any(placed.component == component.name for placed in item.placed)
        and wanted & set(roles(item.food))
    )


def _rule(row: FixRow, of: str, group: Group, brief: Brief, base: Base) -> Rule | None:
    """What has to hold of one group; None where there is none of it to change."""
    there = sum(each.grams for each in base.amounts if group.holds(each.item, each.component))
    called = f"{row.reason}: {of} in {group.component}"
    is_part = of != row.of
    if there <= 0 and (is_part or not row.is_more):
        return None
    if not row.is_more:
        return Rule(called, group, upper=there * row.factor)
    part = next(part for part in brief.parts if part.name == group.component)
    new = 0.0 if is_part or (there > 0 and is_emulsion(part, brief, base)) else row.least_new_g * brief.portions
    return Rule(called, group, lower=max(there * row.factor, there + new))


def _spooned(row: FixRow, brief: Brief, base: Base) -> Iterator[Fix]:
    for part in brief.components:
        if part.drippings is not Drippings.SPOONED_BACK or part.method is None:
            continue
        use = (drippings_named(part.name), part.name)
        there = round(base.by_use[use].grams / SPOON_G) if use in base.by_use else 0
        if row.is_more:
            new = max(math.ceil(row.least_new_g * brief.portions / SPOON_G), 1)
            least = max(math.ceil(there * row.factor), there + new)
            yield Fix(row, part.name, frozenset({use}), teaspoons={part.name: (least, None)})
        elif there:
            most = min(math.floor(there * row.factor), there - 1)
            yield Fix(row, part.name, frozenset({use}), teaspoons={part.name: (0, most)})


def _less_salt(row: FixRow, brief: Brief, base: Base, roles: RolesOf) -> Iterator[Fix]:
    """Salt of all sources to the raw dish: by less of the salt itself, as far as that goes, or however it may be."""
    missing = brief.count_missing_as.get("sodium_mg", 0.0)
    foods = {item.name: item.food for item in brief.pantry}
    there = [each for each in base.amounts if each.item in foods]
    whole = sum(each.grams for each in there)
    salt = {each.use: each.grams * counted_g(foods[each.item], By.SALT, missing) for each in there}
    total = sum(salt.values())
    if whole <= 0 or total <= 0:
        return
    every = Group(frozenset(foods), joins=all_join)
    most = math.floor(row.factor * total / whole * SHARE_PARTS) / SHARE_PARTS
    share = Rule(f"{row.reason}: salt of all sources", every, By.SALT, every, upper=most)
    if row.of == "salt share":
        yield Fix(row, None, frozenset(), (share,))
        return
    uses = frozenset(use for use, grams in salt.items() if grams > 0 and _ROLES["salt"] & set(roles(foods[use[0]])))
    left = sum(salt[use] for use in uses) - (1 - row.factor) * total
    if uses:
        group = Group(frozenset(item for item, _ in uses))
        itself = Rule(f"{row.reason}: the salt itself", group, By.SALT, upper=max(left, 0.0))
        yield Fix(row, None, uses, (share, itself))
