"""What a brief leaves out, as the solver's exclusions; and the refusal of an item that is left out yet asked for."""

import difflib
from collections.abc import Collection, Iterable, Sequence

from reference_data import reference_folder
from service.schemas.exclude import ExcludedAllergen, ExcludedFood, ExcludedFoodGroup
from service.translate.names import refuse_unprintable
from service.translate.place import Place
from solver.allergens import load_allergens
from solver.exclusions import Excluded, Exclusion, ExclusionKind
from solver.pantry import PantryItem
from solver.tables import read_table

#: Shorter words are in many titles and mean none of them ("and").
_SHORTEST_WORD = 4


def to_exclusions(
    bodies: Sequence[ExcludedAllergen | ExcludedFoodGroup | ExcludedFood], place: Place
) -> tuple[Exclusion, ...]:
    """The exclusions in the brief's order. Those that are refused at `place` are left out."""
    if not bodies:
        return ()
    codes = load_allergens(reference_folder() / "allergens.csv")
    groups = read_table(reference_folder() / "sr28" / "food_groups.csv").texts("title")
    entries = (_exclusion(body, codes, groups, place / index) for index, body in enumerate(bodies))
    return tuple(entry for entry in entries if entry is not None)


def refuse_needed(
    excluded: Iterable[Excluded], pantry: Sequence[PantryItem], place: Place, settled: Collection[str] = ()
) -> None:
    """Refuse each item that is left out although at least some of it is asked for, or in already.

    place: that of the pantry. settled: the items that are in already.
    """
    why = {each.item: each.why for each in excluded}
    for index, item in enumerate(pantry):
        if item.name in why and item.at_least_g > 0:
            detail = f"At least some of this item is asked for, yet `exclude` leaves it out: {why[item.name]}."
            field = "already_in" if item.name in settled else "at_least"
            remedy = f"Take {field} away, or take the entry out of exclude."
            (place / index / field).refuse("excluded_item_needed", detail, remedy)


def _exclusion(
    body: ExcludedAllergen | ExcludedFoodGroup | ExcludedFood,
    codes: Collection[str],
    groups: Collection[str],
    place: Place,
) -> Exclusion | None:
    if isinstance(body, ExcludedFood):
        refuse_unprintable(body.food, place / "food")
        return Exclusion(ExclusionKind.FOOD, body.food.strip())
    if isinstance(body, ExcludedFoodGroup):
        title = find_food_group(body.food_group, groups, place / "food_group")
        return None if title is None else Exclusion(ExclusionKind.FOOD_GROUP, title)
    code = find_allergen(body.allergen, codes, place / "allergen")
    return None if code is None else Exclusion(ExclusionKind.ALLERGEN, code, unknown_allowed=body.unknown == "allowed")


def find_allergen(name: str, codes: Collection[str], place: Place) -> str | None:
    """The code of an allergen, upper and lower case alike; what is unknown is refused."""
    code = _known(name, codes)
    if code is None:
        remedy = f"{_near(name, codes, place)}Use one of {', '.join(codes)}."
        place.refuse("unknown_allergen", "There is no allergen of this name.", remedy)
    return code


def find_food_group(name: str, groups: Collection[str], place: Place) -> str | None:
    """The title of a food group, upper and lower case alike; what is unknown is refused."""
    title = _known(name, groups)
    if title is not None:
        return title
    remedy = f"{_near(name, groups, place)}GET /v1/foods/{{id}} says which group a food is of."
    place.refuse("unknown_food_group", "There is no food group of this name.", remedy)
    return None


def _known(name: str, known: Collection[str]) -> str | None:
    """The known name that is the same but for upper and lower case; None when there is none."""
    return next((each for each in known if each.casefold() == name.strip().casefold()), None)


def _near(name: str, known: Collection[str], place: Place) -> str:
    """The nearest names in a sentence: those that hold one of its words, else those spelt alike; "" for none."""
    if place.is_full:
        return ""
    by_name = {each.casefold(): each for each in known}
    words = [word for word in name.casefold().split() if len(word) >= _SHORTEST_WORD]
    near = [each for key, each in by_name.items() if any(word in key.split() for word in words)]
    near = near or [by_name[key] for key in difflib.get_close_matches(name.casefold(), by_name, n=3)]
    return f"Near it: {', '.join(near[:3])}. " if near else ""
