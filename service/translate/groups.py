"""Groups of items in rules and choices: by name, by food group, by allergen."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from reference_data import reference_folder
from service.translate.exclude import find_allergen, find_food_group
from service.translate.names import refuse_unknown
from service.translate.place import Place
from solver.allergens import AllergenRules, Statement
from solver.exclusions import statement_of
from solver.joins import Joins
from solver.pantry import PantryItem
from solver.tables import read_table

_ALL = "*"

_REMEDY = "Name items of the pantry, or leave this out: GET /v1/foods/{id} says what a food is of."


@dataclass(frozen=True, slots=True)
class Belonging:
    """What a group takes in beside items by name. titles: of food groups; codes: of allergens."""

    everything: bool
    titles: tuple[str, ...]
    codes: tuple[str, ...]
    rules: AllergenRules

    def __call__(self, item: PantryItem) -> bool | None:
        """Whether an item belongs to it; None where nobody has said."""
        if self.everything or item.food.group in self.titles:
            return True
        told = {statement_of(item, code, self.rules) for code in self.codes}
        if Statement.CONTAINS in told:
            return True
        return None if Statement.UNKNOWN in told else False


@dataclass(frozen=True, slots=True)
class Chosen:
    """A group as named. sure: what surely belongs to it. may: that, and what nobody has said of that it does not.

    of: whether something that the pantry does not have would belong to it.
    """

    sure: frozenset[str]
    may: frozenset[str]
    of: Belonging


@dataclass(frozen=True, slots=True)
class Reading:
    """The one reading of a group that counts: its items, and what else would join them."""

    items: frozenset[str]
    joins: Joins


@dataclass(frozen=True, slots=True)
class Groups:
    """What groups are made from: the items that a brief has, and what is known of the allergens in them."""

    pantry: Sequence[PantryItem]
    rules: AllergenRules

    def chosen(self, body: object, field: str, place: Place) -> Chosen | None:
        """The items that `field` and the fields beside it for food groups and allergens name; None without any.

        place: that of the rule or choice. An empty match is refused, each where it stands.
        """
        fields = (field, f"{field}_food_groups", f"{field}_allergens")
        names, groups, allergens = (getattr(body, each) for each in fields)
        if names is None and groups is None and allergens is None:
            return None
        titles = tuple(self._titles(groups or (), place / fields[1]))
        codes = tuple(self._codes(allergens or (), place / fields[2]))
        everything = any(name.strip() == _ALL for name in names or ())
        of = Belonging(everything, titles, codes, self.rules)
        told = {item.name: of(item) for item in self.pantry}
        named = frozenset(self._named(names or (), place / fields[0]))
        sure = named.union(name for name, belongs in told.items() if belongs)
        return Chosen(sure, sure.union(name for name, belongs in told.items() if belongs is None), of)

    def _named(self, names: Sequence[str], place: Place) -> Iterator[str]:
        known = {item.name for item in self.pantry}
        for number, name in enumerate(names):
            asked = name.strip()
            if asked != _ALL and not refuse_unknown(asked, known, "unknown_item", place / number):
                yield asked

    def _titles(self, given: Sequence[str], place: Place) -> Iterator[str]:
        known = read_table(reference_folder() / "sr28" / "food_groups.csv").texts("title") if given else ()
        for number, each in enumerate(given):
            title = find_food_group(each, known, place / number)
            if title is not None:
                self._refuse_empty(self._of(titles=(title,)), title, place / number)
                yield title

    def _codes(self, given: Sequence[str], place: Place) -> Iterator[str]:
        for number, each in enumerate(given):
            code = find_allergen(each, self.rules.allergens, place / number)
            if code is not None:
                self._refuse_empty(self._of(codes=(code,)), code, place / number)
                yield code

    def _of(self, titles: tuple[str, ...] = (), codes: tuple[str, ...] = ()) -> Belonging:
        return Belonging(everything=False, titles=titles, codes=codes, rules=self.rules)

    def _refuse_empty(self, of: Belonging, called: str, place: Place) -> None:
        if self.pantry and all(of(item) is False for item in self.pantry):
            place.refuse("empty_group", f"No item of the pantry belongs to {called}.", _REMEDY)


def safe_reading(group: Chosen, place: Place, *, both: bool, wide: bool) -> Reading:
    """The reading that counts against the cook. wide: whether that is with what nobody has spoken of.

    both: whether the group has a band with two ends, which read it differently; then nothing may be left unsaid.
    """
    if both and group.sure != group.may:
        unsaid = ", ".join(sorted(group.may - group.sure))
        detail = f"Nobody has said whether these contain it, and the two ends read that differently: {unsaid}."
        place.refuse("two_readings", detail, "Make two rules of it, one with at_least and one with at_most.")
    found = group.may if wide else group.sure
    if not found and group.may:
        detail = "Nothing is known to contain it, and what is unknown does not count towards this end."
        place.refuse("empty_group", detail, "Name the items, or state on the label what it contains.")

    told: dict[tuple[str, str], bool | None] = {}  # it is asked again of every food that may be proposed

    def joins(item: PantryItem) -> bool | None:
        key = item.food.id, item.name
        if key not in told:
            belongs = group.of(item)
            told[key] = wide if belongs is None and not both else belongs
        return told[key]

    return Reading(found, joins)
