"""Arithmetic over a row of the Indian Food Composition Tables 2017, in fractions, so that nothing is rounded."""

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from tests.service.ifct import Row

#: Energy of a gram of protein, fat, available carbohydrate and fibre.
GENERAL = {"kcal": (4, 9, 4, 4), "kJ": (17, 37, 17, 17)}
REGULATION = {"kcal": (4, 9, 4, 2), "kJ": (17, 37, 17, 8)}

#: A printed 0 g of carbohydrate on an EU label may be up to half a gram, and is read so.
ZERO_MAY_BE_G = Fraction("0.5")

KJ_PER_KCAL = Fraction("4.184")

#: The table prints grams to hundredths and kJ whole.
HALF_OF_A_GRAM, HALF_OF_A_KJ = Fraction("0.005"), Fraction("0.5")

PARTS = ("protein_g", "fat_g", "carbohydrate_g", "fibre_g")

Parts = tuple[Fraction, Fraction, Fraction, Fraction]


@dataclass(frozen=True, slots=True)
class Expected:
    """Energy of 100 g, and that of fat, protein and carbohydrate with fibre, kcal."""

    kcal: Fraction
    kj: Fraction
    slices_kcal: tuple[Fraction, Fraction, Fraction]


def printed_parts(row: Row) -> Parts:
    """Protein, fat, available carbohydrate and fibre of 100 g, g, as the table prints them."""
    protein, fat, carbohydrate, fibre = (Fraction(f"{getattr(row, name):.2f}") for name in PARTS)
    return protein, fat, carbohydrate, fibre


def read_parts(row: Row) -> Parts:
    """As the label is read: a carbohydrate of 0 is the most that is printed so."""
    protein, fat, carbohydrate, fibre = printed_parts(row)
    return protein, fat, carbohydrate or ZERO_MAY_BE_G, fibre


def energy(parts: Parts, factors: tuple[int, int, int, int]) -> Fraction:
    """By factors for a gram of each."""
    return sum((part * factor for part, factor in zip(parts, factors, strict=True)), Fraction(0))


def slices(parts: Parts, factors: tuple[int, int, int, int]) -> tuple[Fraction, Fraction, Fraction]:
    """Of fat, of protein, and of carbohydrate with its fibre."""
    protein, fat, carbohydrate, fibre = (part * factor for part, factor in zip(parts, factors, strict=True))
    return fat, protein, carbohydrate + fibre


def whole_percents(parts: tuple[Fraction, ...]) -> list[int]:
    """By largest remainder, so that they sum to 100."""
    exact = [100 * part / sum(parts) for part in parts]
    whole = [int(share) for share in exact]
    by_remainder = sorted(range(len(parts)), key=lambda place: whole[place] - exact[place])
    for place in by_remainder[: 100 - sum(whole)]:
        whole[place] += 1
    return whole


def expected(row: Row) -> Mapping[str, Expected]:
    """By hand, on every basis; a label has no factors of its own, and what it declares is divided as by 4-9-4."""
    parts = read_parts(row)
    general, regulation = (energy(parts, factors["kcal"]) for factors in (GENERAL, REGULATION))
    by_general = slices(parts, GENERAL["kcal"])
    stated = Fraction(f"{row.energy_kj:.0f}")
    return {
        "general": Expected(general, energy(parts, GENERAL["kJ"]), by_general),
        "regulation": Expected(regulation, energy(parts, REGULATION["kJ"]), slices(parts, REGULATION["kcal"])),
        "specific": Expected(general, general * KJ_PER_KCAL, by_general),
        "declared": Expected(stated / KJ_PER_KCAL, stated, by_general),
    }


def rounding_explains(row: Row) -> bool:
    """Some true amounts print as this row does, its fibre counted as 17, 8 or no kJ."""
    parts, stated = printed_parts(row), Fraction(f"{row.energy_kj:.0f}")
    least = tuple(max(part - HALF_OF_A_GRAM, Fraction(0)) for part in parts)
    most = tuple(part + HALF_OF_A_GRAM for part in parts)
    return any(
        sum(part * factor for part, factor in zip(least, factors, strict=True)) <= stated + HALF_OF_A_KJ
        and stated - HALF_OF_A_KJ <= sum(part * factor for part, factor in zip(most, factors, strict=True))
        for factors in ((17, 37, 17, 17), (17, 37, 17, 8), (17, 37, 17, 0))
    )
