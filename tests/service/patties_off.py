"""How far the plate of patties may be off, by hand: each error moved to either end, combined by root sum of squares."""

from collections.abc import Callable, Iterator
from math import sqrt

from tests.service.patties_by_hand import Food, Macros, Patties, holding, kept
from tests.service.patties_figures import (
    BEEF,
    BEEF_PROTEIN_ERROR,
    CHEESE,
    EGG,
    EGG_FAT_ERROR,
    EGG_PROTEIN_ERROR,
    HALF_GRAM,
    HALF_TENTH,
    NORMAL_90,
    ONION,
    ONION_FAT_ERROR,
    ONION_PROTEIN_ERROR,
    TOLERATED,
)

Error = tuple[Macros, Macros]


def off(patties: Patties, of: Callable[[Macros], float], name: str | None = None) -> tuple[float, float]:
    """How far below and above, by root sum of squares; name: of one source, otherwise of all."""
    now = of(patties.macros)
    below = above = 0.0
    for _, (up, down) in (each for each in _errors(patties) if name in {None, each[0]}):
        moved = [of(_add(patties.macros, end)) - now for end in (up, down)]
        below, above = below + max(*(-one for one in moved), 0) ** 2, above + max(*moved, 0) ** 2
    return sqrt(below), sqrt(above)


def _errors(patties: Patties) -> Iterator[tuple[str, Error]]:
    """What each error moves of protein, fat and carbohydrate on the plates, at its upper and at its lower end."""
    half = patties.kept_half
    # No more fat can come back to the plate than was lost, and no more can run out than was kept.
    yield "cooking, patties", ((0, min(half, patties.lost), 0), (0, -min(half, patties.kept), 0))
    yield from _label_errors(patties.cheese / 100)
    for about, grams, food, protein, fat in (
        ("ground beef", patties.beef, BEEF, BEEF_PROTEIN_ERROR, 0.0),
        ("egg", patties.egg, EGG, EGG_PROTEIN_ERROR, EGG_FAT_ERROR),
        ("onion", patties.onion, ONION, ONION_PROTEIN_ERROR, ONION_FAT_ERROR),
    ):
        error = NORMAL_90 / 100
        yield f"standard error, {about}", _both_ends(patties, grams, food, protein=error * protein)
        yield f"standard error, {about}", _both_ends(patties, grams, food, fat=error * fat)


def _label_errors(part: float) -> Iterator[tuple[str, Error]]:
    """Of the cheese, which is eaten as it is; part: of 100 g."""
    for place, rounded in ((0, HALF_GRAM), (1, HALF_GRAM), (2, HALF_TENTH)):
        yield "label rounding, farm cheese", (_at(place, rounded * part), _at(place, -rounded * part))
    protein, fat, carbohydrate = (TOLERATED * part * CHEESE[place] for place in range(3))
    yield "label tolerance, farm cheese", (_at(0, 0.0), _at(0, -protein))
    yield "label tolerance, farm cheese", (_at(1, fat), _at(1, 0.0))
    yield "label tolerance, farm cheese", (_at(2, 0.0), _at(2, -carbohydrate))


def _both_ends(patties: Patties, grams: float, food: Food, *, fat: float = 0.0, protein: float = 0.0) -> Error:
    """What a gram of a food of the mix has more and less, g per g; protein stays, and makes the mix hold more fat."""
    up, down = (
        (sign * grams * protein, _kept_more(patties, grams, food, sign * fat, sign * protein), 0.0) for sign in (1, -1)
    )
    return up, down


def _kept_more(patties: Patties, grams: float, food: Food, fat: float, protein: float) -> float:
    """Of fat in the mix only what the curve keeps of it comes to the plate, g."""
    more = grams * (holding(food, fat, protein) - holding(food))
    return kept(patties.holding + more, patties.raw_fat + grams * fat) - patties.kept


def _at(place: int, grams: float) -> Macros:
    return (grams, 0.0, 0.0) if place == 0 else (0.0, grams, 0.0) if place == 1 else (0.0, 0.0, grams)


def _add(macros: Macros, move: Macros) -> Macros:
    return macros[0] + move[0], macros[1] + move[1], macros[2] + move[2]
