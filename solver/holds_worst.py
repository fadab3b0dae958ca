"""Each target's worst case, from the printed amounts: the dish is summed up anew with every item at its adverse end.

Another path than the rows: foods are moved, cooked and tallied one by one, component by component (`holds_parts`). A
share is least where its own part is at its least and all others are at their most, so no vertex is left out. Of a dish
with a pan that is no sum over its items it is a bound, never too narrow.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import groupby
from typing import TypeAlias

from solver.brief import Brief
from solver.holds import WorstCase
from solver.holds_ends import Corner, at_end, corners, item_at
from solver.holds_parts import Ends, part_ends, together
from solver.holds_ways import ways_off
from solver.outcome import Quantity
from solver.tally import Tally, tally
from solver.targets import Target, WeightBasis

#: What a target comes to in a tally; None where that is undefined.
ValueOf: TypeAlias = Callable[[Tally], float | None]

_PARTS = ("fat", "protein", "carbohydrate", "alcohol")


@dataclass(frozen=True, slots=True)
class AtEnds:
    """The dish with the items that are off together: the least of everything in it, and the most."""

    tallies: Ends


def at_ends(quantities: Sequence[Quantity], brief: Brief, spoons: Mapping[str, int] | None) -> tuple[AtEnds, ...]:
    """The dish at the ends of what the brief has to hold within, once for each way to be off."""
    if brief.holds is None:
        return ()
    stated = tally(quantities, brief, spoons)
    names = list(dict.fromkeys(each.item.name for each in quantities))
    parts = _Components(brief, spoons or {}, _by_component(quantities))
    return tuple(
        parts.at_ends(frozenset(names[n] for n in way), stated) for way in ways_off(len(names), brief.holds.most_off)
    )


def worst_case(target: Target, ends: Sequence[AtEnds], value_of: ValueOf) -> WorstCase | None:
    """The least and the most that a target can come to; None where it has to hold as stated, or is undefined."""
    found = [worst for each in ends if (worst := _worst_of(target, each.tallies, value_of)) is not None]
    if not found:
        return None
    highest = [each.highest for each in found if each.highest is not None]
    return WorstCase(min(each.lowest for each in found), max(highest) if len(highest) == len(found) else None)


class _Components:
    """The components of a dish, each summed up once for every choice of its items that are off."""

    def __init__(self, brief: Brief, spoons: Mapping[str, int], inside: Mapping[str, Sequence[Quantity]]) -> None:
        self._brief, self._spoons, self._inside = brief, spoons, inside
        self._found: dict[tuple[str, frozenset[str]], Ends] = {}

    def at_ends(self, off: frozenset[str], stated: Tally) -> AtEnds:
        """The dish with these items off."""
        ends = [self._of(name, off) for name in self._inside]
        return AtEnds((together([low for low, _ in ends], stated), together([high for _, high in ends], stated)))

    def _of(self, name: str, off: frozenset[str]) -> Ends:
        inside, holds = self._inside[name], self._brief.holds
        assert holds is not None  # noqa: S101  the caller has looked
        key = name, off.intersection(each.item.name for each in inside)
        if key not in self._found:
            component = next(part for part in self._brief.parts if part.name == name)
            moved = [
                [_moved(each, self._brief, corner) if each.item.name in off else each for each in inside]
                for corner in corners(holds)
            ]
            self._found[key] = part_ends(component, moved, self._brief, self._spoons)
        return self._found[key]


def _by_component(quantities: Sequence[Quantity]) -> dict[str, list[Quantity]]:
    ordered = sorted(quantities, key=lambda each: each.placed.component)
    return {name: list(inside) for name, inside in groupby(ordered, key=lambda each: each.placed.component)}


def _moved(each: Quantity, brief: Brief, corner: Corner) -> Quantity:
    assert brief.holds is not None  # noqa: S101  the caller has looked
    return replace(each, item=item_at(each.item, brief, corner), placed=at_end(each.placed, brief.holds, corner))


def _worst_of(target: Target, ends: Ends, value_of: ValueOf) -> WorstCase | None:
    if target.of.endswith("_share_percent"):
        return _of_share(target, ends)
    if target.of == "ketogenic_ratio":
        return _of_ratio(target, ends)
    lowest, highest = (value_of(each) for each in ends)
    return None if lowest is None or highest is None else WorstCase(lowest, highest)


def _of_share(target: Target, ends: Ends) -> WorstCase | None:
    of = target.of.removesuffix("_share_percent")
    macros = [each.raw_macro if target.basis is WeightBasis.RAW else each.macro for each in ends]
    least, most = ({name: float(getattr(macro, name)) for name in _PARTS} for macro in macros)
    others = [name for name in _PARTS if name != of]
    low, high = (least[of] + sum(most[name] for name in others), most[of] + sum(least[name] for name in others))
    return WorstCase(100 * least[of] / low, 100 * most[of] / high) if low > 0 and high > 0 else None


def _of_ratio(target: Target, ends: Ends) -> WorstCase | None:
    totals = [each.raw if target.basis is WeightBasis.RAW else each.batch for each in ends]
    (fat, most_fat), *others = (
        [each.values[name] or 0.0 for each in totals] for name in ("fat_g", "protein_g", "available_carbohydrate_g")
    )
    least, most = (sum(of[end] for of in others) for end in (0, 1))
    highest = most_fat / least if least > 0 else None
    return WorstCase(fat / most, highest) if most > 0 else None
