"""Each target's worst case, from the printed amounts: the dish is summed up anew with every item at its adverse end.

Another path than the rows: foods are moved, cooked and tallied one by one. A share is least where its own part is at
its least and all others are at their most, so no vertex is left out. Of a dish with a mix each part is at its worst by
itself, and its fat by what `holds_mixes` adds: then it is a bound, never too narrow.
"""

from collections.abc import Callable, Container, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TypeAlias

from solver.brief import Brief
from solver.drippings import CHOLESTEROL_MG_PER_G_FAT, FATTY_ACIDS
from solver.holds import WorstCase
from solver.holds_ends import Corner, at_end, corners, item_at
from solver.holds_mixes import fat_slack_g, kcal_per_g_fat
from solver.holds_ways import ways_off
from solver.outcome import Quantity
from solver.tally import Tally, tally
from solver.targets import Per, Target, WeightBasis

#: What a target comes to in a tally; None where that is undefined.
ValueOf: TypeAlias = Callable[[Tally], float | None]

_PARTS = ("fat", "protein", "carbohydrate", "alcohol")


@dataclass(frozen=True, slots=True)
class AtEnds:
    """The dish summed up at each end of a tolerance, with the items that are off together.

    less_g, more_g: fat of mixes that may be eaten beyond these ends. kcal_per_g: the most that a gram of it brings.
    """

    tallies: tuple[Tally, ...]
    less_g: float
    more_g: float
    kcal_per_g: float


def at_ends(quantities: Sequence[Quantity], brief: Brief, spoons: Mapping[str, int] | None) -> tuple[AtEnds, ...]:
    """The dish at each end of what the brief has to hold within, once for each way to be off."""
    if brief.holds is None:
        return ()
    names = list(dict.fromkeys(each.item.name for each in quantities))
    ways = ways_off(len(names), brief.holds.most_off)
    return tuple(_at_ends(quantities, brief, spoons, {names[n] for n in way}) for way in ways)


def _at_ends(
    quantities: Sequence[Quantity], brief: Brief, spoons: Mapping[str, int] | None, off: Container[str]
) -> AtEnds:
    assert brief.holds is not None  # noqa: S101  the caller has looked
    moved = [
        [_moved(each, brief, corner) if each.item.name in off else each for each in quantities]
        for corner in corners(brief.holds)
    ]
    tallies = tuple(tally(each, brief, spoons) for each in moved)
    less, more = fat_slack_g(moved, tallies, brief)
    foods = [each.item.food for each in quantities]
    return AtEnds(tallies, less, more, kcal_per_g_fat(foods, brief))


def worst_case(target: Target, ends: Sequence[AtEnds], value_of: ValueOf) -> WorstCase | None:
    """The least and the most that a target can come to; None where it has to hold as stated, or is undefined."""
    found = [worst for each in ends if (worst := _worst_of(target, each, value_of)) is not None]
    if not found:
        return None
    highest = [each.highest for each in found if each.highest is not None]
    return WorstCase(min(each.lowest for each in found), max(highest) if len(highest) == len(found) else None)


def _worst_of(target: Target, ends: AtEnds, value_of: ValueOf) -> WorstCase | None:
    eaten = 0.0 if target.basis is WeightBasis.RAW else 1.0
    less, more = eaten * ends.less_g, eaten * ends.more_g
    if target.of.endswith("_share_percent"):
        return _of_share(target, ends, less * ends.kcal_per_g, more * ends.kcal_per_g)
    if target.of == "ketogenic_ratio":
        return _of_ratio(target, ends.tallies, less, more)
    values = [value for each in ends.tallies if (value := value_of(each)) is not None]
    if not values:
        return None
    part = _per_g_fat(target.of, ends) / (ends.tallies[0].portions if target.per is Per.PORTION else 1)
    return WorstCase(max(min(values) - part * less, 0.0), max(values) + part * more)


def _moved(each: Quantity, brief: Brief, corner: Corner) -> Quantity:
    assert brief.holds is not None  # noqa: S101  the caller has looked
    return replace(each, item=item_at(each.item, brief, corner), placed=at_end(each.placed, brief.holds, corner))


def _per_g_fat(of: str, ends: AtEnds) -> float:
    """The most of a quantity that comes with a gram of fat."""
    if of == "energy_kcal":
        return ends.kcal_per_g
    if of == "cholesterol_mg":
        return CHOLESTEROL_MG_PER_G_FAT
    return 1.0 if of == "fat_g" or of in FATTY_ACIDS else 0.0


def _of_share(target: Target, ends: AtEnds, less: float, more: float) -> WorstCase | None:
    of = target.of.removesuffix("_share_percent")
    macros = [each.raw_macro if target.basis is WeightBasis.RAW else each.macro for each in ends.tallies]
    least = {name: min(getattr(macro, name) for macro in macros) for name in _PARTS}
    most = {name: max(getattr(macro, name) for macro in macros) for name in _PARTS}
    least["fat"], most["fat"] = max(least["fat"] - less, 0.0), most["fat"] + more
    others = [name for name in _PARTS if name != of]
    low, high = (least[of] + sum(most[name] for name in others), most[of] + sum(least[name] for name in others))
    return WorstCase(100 * least[of] / low, 100 * most[of] / high) if low > 0 and high > 0 else None


def _of_ratio(target: Target, tallies: Sequence[Tally], less: float, more: float) -> WorstCase | None:
    totals = [each.raw if target.basis is WeightBasis.RAW else each.batch for each in tallies]
    fat, protein, carbohydrate = (
        [each.values[name] or 0.0 for each in totals] for name in ("fat_g", "protein_g", "available_carbohydrate_g")
    )
    least, most = min(protein) + min(carbohydrate), max(protein) + max(carbohydrate)
    highest = (max(fat) + more) / least if least > 0 else None
    return WorstCase(max(min(fat) - less, 0.0) / most, highest) if most > 0 else None
