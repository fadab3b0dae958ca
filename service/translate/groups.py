"""Groups of items in rules and choices: by name, by food group, by allergen."""

from collections.abc import Callable, Collection, Iterator, Sequence
from dataclasses import dataclass
from functools import partial

from reference_data import reference_folder
from service.translate.exclude import find_allergen, find_food_group
from service.translate.names import refuse_unknown
from service.translate.place import Place
from solver.allergens import AllergenRules, Statement
from solver.exclusions import statement_of
from solver.pantry import PantryItem
from solver.tables import read_table

_ALL = "*"

_REMEDY = "Name items of the pantry, or leave this out: GET /v1/foods/{id} says what a food is of."


@dataclass(frozen=True, slots=True)
class Chosen:
    """A group as named. sure: what surely belongs to it. may: that, and what nobody has said of that it does not."""

    sure: frozenset[str]
    may: frozenset[str]


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
        named = frozenset(self._named(names or (), place / fields[0]))
        named |= frozenset(self._of_food_groups(groups or (), place / fields[1]))
        told = [self._of_allergen(each, place / fields[2] / n) for n, each in enumerate(allergens or ())]
        sure, may = (named.union(*(getattr(each, side) for each in told)) for side in ("sure", "may"))
        return Chosen(sure, may)

    def _named(self, names: Sequence[str], place: Place) -> Iterator[str]:
        known = {item.name for item in self.pantry}
        for number, name in enumerate(names):
            if name.strip() == _ALL:
                yield from known
            elif not refuse_unknown(name.strip(), known, "unknown_item", place / number):
                yield name.strip()

    def _of_food_groups(self, titles: Sequence[str], place: Place) -> Iterator[str]:
        known = read_table(reference_folder() / "sr28" / "food_groups.csv").texts("title") if titles else ()
        for number, given in enumerate(titles):
            title = find_food_group(given, known, place / number)
            if title is not None:
                yield from self._matching(partial(_is_of, title), title, place / number)

    def _of_allergen(self, given: str, place: Place) -> Chosen:
        code = find_allergen(given, self.rules.allergens, place)
        if code is None:
            return Chosen(frozenset(), frozenset())
        told = {item.name: statement_of(item, code, self.rules) for item in self.pantry}
        may = self._matching(lambda item: told[item.name] is not Statement.NOT_BY_NATURE, code, place)
        return Chosen(frozenset(name for name in may if told[name] is Statement.CONTAINS), frozenset(may))

    def _matching(self, belongs: Callable[[PantryItem], bool], called: str, place: Place) -> Collection[str]:
        found = [item.name for item in self.pantry if belongs(item)]
        if not found and self.pantry:
            place.refuse("empty_group", f"No item of the pantry belongs to {called}.", _REMEDY)
        return found


def _is_of(title: str, item: PantryItem) -> bool:
    return item.food.group == title


def safe_reading(group: Chosen, place: Place, *, both: bool, wide: bool) -> frozenset[str]:
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
    return found
