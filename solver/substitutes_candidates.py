"""What is tried in place of an item that is left out: what is at home, then what the table names, then the likest.

At home is whatever the pantry has that the base dish has nothing of, also what is kept for need; what has to be bought
comes after it. Nothing is tried that the cook says is left out, or that goes where the item was not.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace

from solver.brief import Brief
from solver.closest import Base
from solver.components import Component, Placed
from solver.foods import Food
from solver.pantry import PantryItem, is_in_already
from solver.practical import Eligible
from solver.roles import unlikeness
from solver.substitutes_suited import LeftOut, Suited, is_same
from solver.substitutes_table import StandIns

#: Where a food goes: what cooking does to it there.
Place = Callable[[Food, Component], Placed]


@dataclass(frozen=True, slots=True, eq=False)
class Candidate:
    """item: with its places; in the pantry already where `is_pantry`. kind: one of each kind is proposed."""

    item: PantryItem
    suited: Suited
    kind: str
    is_pantry: bool

    @property
    def is_at_home(self) -> bool:
        """Whether nobody has to fetch it."""
        return self.is_pantry and not self.item.to_buy


@dataclass(frozen=True, slots=True, eq=False)
class Candidates:
    """base: that of the brief. gone: names of items that the cook leaves out."""

    brief: Brief
    base: Base
    gone: frozenset[str]
    eligible: Eligible
    stand_ins: StandIns
    place: Place

    def of(self, left: LeftOut) -> Iterator[Candidate]:
        """In the order in which they are tried; of the food table one of each kind that is not at home."""
        mine = sorted(self._pantry(left), key=lambda each: self._rank(left, each))
        yield from mine
        seen = {each.item.food.id for each in mine} | {item.food.id for item in self.brief.pantry}
        kinds = {kind for each in mine if (kind := self.stand_ins.kind_of(each.item.food)) is not None}
        for each in (*self._named(left), *self._likest(left)):
            if each.kind not in kinds and each.item.food.id not in seen and self._may(each.item.food):
                kinds.add(each.kind)
                yield each

    def _may(self, food: Food) -> bool:
        """Whether it may be proposed, and is not what is left out in another form."""
        out = (item.food for item in self.brief.pantry if item.name in self._barred())
        return self.eligible.allowed(food) and not any(is_same(food, other) for other in out)

    def _barred(self) -> frozenset[str]:
        return (self.gone | self.brief.leave_out) - self.brief.only_if_needed

    def _pantry(self, left: LeftOut) -> Iterator[Candidate]:
        wanted = {each.component for each in left.uses}
        barred = self._barred()
        for item in self.brief.pantry:
            placed = tuple(each for each in item.placed if each.component in wanted)
            if item.name in barred or is_in_already(item) or self.base.grams(item.name) > 0:
                continue
            suited = left.suited(item.food, self.stand_ins) if len(placed) == len(wanted) else None
            if suited is not None:
                yield Candidate(replace(item, placed=placed), suited, item.name, is_pantry=True)

    def _rank(self, left: LeftOut, each: Candidate) -> tuple[bool, bool, int, float, str]:
        kinds = [row.kind for row in self.stand_ins.rows_for(left.item.food)]
        kind = self.stand_ins.kind_of(each.item.food)
        place = kinds.index(kind) if kind in kinds else len(kinds)
        alike = unlikeness(left.item.food, each.item.food)
        return (each.item.to_buy, each.suited.beside, place, alike, each.item.name)

    def _named(self, left: LeftOut) -> Iterator[Candidate]:
        """What the table names; of one kind the likest first."""
        rows = [row for row in self.stand_ins.rows_for(left.item.food) if left.takes(row)]
        kinds = list(dict.fromkeys(row.kind for row in rows))
        for kind in kinds:
            foods = [(row, row.food) for row in rows if row.kind == kind and row.food is not None]
            for row, food in sorted(foods, key=lambda each: unlikeness(left.item.food, each[1])):
                suited = left.by_row(row, food)
                if suited is not None and not left.is_seasoning and not is_same(left.item.food, food):
                    yield Candidate(self._new(food, left), suited, kind, is_pantry=False)

    def _likest(self, left: LeftOut) -> Iterator[Candidate]:
        """Where the table knows nothing of what is left out: the likest of the same role, its like before others."""
        if self.stand_ins.rows_for(left.item.food):
            return
        pairs = ((each, left.suited(each.food, self.stand_ins)) for each in self.eligible.foods)
        fitting = [(each, suited) for each, suited in pairs if suited is not None]
        for each, suited in sorted(fitting, key=lambda e: (e[1].beside, unlikeness(left.item.food, e[0].food))):
            yield Candidate(self._new(each.food, left), suited, each.kind, is_pantry=False)

    def _new(self, food: Food, left: LeftOut) -> PantryItem:
        parts = {part.name: part for part in self.brief.parts}
        placed = tuple(self.place(food, parts[each.component]) for each in left.uses)
        return PantryItem(food.name, food, placed=placed)
