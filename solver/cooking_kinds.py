"""What a food is in the cooking table (its kind), and the methods by their trade names, in families of like heat."""

import re
from collections.abc import Mapping
from types import MappingProxyType

from solver.catalogue import name_parts

#: Method to family. Methods of a family dry and render alike, so one may stand in for another. Grouped by kitchen
#: practice; the benchmark of the cooking table measures what that is worth.
FAMILY: Mapping[str, str] = MappingProxyType(
    {
        "roasted": "oven",
        "baked": "oven",
        "hot air": "oven",
        "broiled": "fire",
        "grilled": "fire",
        "pan-fried": "pan",
        "braised": "pot",
        "stewed": "pot",
        "simmered": "pot",
        "steamed": "pot",
        "microwaved": "microwave",
    }
)

#: Groups of the food table that have kinds.
_SPECIES: Mapping[str, str] = MappingProxyType(
    {
        "Beef Products": "beef",
        "Pork Products": "pork",
        "Poultry Products": "poultry",
        "Finfish and Shellfish Products": "fish",
        "Sausages and Luncheon Meats": "sausage",
        "Lamb, Veal, and Game Products": "",
        "Dairy and Egg Products": "egg",
    }
)

_OFFAL = re.compile(
    r"variety meats|\bliver|\bheart|kidney|\btongue|\bbrain|gizzard|giblet|tripe|sweetbread|thymus|pancreas|spleen"
    r"|\blung|\bfeet\b|\btails?\b|\bears\b|chitterling|stomach|jowl|\bskin only|^chicken, skin|^turkey, skin|\bneck\b"
)

#: Tissue that is nearly all fat: no meat to conserve protein in.
_FAT = re.compile(r"(separable|subcutaneous|intermuscular|external|seam) fat\b|fat only|backfat|rendered fat")

_MINCE = re.compile(r"\bground\b")


_PUMPED = re.compile(r"added solution|enhanced|basted|\bham\b|water added|corned|cured, (?!bacon)|canadian")

#: Parts of a description that say that a food is raw.
RAW_PARTS = frozenset({"raw", "unprepared", "uncooked", "unheated"})


def is_raw(name: str) -> bool:
    """Whether a description of the food table says that the food is raw."""
    return any(part.strip().lower() in RAW_PARTS for part in name_parts(name))


def is_pumped(name: str) -> bool:
    """Whether brine went into the meat: what leaves in cooking is then brine first."""
    return _PUMPED.search(name.lower()) is not None


def kind_of(name: str, group: str | None) -> str | None:
    """The kind of a food of the food table, such as "beef, lean and fat"; None for what the table does not cover."""
    low = name.lower()
    species = _SPECIES.get(group or "")
    if species is None or (species == "egg" and not low.startswith("egg,")):
        return None
    return _mixture(low) or _part(low) or _cut(low, species)


def _mixture(low: str) -> str | None:
    if _MINCE.search(low):
        return "mince"
    return next((word for word in ("sausage", "bacon") if word in low), None)


def _part(low: str) -> str | None:
    if _OFFAL.search(low):
        return "offal"
    return "fat" if _FAT.search(low) else None


def _cut(low: str, species: str) -> str:
    if species == "poultry":
        return "poultry, meat and skin" if "meat and skin" in low else "poultry, meat only"
    if species == "fish":
        return "fish" if low.startswith("fish") else "shellfish"
    if species in {"sausage", "egg"}:
        return species
    return (species or _first_word(low)) + _trim(low)


def _first_word(low: str) -> str:
    word = re.split(r"[ ,]", low)[0]
    return word if word in {"lamb", "veal"} else "game"


def _trim(low: str) -> str:
    if "lean and fat" in low:
        return ", lean and fat"
    return ", lean only" if "lean only" in low else ""
