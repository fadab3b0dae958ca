"""What is known of the allergens in a food: that it contains one, or nothing.

The lists are the nine of the United States and the fourteen of the European Union (`reference_data/allergens.csv` names
the sources). Rules of words over the descriptions of a food table decide (common practice, no source). They are no
statement of a maker: outward there is only "contains" and "unknown", and unknown is never "free from".
A food group is no allergen: "Dairy and Egg Products" makes butter no egg.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import Enum
from functools import lru_cache
from pathlib import Path
from types import MappingProxyType

from solver.allergen_plain import PlainFoods, load_plain_foods
from solver.allergen_words import WordTable, load_words, words_of
from solver.foods import Food
from solver.tables import read_table

#: A food that contains the one contains the other (Annex II of Regulation (EU) No 1169/2011, 1: wheat).
_IMPLIES: Mapping[str, str] = MappingProxyType({"wheat": "gluten cereals"})


#: Foods whose statements are kept; the words of the rules are many, and a pantry names the same foods again and again.
MOST_FOODS = 1024


class Statement(Enum):
    """What is known of one allergen in one food.

    NOT_BY_NATURE: a plain food of one ingredient that is something else, such as raw beef for milk; nothing is known
    of what touched it. It serves to decide what `exclude` leaves in, and is never said: outward it is "unknown".
    """

    CONTAINS = "contains"
    UNKNOWN = "unknown"
    NOT_BY_NATURE = "not by nature"

    @property
    def outward(self) -> str:
        """The word for a reader, "contains" or "unknown"."""
        return "contains" if self is Statement.CONTAINS else "unknown"


@dataclass(frozen=True, slots=True)
class Allergen:
    """code: the trade word. us_nine, eu_fourteen: which list it stands in.

    above_mg_per_kg: it has to be named only above this amount, strictly; None where any amount counts.
    """

    code: str
    title: str
    us_nine: bool
    eu_fourteen: bool
    above_mg_per_kg: float | None
    note: str
    source: str


@dataclass(frozen=True, slots=True, eq=False)
class AllergenRules:
    """allergens: by code, in the order of the table; words, plain: the rules that `allergens_of` follows."""

    allergens: Mapping[str, Allergen]
    words: WordTable
    plain: PlainFoods

    def is_plain(self, food: Food) -> bool:
        """Whether a food of a table is one ingredient, raw or simply cooked."""
        words = words_of(food.name)
        mixed = self.words.doubtful(words) == frozenset(self.allergens)
        return self.plain.not_for(food.group or "", words) is not None and not mixed


def load_allergens(path: Path) -> dict[str, Allergen]:
    """The table of allergens, by code. Raises ReferenceDataError when it is missing or damaged."""
    table = read_table(path)
    above = [None if amount != amount else float(amount) for amount in table.numbers(["above mg/kg"])[:, 0]]  # noqa: PLR0124  NaN
    names = ("allergen", "title", "us nine", "eu fourteen", "note", "source")
    rows = zip(*(table.texts(name) for name in names), above, strict=True)
    return {
        code: Allergen(code, title, us == "yes", eu == "yes", limit, note, source)
        for code, title, us, eu, note, source, limit in rows
    }


def load_allergen_rules(folder: Path) -> AllergenRules:
    """The three tables in the folder of reference data. Raises ReferenceDataError when one is missing or damaged."""
    allergens = load_allergens(folder / "allergens.csv")
    codes = frozenset(allergens)
    return AllergenRules(
        allergens,
        load_words(folder / "allergen_words.csv", codes),
        load_plain_foods(folder / "allergen_plain_foods.csv", codes),
    )


@lru_cache(maxsize=MOST_FOODS)
def allergens_of(food: Food, rules: AllergenRules) -> Mapping[str, Statement]:
    """A statement for every code.

    A dish contains what any ingredient contains, and is NOT_BY_NATURE only where all ingredients are. A label is what
    it states; its name may add that it contains something, never that it does not.
    """
    if food.made is not None:
        return _of_dish(food, rules)
    return _of_label(food, rules) if food.group is None else _of_described(food, rules)


def _of_described(food: Food, rules: AllergenRules) -> dict[str, Statement]:
    words = words_of(food.name)
    named, withheld = rules.words.contained(words)
    contained = (named - withheld) | food.contains
    not_for = rules.plain.not_for(food.group or "", words)
    if not_for is None:
        not_for = frozenset(rules.allergens)
    doubtful = not_for | rules.words.doubtful(words) | named | withheld
    return {code: _statement(code in contained, code not in doubtful) for code in rules.allergens}


def _of_label(food: Food, rules: AllergenRules) -> dict[str, Statement]:
    named, withheld = rules.words.contained(words_of(food.name))
    # A name that says "butter" on a label that says "without milk": one is wrong, and nobody has said which.
    contained = food.contains | (named - withheld - food.without)
    contained |= {_IMPLIES[code] for code in contained if code in _IMPLIES}
    without = food.without | {code for code, wider in _IMPLIES.items() if wider in food.without}
    return {code: _statement(code in contained, code in without - named) for code in rules.allergens}


def _of_dish(food: Food, rules: AllergenRules) -> dict[str, Statement]:
    each = [allergens_of(ingredient.food, rules) for ingredient in food.made.ingredients] if food.made else []
    return {
        code: _statement(
            code in food.contains or any(told[code] is Statement.CONTAINS for told in each),
            bool(each) and all(told[code] is Statement.NOT_BY_NATURE for told in each),
        )
        for code in rules.allergens
    }


def _statement(contains: bool, not_by_nature: bool) -> Statement:  # noqa: FBT001
    if contains:
        return Statement.CONTAINS
    return Statement.NOT_BY_NATURE if not_by_nature else Statement.UNKNOWN
