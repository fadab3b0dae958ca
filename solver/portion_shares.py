"""How a dish is divided, and the share of the batch that each portion is, exact.

The dish counts as the same throughout, so a portion is a share of everything in it: a share of its weight is the same
share of its energy, and the size of a portion never changes a ratio.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from typing import TypeAlias

from solver.errors import Problem, UnusableBrief
from solver.outcome import Totals

#: What is left is called this, and no portion may be.
LEFTOVERS = "leftovers"

#: Half of the finest step of a scale, g: less than this, over or left, is the last digit of the scale.
LAST_DIGIT_G = 0.05


@dataclass(frozen=True, slots=True)
class Asked:
    """A portion and how much of the dish it is: grams, kcal, pieces or parts, as the division says. Above zero."""

    name: str
    amount: float


@dataclass(frozen=True, slots=True)
class Equal:
    """So many portions, at least one, all alike."""

    portions: int


@dataclass(frozen=True, slots=True)
class ByPieces:
    """Cut into equal pieces, of which each eats a whole number; the others are left."""

    cut_into: int
    eats: tuple[Asked, ...]


@dataclass(frozen=True, slots=True)
class ByWeight:
    """Grams as eaten for each; the rest is left."""

    portions: tuple[Asked, ...]


@dataclass(frozen=True, slots=True)
class ByShares:
    """Parts for each, 2 to 1 to 1 or percents; only their proportion counts, and nothing is left."""

    portions: tuple[Asked, ...]


@dataclass(frozen=True, slots=True)
class ByEnergy:
    """kcal for each, on the basis of the batch; the rest is left."""

    portions: tuple[Asked, ...]


How: TypeAlias = Equal | ByPieces | ByWeight | ByShares | ByEnergy


@dataclass(frozen=True, slots=True)
class Slice:
    """A share of the batch. pieces: None where the dish is not cut into pieces."""

    name: str
    share: Fraction
    pieces: int | None = None
    leftover: bool = False


def shares_of(how: How, batch: Totals, at: str = "") -> tuple[Slice, ...]:
    """The portions in the order asked for, then what is left, if anything is; shares sum to exactly 1.

    at: JSON pointer to the division. Raises UnusableBrief: repeated_portion, not_positive, nothing_to_divide,
    no_pieces_left, portions_exceed_batch.
    """
    problems = tuple(_problems(how, batch, at))
    if problems:
        raise UnusableBrief(problems)
    match how:
        case Equal(portions):
            return tuple(Slice(f"portion {n}", Fraction(1, portions)) for n in range(1, portions + 1))
        case ByPieces(cut_into, eats):
            return _of_pieces(cut_into, eats)
        case ByShares(portions):
            return _of_parts(portions, _sum(portions))
        case ByWeight(portions):
            return _of_whole(portions, batch.grams, batch.grams)
        case ByEnergy(portions):
            return _of_whole(portions, batch.energy_kcal, batch.grams)


def _of_pieces(cut_into: int, eats: tuple[Asked, ...]) -> tuple[Slice, ...]:
    counts = [(each.name, int(each.amount)) for each in eats]
    eaten = tuple(Slice(name, Fraction(count, cut_into), count) for name, count in counts)
    left = cut_into - sum(count for _, count in counts)
    return (*eaten, Slice(LEFTOVERS, Fraction(left, cut_into), left, leftover=True)) if left else eaten


def _of_parts(portions: tuple[Asked, ...], whole: Fraction) -> tuple[Slice, ...]:
    return tuple(Slice(each.name, Fraction(each.amount) / whole) for each in portions)


def _of_whole(portions: tuple[Asked, ...], whole: float, batch_g: float) -> tuple[Slice, ...]:
    """Grams or kcal of a whole. What the scale cannot show, over or left, is shared among the portions."""
    left = _left_g(portions, whole, batch_g)
    if abs(left) <= LAST_DIGIT_G:
        return _of_parts(portions, _sum(portions))
    taken = _of_parts(portions, Fraction(whole))
    return (*taken, Slice(LEFTOVERS, 1 - sum((each.share for each in taken), Fraction()), leftover=True))


def _left_g(portions: tuple[Asked, ...], whole: float, batch_g: float) -> Fraction:
    """What is left in grams as eaten; below zero where more is asked for than there is."""
    return (1 - _sum(portions) / Fraction(whole)) * Fraction(batch_g)


def _sum(portions: tuple[Asked, ...]) -> Fraction:
    return sum((Fraction(each.amount) for each in portions), Fraction())


def _problems(how: How, batch: Totals, at: str) -> Iterator[Problem]:
    field, amount, asked = _fields(how)
    found = list(_of_names(asked, f"{at}/{field}"))
    found.extend(_of_amounts(asked, f"{at}/{field}", amount))
    if batch.grams <= 0 or (isinstance(how, ByEnergy) and batch.energy_kcal <= 0):
        what = "has no energy" if batch.grams > 0 else "weighs nothing"
        remedy = "Add what is in the dish, or leave the division out."
        found.append(Problem(at, "nothing_to_divide", f"The dish {what}, so it cannot be divided.", remedy))
    yield from found
    if not found:
        yield from _of_excess(how, batch, at)


def _fields(how: How) -> tuple[str, str, tuple[Asked, ...]]:
    """The field that lists the portions, the field of each amount, and what is asked for."""
    match how:
        case Equal():
            return "portions", "", ()
        case ByPieces(_, eats):
            return "eats", "pieces", eats
        case ByWeight(portions):
            return "portions", "weight", portions
        case ByShares(portions):
            return "portions", "parts", portions
        case ByEnergy(portions):
            return "portions", "energy_kcal", portions


def _of_names(asked: tuple[Asked, ...], at: str) -> Iterator[Problem]:
    seen = {LEFTOVERS}
    for place, each in enumerate(asked):
        name = each.name.strip().casefold()
        if name in seen:
            detail = f'"{each.name}" is the name of what is left, or of another portion.'
            yield Problem(f"{at}/{place}/name", "repeated_portion", detail, "Give each portion a name of its own.")
        seen.add(name)


def _of_amounts(asked: tuple[Asked, ...], at: str, field: str) -> Iterator[Problem]:
    for place, each in enumerate(asked):
        if each.amount <= 0:
            detail = f"{each.name} gets nothing."
            yield Problem(f"{at}/{place}/{field}", "not_positive", detail, "Give more than zero, or leave it out.")


def _of_excess(how: How, batch: Totals, at: str) -> Iterator[Problem]:
    match how:
        case ByPieces(cut_into, eats) if (total := sum(each.amount for each in eats)) > cut_into:
            detail = f"{total:g} pieces are eaten of a dish that is cut into {cut_into}."
            remedy = "Let fewer pieces be eaten, or cut the dish into more."
            yield Problem(f"{at}/eats", "no_pieces_left", detail, remedy)
        case ByWeight(portions) if _left_g(portions, batch.grams, batch.grams) < -LAST_DIGIT_G:
            yield _exceeds(portions, batch.grams, "g", at)
        case ByEnergy(portions) if _left_g(portions, batch.energy_kcal, batch.grams) < -LAST_DIGIT_G:
            yield _exceeds(portions, batch.energy_kcal, "kcal", at)
        case _:
            return


def _exceeds(portions: tuple[Asked, ...], whole: float, unit: str, at: str) -> Problem:
    asked = sum(each.amount for each in portions)
    detail = f"The portions come to {asked:.1f} {unit}, and the dish as eaten to {whole:.1f} {unit}."
    remedy = "Make them smaller, or make more of the dish."
    return Problem(f"{at}/portions", "portions_exceed_batch", detail, remedy)
