"""Arithmetic over a row of the Indian Food Composition Tables 2017, in fractions, so that nothing is rounded."""

from fractions import Fraction

from tests.service.ifct import Row

#: Energy of a gram of protein, fat, available carbohydrate and fibre.
GENERAL = {"kcal": (4, 9, 4, 4), "kJ": (17, 37, 17, 17)}
REGULATION = {"kcal": (4, 9, 4, 2), "kJ": (17, 37, 17, 8)}

#: A printed 0 g of carbohydrate on an EU label may be up to half a gram, and is read so.
ZERO_MAY_BE_G = Fraction("0.5")

PARTS = ("protein_g", "fat_g", "carbohydrate_g", "fibre_g")

Parts = tuple[Fraction, Fraction, Fraction, Fraction]


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
