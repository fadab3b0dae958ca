"""What a brief leaves out: an allergen, a food group or a named food, each wherever it stands, in dishes as well.

Nobody's silence is read as "free from": an item of which nothing is said about an allergen is left out, unless the
brief allows what is unknown.
"""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from enum import Enum
from types import MappingProxyType

from solver.allergen_words import BREAK, words_of
from solver.allergens import AllergenRules, Statement, allergens_of
from solver.foods import Food
from solver.pantry import PantryItem

#: Items that one note names; the others are counted.
_NAMED = 10


class ExclusionKind(Enum):
    """What an exclusion names."""

    ALLERGEN = "allergen"
    FOOD_GROUP = "food_group"
    FOOD = "food"


@dataclass(frozen=True, slots=True)
class Exclusion:
    """One thing to leave out.

    name: the code of an allergen, the title of a food group, or a food's name or id.
    unknown_allowed: of allergens alone; whether an item stays of which nobody has said that it contains it.
    """

    kind: ExclusionKind
    name: str
    unknown_allowed: bool = False


@dataclass(frozen=True, slots=True)
class Excluded:
    """item: the name of an item that is left out; why: one sentence without a full stop, to follow the name."""

    item: str
    exclusion: Exclusion
    why: str


def excluded(
    items: Sequence[PantryItem], exclusions: Sequence[Exclusion], rules: AllergenRules
) -> tuple[Excluded, ...]:
    """What is left out, in the order of the items, each once: the first exclusion that names it says why."""
    found = (next(_reasons(item, exclusions, rules), None) for item in items)
    return tuple(each for each in found if each is not None)


def notes(items: Sequence[PantryItem], exclusions: Sequence[Exclusion], rules: AllergenRules) -> tuple[str, ...]:
    """Sentences about what stays in although an exclusion may mean it: what nobody has said, for each exclusion."""
    left_out = {each.item for each in excluded(items, exclusions, rules)}
    staying = [item for item in items if item.name not in left_out]
    sentences = (_note(staying, exclusion, rules) for exclusion in exclusions)
    return tuple(dict.fromkeys(sentence for sentence in sentences if sentence))


def _reasons(item: PantryItem, exclusions: Sequence[Exclusion], rules: AllergenRules) -> Iterator[Excluded]:
    for exclusion in exclusions:
        why = _WHY[exclusion.kind](item, exclusion, rules)
        if why is not None:
            yield Excluded(item.name, exclusion, why)


def _why_allergen(item: PantryItem, exclusion: Exclusion, rules: AllergenRules) -> str | None:
    told = statement_of(item, exclusion.name, rules)
    if told is Statement.CONTAINS:
        by = (food.name for food in _ingredients(item.food) if _contains(food, exclusion.name, rules))
        ingredient = next(by, None)
        return f"contains {exclusion.name}" + (f", in its ingredient {ingredient}" if ingredient else "")
    if told is Statement.UNKNOWN and not exclusion.unknown_allowed:
        return f"nobody has said whether it contains {exclusion.name}"
    return None


def _why_group(item: PantryItem, exclusion: Exclusion, _: AllergenRules) -> str | None:
    if _same(item.food.group, exclusion.name):
        return f"is of the food group {item.food.group}"
    found = next((food for food in _ingredients(item.food) if _same(food.group, exclusion.name)), None)
    return None if found is None else f"its ingredient {found.name} is of the food group {found.group}"


def _why_food(item: PantryItem, exclusion: Exclusion, _: AllergenRules) -> str | None:
    if _is_called(exclusion.name, item.name, item.food.id):
        return _called(exclusion.name, item.name)
    if _is_called(exclusion.name, item.food.name, item.food.id):
        return f"is {item.food.name}, which {_called(exclusion.name, item.food.name)}"
    called = (food for food in _ingredients(item.food) if _is_called(exclusion.name, food.name, food.id))
    found = next(called, None)
    return None if found is None else f"its ingredient {found.name} {_called(exclusion.name, found.name)}"


