"""Whether one food can stand in for another, where it was in the dish, and how much of it for how much.

The table of stand-ins decides where it knows both kinds. What it does not know stands in by what it is made of: meat
for meat, cheese for cheese, one salty thing for another. Nothing stands in for a seasoning that the table does not
know, since it is there for its taste alone. All of it is common practice, no source.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from solver.brief import Brief
from solver.closest import Base, BaseAmount
from solver.components import Component
from solver.foods import Food
from solver.pantry import PantryItem
from solver.rework_places import is_emulsion, is_fat
from solver.roles import Role, role_of
from solver.substitutes_table import EMULSION, MINCE, MIX, PIECES, UNCOOKED, StandIn, StandIns, words_of

#: What is a smaller part of the dish than this is there for its taste, unless it is fat, salt or a binder.
SEASONING_PART = 0.02

#: The most of one food that stands in for another, g for g, where the amount follows from what they hold.
MOST_FOR_ONE = 4.0

#: Bulk stands in for bulk of about as much fat, g in 100 g: no berries for olives, though both are fruit.
MOST_FAT_APART_G = 3.0

#: What is said of a food's state, after its name in the table.
_STATES = frozenset({"raw", "cooked", "canned", "frozen", "dried", "fresh", "salted", "without", "with"})

#: Food groups whose foods do the same in a dish.
_FAMILIES = {
    "Poultry Products": "meat",
    "Beef Products": "meat",
    "Pork Products": "meat",
    "Lamb, Veal, and Game Products": "meat",
    "Finfish and Shellfish Products": "fish",
    "Sausages and Luncheon Meats": "meat",
    "Dairy and Egg Products": "dairy",
    "Nut and Seed Products": "nuts",
    "Vegetables and Vegetable Products": "vegetables",
    "Fruits and Fruit Juices": "fruit",
}

#: Families within a food group, told by a word.
_BY_WORD = {"cheese": "cheese", "egg": "egg"}

#: What nobody eats raw.
_FLESH = frozenset({"meat", "fish"})

#: What else stands in for a family in what is not cooked.
_BESIDE = {"meat": {"cheese", "egg"}, "fish": {"cheese", "egg"}, "cheese": {"nuts"}, "egg": {"cheese"}}

_SPICES = "Spices and Herbs"

#: What is in a dish for its taste, whatever else it holds.
_FOR_TASTE = frozenset({"lemon", "lime", "garlic", "ginger", "parsley", "peel", "chive", "horseradish"})

#: What stands before the name of a food in its description.
_BEFORE_NAMES = frozenset({"soup", "beverages"})
_SAME_IN_ROLE = {Role.FAT: "fat_g", Role.SALT: "sodium_mg"}


@dataclass(frozen=True, slots=True, eq=False)
class Suited:
    """role: what both do in the dish. grams_per_gram: of it for 1 g of what is left out. how, source: of the table.

    beside: it stands in only for want of its like.
    """

    role: Role
    grams_per_gram: float
    how: str | None = None
    source: str | None = None
    beside: bool = False


@dataclass(frozen=True, slots=True, eq=False)
class LeftOut:
    """What is left out of a dish.

    component: where alone it is left out; None for everywhere. uses: where it was. where: the kinds of these places.
    is_unsaid: nothing says whether it is cooked. may_be_mix: so, and there is mince. is_seasoning: it was there for its
    taste alone.
    """

    item: PantryItem
    component: str | None
    uses: tuple[BaseAmount, ...]
    where: frozenset[str]
    is_unsaid: bool
    may_be_mix: bool
    is_seasoning: bool

    @staticmethod
    def of(item: PantryItem, component: str | None, brief: Brief, base: Base, stand_ins: StandIns) -> "LeftOut":
        """An item of a base dish; without uses where there was none of it."""
        there = (each for each in base.amounts if each.item == item.name and each.grams > 0)
        uses = tuple(each for each in there if component in {None, each.component})
        whole = sum(each.grams for each in base.amounts)
        small = base.grams(item.name) < SEASONING_PART * whole and role_of(item.food) is not Role.FAT
        tasted = small or item.food.group == _SPICES or bool(words_of(item.food.name) & _FOR_TASTE)
        is_known = bool(stand_ins.rows_for(item.food)) or role_of(item.food) is Role.SALT
        parts = {part.name: part for part in brief.parts}
        where = frozenset(_where(parts[each.component], brief, base) for each in uses)
        mince = any(stand_ins.kind_of(each.food) == MINCE for each in _there(brief, base))
        unsaid = not brief.components
        return LeftOut(item, component, uses, where, unsaid, unsaid and mince, tasted and not is_known)

    def suited(self, food: Food, stand_ins: StandIns) -> Suited | None:
        """What it does in place of this; None where it cannot."""
        rows = stand_ins.rows_for(self.item.food)
        kind = stand_ins.kind_of(food)
        if self.is_seasoning or is_same(self.item.food, food):
            return None
        if rows and kind is not None:
            found = next((row for row in rows if row.kind == kind and self.takes(row)), None)
            return None if found is None else self.by_row(found, food)
        return self._alike(food)

    def stands_for_g(self, food: Food, stand_ins: StandIns) -> float:
        """How much of a food that the cook names does all of what this did, g; the same where nothing tells better."""
        kind, role = stand_ins.kind_of(food), role_of(self.item.food)
        row = next((row for row in stand_ins.rows_for(self.item.food) if row.kind == kind), None)
        suited = None if row is None else self.by_row(row, food)
        alike = self._by_content(role, food) if role_of(food) is role else None
        grams = alike if suited is None else suited.grams_per_gram
        return (1.0 if grams is None else grams) * sum(use.grams for use in self.uses)

    def takes(self, row: StandIn) -> bool:
        """Whether a row speaks of every place that this was in."""
        may_bind = self.may_be_mix and row.role == Role.BINDER.value and MIX in row.where
        return self.where <= row.where or may_bind

    def by_row(self, row: StandIn, food: Food) -> Suited | None:
        """What a food does by a row of the table; None where nobody knows how much of it that takes."""
        role = Role(row.role)
        grams = row.grams_per_gram
        if grams is None:
            grams = self._by_content(role, food)
        return None if grams is None else Suited(role, grams, row.how, row.source)

    def _alike(self, food: Food) -> Suited | None:
        role = role_of(self.item.food)
        if role in {Role.BINDER, Role.LIQUID} or role_of(food) is not role or words_of(food.name) & _FOR_TASTE:
            return None
        if role is Role.FAT and not (is_fat(self.item.food) and is_fat(food)):
            return None
        if role is Role.BULK and abs(food.value("fat_g") - self.item.food.value("fat_g")) > MOST_FAT_APART_G:
            return None
        if role is Role.SALT and words_of(self.item.food.name) >= {"salt", "table"}:
            return None
        beside = self._is_beside(food) if role in {Role.PROTEIN, Role.BULK} else False
        grams = self._by_content(role, food)
        return None if beside is None or grams is None else Suited(role, grams, beside=beside)

    def _is_beside(self, food: Food) -> bool | None:
        """Whether it is of another family than this; None where it cannot stand in at all."""
        ours, theirs, words = _family(self.item.food), _family(food), words_of(food.name)
        is_served_cold = self.where <= {UNCOOKED, EMULSION}
        never = theirs in _FLESH and "raw" in words if is_served_cold else "cooked" in words
        if never:
            return None
        if food.group is None or ours == theirs is not None:
            return False
        return True if is_served_cold and not self.is_unsaid and theirs in _BESIDE.get(ours or "", ()) else None

    def _by_content(self, role: Role, food: Food) -> float | None:
        """As much as brings the same fat, or salt; as much by weight for all else."""
        if role not in _SAME_IN_ROLE:
            return 1.0
        old, new = (each.value(_SAME_IN_ROLE[role]) for each in (self.item.food, food))
        return old / new if 0 < old <= MOST_FOR_ONE * new else None


def is_same(one: Food, other: Food) -> bool:
    """Whether two rows are of the same thing in other states or sizes: spinach raw and cooked, two cheddars."""
    return one.id == other.id or list(_names(one)) == list(_names(other))


def _names(food: Food) -> Iterator[str]:
    """The first two parts of a description, without what stands before its name, and what only tells the state."""
    parts = [part.strip() for part in food.name.casefold().split(",")]
    named = [part for part in parts if part not in _BEFORE_NAMES]
    return (part for part in named[:2] if not words_of(part) & _STATES)


def _where(part: Component, brief: Brief, base: Base) -> str:
    if part.method is not None:
        return MIX if part.is_mix else PIECES
    return EMULSION if is_emulsion(part, brief, base) else UNCOOKED


def _there(brief: Brief, base: Base) -> Iterator[PantryItem]:
    return (item for item in brief.pantry if base.grams(item.name) > 0)


def _family(food: Food) -> str | None:
    words = words_of(food.name.split(",", maxsplit=1)[0])
    return next((_BY_WORD[word] for word in sorted(words & _BY_WORD.keys())), _FAMILIES.get(food.group or ""))
