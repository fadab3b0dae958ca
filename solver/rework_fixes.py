"""What mends a dish that is dry, greasy, salty or bland: where the fix goes, in the order in which a cook tries it.

The table `rework_fixes.csv` says it (common practice, no source). The place is found in the dish: a mix is a component
that is mixed and cooked; the pan is one whose drippings are spooned back; the sauce is what is not cooked. A dish
without components is mix and sauce at once. What is cooked in pieces takes nothing in, so it is mended beside.
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

#: What makes an emulsion stiffer, and at last breaks it, where there is more of it.
_THICKENS = frozenset({"fat"})


@dataclass(frozen=True, slots=True)
class FixRow:
    """One row of the table. factor: of what there was, at least (more) or at most (less).

    least_new_g: of what was not there, g for each portion.
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
    """One way to mend a dish. where: "mix", "pan", "sauce" or "everywhere"; component: None for more than one.

    uses: what it changes; none where each change has to be looked into. rules: what has to
    hold. teaspoons: component to the least and most of its drippings.
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
    """The fixes that the dish has a place for, in the order of the rows."""
    return tuple(fix for row in rows for fix in _fixes(row, brief, base, roles))


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
        return True
    return component.is_mix if where == "mix" else component.method is None


def _in_component(row: FixRow, component: Component, brief: Brief, base: Base, roles: RolesOf) -> Iterator[Fix]:
    wanted = _ROLES[row.of] - (_THICKENS if row.is_more and is_emulsion(component, brief, base) else frozenset())
    names = frozenset(
        item.name
        for item in brief.pantry
        if item.name not in brief.leave_out
        and any(placed.component == component.name for placed in item.placed)
        and wanted & set(roles(item.food))
    )
    uses = frozenset((name, component.name) for name in names)
    there = sum(each.grams for each in base.amounts if each.use in uses)
    if not names or (there <= 0 and not row.is_more):
        return
    least = there * row.factor if there > 0 else row.least_new_g * brief.portions
    lower, upper = (least, None) if row.is_more else (None, there * row.factor)
    rule = Rule(f"{row.reason}: {row.of} in {component.name}", Group(names, component.name), lower=lower, upper=upper)
    yield Fix(row, component.name, uses, (rule,))


def _spooned(row: FixRow, brief: Brief, base: Base) -> Iterator[Fix]:
    for part in brief.components:
        if part.drippings is not Drippings.SPOONED_BACK or part.method is None:
            continue
        use = (drippings_named(part.name), part.name)
        there = round(base.by_use[use].grams / SPOON_G) if use in base.by_use else 0
        if row.is_more:
            new = math.ceil(row.least_new_g * brief.portions / SPOON_G)
            least = max(math.ceil(there * row.factor), there + 1) if there else max(new, 1)
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
    share = Rule(f"{row.reason}: salt of all sources", every, By.SALT, every, upper=row.factor * total / whole)
    if row.of == "salt share":
        yield Fix(row, None, frozenset(), (share,))
        return
    uses = frozenset(use for use, grams in salt.items() if grams > 0 and _ROLES["salt"] & set(roles(foods[use[0]])))
    left = sum(salt[use] for use in uses) - (1 - row.factor) * total
    if uses:
        group = Group(frozenset(item for item, _ in uses))
        itself = Rule(f"{row.reason}: the salt itself", group, By.SALT, upper=max(left, 0.0))
        yield Fix(row, None, uses, (share, itself))