def statement_of(item: PantryItem, code: str, rules: AllergenRules) -> Statement:
    """What is known of an item; the cook's own name for it may add that it contains something, never that it does not.

    The name is not listened to where the food is a dish, whose ingredients are known, or a label, which has the name.
    """
    told = allergens_of(item.food, rules)[code]
    if told is Statement.CONTAINS or item.food.group is None:
        return told
    named, withheld = rules.words.contained(words_of(item.name))
    return Statement.CONTAINS if code in named - withheld else told


def _contains(food: Food, code: str, rules: AllergenRules) -> bool:
    return allergens_of(food, rules)[code] is Statement.CONTAINS


def _ingredients(food: Food) -> tuple[Food, ...]:
    return () if food.made is None else tuple(ingredient.food for ingredient in food.made.ingredients)


def _same(group: str | None, title: str) -> bool:
    return group is not None and group.casefold() == title.casefold()


def _is_called(asked: str, name: str, food_id: str) -> bool:
    """Whether the id is asked for, or the name holds every word asked for, whole and in any order."""
    wanted = set(words_of(asked)) - {BREAK}
    return asked.strip() == food_id or (bool(wanted) and wanted <= set(words_of(name)))


def _called(asked: str, name: str) -> str:
    """How a name answers to what was asked: by more than the words asked for, it may be another food (olive oil)."""
    words = set(words_of(name)) - {BREAK}
    holds_more = set(words_of(asked)) - {BREAK} < words
    return f"has {asked} in its name" if holds_more else f"is called {asked}"


def _note(staying: Sequence[PantryItem], exclusion: Exclusion, rules: AllergenRules) -> str | None:
    concerned = [item.name for item in staying if _CONCERNS[exclusion.kind](item, exclusion, rules)]
    if not concerned:
        return None
    more = len(concerned) - _NAMED
    names = ", ".join(concerned[:_NAMED]) + (f" and {more} more" if more > 0 else "")
    return _SENTENCES[exclusion.kind].format(asked=exclusion.name, names=names)


def _may_contain(item: PantryItem, exclusion: Exclusion, rules: AllergenRules) -> bool:
    return statement_of(item, exclusion.name, rules) is Statement.UNKNOWN


def _has_no_group(item: PantryItem, *_: object) -> bool:
    return any(food.group is None for food in _ingredients(item.food) or (item.food,))


def _is_composite(item: PantryItem, _: Exclusion, rules: AllergenRules) -> bool:
    """Whether it holds a food whose ingredients are not known: a label, or a food of the table that is not plain."""
    foods = _ingredients(item.food) or (item.food,)
    return any(food.group is None or not rules.is_plain(food) for food in foods)


_WHY: Mapping[ExclusionKind, Callable[[PantryItem, Exclusion, AllergenRules], str | None]] = MappingProxyType(
    {
        ExclusionKind.ALLERGEN: _why_allergen,
        ExclusionKind.FOOD_GROUP: _why_group,
        ExclusionKind.FOOD: _why_food,
    }
)

_CONCERNS: Mapping[ExclusionKind, Callable[[PantryItem, Exclusion, AllergenRules], bool]] = MappingProxyType(
    {
        ExclusionKind.ALLERGEN: _may_contain,
        ExclusionKind.FOOD_GROUP: _has_no_group,
        ExclusionKind.FOOD: _is_composite,
    }
)

_SENTENCES: Mapping[ExclusionKind, str] = MappingProxyType(
    {
        ExclusionKind.ALLERGEN: "{asked}: nobody has said whether these contain it; the brief lets them stay: {names}.",
        ExclusionKind.FOOD_GROUP: "{asked} is left out; a label has no food group, so these stay: {names}.",
        ExclusionKind.FOOD: "{asked} is left out; what these are made of is not known, so they may hold it: {names}.",
    }
)
