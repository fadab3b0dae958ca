"""Why a pair does not enter the table: facts of its rows. An excluded pair is kept as data with its reason."""

import re
from math import isnan

from reference_data.from_pairs.matching import Pair
from solver.cooking_kinds import is_pumped

#: A yield a little above 1 is the spread of two samples and is capped; above this the samples do not match.
MOST_YIELD = 1.05

#: Fat kept above this share, with more than so many g gained per 100 g raw: the two samples do not match.
MOST_RETENTION, MOST_GAIN_G = 1.5, 2.0

_COATED = re.compile(r"bread|batter|flour|coated")
_COLLAGEN = re.compile(r"\bfeet\b|\bears?\b|\btails?\b|\btripe\b|chitterling|\bskin\b(?<!meat and skin)|\bneck\b")
_COOKED_BEFORE = re.compile(r"fully cooked|frankfurter|bologna|pre-cooked|kielbasa")
_EGG_WITH_FAT = re.compile(r"fried|scrambled|omelet")


def why_excluded(pair: Pair) -> str:
    """The first reason against a pair; "" when it is usable."""
    return _by_numbers(pair) or _by_name(pair) or _by_method(pair) or _by_sample(pair)


def _by_numbers(pair: Pair) -> str:
    values = [food.value(name) for food in (pair.raw, pair.cooked) for name in ("protein_g", "fat_g")]
    if any(isnan(value) for value in values):
        return "protein or fat is missing"
    return "no fat or no protein in the raw row" if not all(values[:3]) else ""


def _by_name(pair: Pair) -> str:
    name = f"{pair.raw.name} {pair.cooked.name}".lower()
    if _COATED.search(name):
        return "coated: the cooked row has added flour, egg or milk"
    if pair.kind == "egg" and _EGG_WITH_FAT.search(pair.cooked.name.lower()):
        return "the cooked row has added fat or milk"
    if is_pumped(name):
        return "pumped or cured: brine went in, and leaves in cooking"
    if _COOKED_BEFORE.search(pair.raw.name.lower()):
        return "already cooked before: what was heated again is not raw"
    if pair.kind == "fat":
        return "fat tissue: too little protein to conserve"
    return "collagen: part of the protein melts into gelatine and leaves" if _COLLAGEN.search(name) else ""


def _by_method(pair: Pair) -> str:
    if pair.method is None:
        return "the cooked row does not say how it was cooked"
    if pair.method == "simmered" and pair.kind != "egg":
        return "simmered: part of the protein is left in the broth"
    fried = pair.method == "pan-fried" and "pan" not in pair.cooked.name.lower()
    gained = pair.fat_retention_g_per_g > 1
    return "fried in added fat" if fried and gained else ""


def _by_sample(pair: Pair) -> str:
    if pair.yield_g_per_g > MOST_YIELD:
        return f"yield above {MOST_YIELD} without added water: the samples do not match"
    gain_g = (pair.fat_retention_g_per_g - 1) * pair.raw.value("fat_g")
    gained = pair.fat_retention_g_per_g > MOST_RETENTION and gain_g > MOST_GAIN_G
    return "fat gained without added fat: the samples do not match" if gained else ""
