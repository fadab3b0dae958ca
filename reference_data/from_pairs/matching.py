"""Raw and cooked rows of the same food: their descriptions are the same once state and method are taken out."""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from types import MappingProxyType

from solver.catalogue import Catalogue, name_parts
from solver.cooking_kinds import RAW_PARTS, is_raw, kind_of
from solver.foods import Food

#: Words of a description to method, the most telling first. For fish, "dry heat" is an oven, "moist heat" a steamer.
_METHOD: Mapping[str, str] = MappingProxyType(
    {
        "pan-fried": "pan-fried",
        "pan-broil": "pan-fried",
        "pan-browned": "pan-fried",
        "pan-grilled": "pan-fried",
        "fried": "pan-fried",
        "scrambled": "pan-fried",
        "omelet": "pan-fried",
        "roasted": "roasted",
        "slow roast": "roasted",
        "baked": "baked",
        "dry heat": "baked",
        "broiled": "broiled",
        "grilled": "grilled",
        "braised": "braised",
        "stewed": "stewed",
        "simmered": "simmered",
        "boiled": "simmered",
        "poached": "simmered",
        "steamed": "steamed",
        "moist heat": "steamed",
        "microwaved": "microwaved",
    }
)

#: A part that begins so says how the food was cooked or shaped, not what it is.
_STATE = re.compile(
    r"(cooked|heated|roasted|broiled|braised|stewed|simmered|grilled|baked|microwaved?|boiled|steamed|fried|poached"
    r"|hard-boiled|scrambled|omelet|dry heat|moist heat|soaked and|breaded|batter|flour|(fast|slow) (fried|roast)"
    r"|pan[- ]?(fried|broil|browned|grilled)|patt(y|ies) ?(cooked|$)|patties$|loaf$|crumbles$|fresh$|pre-sliced$)"
)

_LOOSE = re.compile(r"[ ,/]+|\((roasts|chops|chops or roasts)\)")


@dataclass(frozen=True, slots=True)
class Pair:
    """A raw and a cooked row. method: None where the cooked row does not say how it was cooked."""

    raw: Food
    cooked: Food
    kind: str
    method: str | None

    @property
    def yield_g_per_g(self) -> float:
        """Protein is conserved: y = P_raw / P_cooked."""
        return self.raw.value("protein_g") / self.cooked.value("protein_g")

    @property
    def fat_retention_g_per_g(self) -> float:
        """As sampled, so above 1 where the samples say so: y F_cooked / F_raw."""
        return self.yield_g_per_g * self.cooked.value("fat_g") / self.raw.value("fat_g")


def find_pairs(catalogue: Catalogue) -> list[Pair]:
    """Every cooked row with the first raw row of the same food, in the order of the cooked rows."""
    raw_of: dict[tuple[str, ...], str] = {}
    for food_id, name in _covered(catalogue):
        if is_raw(name):
            raw_of.setdefault(_what(name), food_id)
    return [
        _pair(catalogue.food(raw_of[_what(name)]), catalogue.food(food_id))
        for food_id, name in _covered(catalogue)
        if _is_cooked(name) and _what(name) in raw_of
    ]


def _covered(catalogue: Catalogue) -> Iterator[tuple[str, str]]:
    for food_id, name, group in zip(catalogue.ids, catalogue.names, catalogue.groups, strict=True):
        if kind_of(name, group) is not None:
            yield food_id, name


def _pair(raw: Food, cooked: Food) -> Pair:
    return Pair(raw, cooked, kind_of(cooked.name, cooked.group) or "", _method(cooked.name))


def _parts(name: str) -> list[str]:
    return [part.strip().lower() for part in name_parts(name)]


def _is_cooked(name: str) -> bool:
    if is_raw(name):
        return False
    return any(_STATE.match(part) and part not in {"fresh", "loaf", "pre-sliced"} for part in _parts(name))


def _what(name: str) -> tuple[str, ...]:
    """What the food is: its parts without state, method and what other parts imply, in any order."""
    kept = {part for part in _parts(name) if part not in RAW_PARTS and not _STATE.match(part)}
    if kept & {"thigh", "drumstick"}:
        kept -= {"dark meat"}
    if "meat only" in kept:
        kept -= {"skinless", "boneless"}
    return tuple(sorted(_LOOSE.sub(" ", part).strip().replace("broiler or", "broilers or") for part in kept))


def _method(name: str) -> str | None:
    """The method of the last part that names one; what is before says what the food is ("broilers or fryers")."""
    for part in reversed(_parts(name)[1:]):
        found = next((method for word, method in _METHOD.items() if re.search(rf"(?<!\w){word}", part)), None)
        if found is not None and "fryers" not in part:
            return found
    return None
