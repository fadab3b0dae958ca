"""Energy that declared macronutrients come to, by every way of counting it.

general                     4-9-4 kcal, 17-37-17 kJ on carbohydrate with its fibre
general on available        the same on available carbohydrate, fibre not counted
regulation                  Annex XIV of Regulation (EU) No 1169/2011: fibre has 2 kcal, 8 kJ
specific                    the food's own factors, where they are given; 4.184 kJ to the kcal

Alcohol, polyols and allulose count as `energy` says; where they are not declared they count as none. A way that needs
a fibre which is not declared is left out. What true amounts can come to is exact: protein, fat and alcohol are
independent intervals, and carbohydrate with its parts is a linear programme that is solved by filling the part with
the least, or the most, energy first.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from solver.declared_numbers import Declared, Known
from solver.energy import GENERAL_KCAL, GENERAL_KJ, KJ_PER_KCAL, REGULATION_KCAL, REGULATION_KJ, Factors
from solver.label_rounding import Interval


@dataclass(frozen=True, slots=True)
class Basis:
    """One way of counting energy, with both columns of factors."""

    way: str
    kcal: Factors
    kj: Factors


_BASES = (
    Basis("general", GENERAL_KCAL, GENERAL_KJ),
    Basis("general on available", replace(GENERAL_KCAL, fibre=0), replace(GENERAL_KJ, fibre=0)),
    Basis("regulation", REGULATION_KCAL, REGULATION_KJ),
)


def bases(declared: Declared) -> tuple[Basis, ...]:
    """The ways to count; the specific one only where factors are given."""
    own = declared.factors
    return _BASES if own is None else (*_BASES, Basis("specific", own, _in_kj(own)))


def _in_kj(factors: Factors) -> Factors:
    return Factors(
        protein=factors.protein * KJ_PER_KCAL,
        fat=factors.fat * KJ_PER_KCAL,
        carbohydrate=factors.carbohydrate * KJ_PER_KCAL,
        alcohol=factors.alcohol * KJ_PER_KCAL,
        fibre=None if factors.fibre is None else factors.fibre * KJ_PER_KCAL,
        polyol=factors.polyol * KJ_PER_KCAL,
        allulose=factors.allulose * KJ_PER_KCAL,
    )


def total(slices: Mapping[str, Known]) -> Known:
    """The four of `energy_slices` together."""
    protein, fat, carbohydrate, alcohol = slices.values()
    return protein + fat + carbohydrate + alcohol


def energy_slices(declared: Declared, factors: Factors) -> dict[str, Known] | None:
    """Energy from protein, fat, carbohydrate and alcohol; None where one of the first three cannot be counted."""
    carbohydrate = carbohydrate_energy(declared, factors, is_total=declared.states_total)
    if carbohydrate is None or not declared.has("protein_g", "fat_g"):
        return None
    return {
        "protein": declared.known("protein_g").times(factors.protein),
        "fat": declared.known("fat_g").times(factors.fat),
        "carbohydrate": carbohydrate,
        "alcohol": declared.known_or_none("alcohol_g").times(factors.alcohol),
    }


def carbohydrate_energy(declared: Declared, factors: Factors, *, is_total: bool) -> Known | None:
    """None where what it needs is not declared. is_total: fibre is part of the carbohydrate; else it comes on top."""
    fibre_factor = factors.carbohydrate if factors.fibre is None else factors.fibre
    indifferent = factors.carbohydrate if is_total else 0.0
    if not declared.has(declared.carbohydrate) or (fibre_factor != indifferent and not declared.has("fibre_g")):
        return None
    parts = _sweeteners(declared, factors)
    fibre = declared.known_or_none("fibre_g")
    if is_total:
        return _mixed(declared.known(declared.carbohydrate), factors.carbohydrate, [*parts, (fibre, fibre_factor)])
    return _mixed(declared.known(declared.carbohydrate), factors.carbohydrate, parts) + fibre.times(fibre_factor)


def _sweeteners(declared: Declared, factors: Factors) -> list[tuple[Known, float]]:
    per_gram = {"polyols_g": factors.polyol, "erythritol_g": 0.0, "allulose_g": factors.allulose}
    return [(declared.known(name), factor) for name, factor in per_gram.items() if declared.has(name)]


def _mixed(whole: Known, factor: float, parts: Sequence[tuple[Known, float]]) -> Known:
    """Energy of carbohydrate whose parts have factors of their own and cannot be more than the whole."""
    held = sum(part.value for part, _ in parts)
    value = factor * max(0.0, whole.value - held) + sum(part.value * own for part, own in parts)
    least = _extreme(whole.interval.low, factor, parts, -1)
    most = _extreme(whole.interval.high, factor, parts, 1)
    return Known(value, Interval(least, most))


def _extreme(whole_g: float, factor: float, parts: Sequence[tuple[Known, float]], sign: int) -> float:
    """The least (sign -1) or most (1) energy: each part at its low end, then more of those that gain, best first."""
    held = sum(part.interval.low for part, _ in parts)
    room = max(0.0, whole_g - held)
    energy = factor * room + sum(part.interval.low * own for part, own in parts)
    for part, own in sorted(parts, key=lambda one: -sign * one[1]):
        if sign * (own - factor) > 0:
            more = min(room, part.interval.high - part.interval.low)
            energy += (own - factor) * more
            room -= more
    return energy
