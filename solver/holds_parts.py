"""What each component comes to within a tolerance: every total by itself, at its least and at its most.

What is eaten as it is, what is served with its drippings, and pieces that the scale has not spoken of are sums over
their items, so their totals are at their ends where all items are at the same end. Fat that is lost from a mix, or from
a pan that was weighed, is no such sum: there the fat is bounded by `holds_mixes`, and what goes with it by the ends of
the fat that may be lost. A bound may be wider than any one composition, and is never narrower.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from math import fsum
from typing import TypeAlias

from solver.brief import Brief, EnergyBasis
from solver.components import Component, Drippings
from solver.cook import SPOON_G
from solver.drippings import CHOLESTEROL_MG_PER_G_FAT, FATTY_ACIDS
from solver.energy_eaten import MacroEnergy
from solver.holds_mixes import AtEnds, PanEnds
from solver.label_rounding import Interval
from solver.outcome import Quantity, Totals
from solver.tally import Tally, scaled, tally

#: The least and the most of everything. No composition needs to have all of it at once.
Ends: TypeAlias = tuple[Tally, Tally]

_Of: TypeAlias = Callable[[Sequence[float]], float]

#: What runs out with fat, and the most that a gram of fat holds of it.
_WITH_FAT: Mapping[str, float] = {**dict.fromkeys(FATTY_ACIDS, 1.0), "cholesterol_mg": CHOLESTEROL_MG_PER_G_FAT}


def part_ends(component: Component, at_ends: AtEnds, brief: Brief, spoons: Mapping[str, int]) -> Ends:
    """The ends of one component. at_ends: what goes into it, at each end of the tolerance."""
    tallies = [_at_end(each, brief, spoons) for each in at_ends]
    ends = _over(tallies, min), _over(tallies, max)
    if component.method is None or component.drippings is Drippings.SERVED:
        return ends
    if not component.is_mix and not component.is_weighed:
        return ends
    cooked = [each.cooked[0] for each in tallies]
    return _pooled(ends, tallies, PanEnds(component, at_ends, cooked, brief, spoons.get(component.name, 0) * SPOON_G))


def together(parts: Sequence[Tally], like: Tally) -> Tally:
    """All components together. like: the dish as stated, for what does not move."""
    return _combined(parts, fsum, like)


def _at_end(quantities: Sequence[Quantity], brief: Brief, spoons: Mapping[str, int]) -> Tally:
    """Summed up; where less fat runs out than is spooned back, all of it is eaten."""
    sums = tally(quantities, brief, spoons)
    if all(part.lost_g >= 0 for part in sums.cooked):
        return sums
    short = {part.component.name for part in sums.cooked if part.lost_g < 0}
    parts = [replace(each, drippings=Drippings.SERVED) if each.name in short else each for each in brief.parts]
    return tally(quantities, replace(brief, components=tuple(parts)), spoons)


def _over(tallies: Sequence[Tally], of: _Of) -> Tally:
    return _combined(tallies, of, tallies[0])


def _combined(tallies: Sequence[Tally], of: _Of, like: Tally) -> Tally:
    batch = _totals([each.batch for each in tallies], of, like.batch)
    return replace(
        like,
        batch=batch,
        portion=scaled(batch, 1 / like.portions),
        raw=_totals([each.raw for each in tallies], of, like.raw),
        collagen_g=of([each.collagen_g for each in tallies]),
        macro=_macro([each.macro for each in tallies], of),
        raw_macro=_macro([each.raw_macro for each in tallies], of),
    )


def _totals(each: Sequence[Totals], of: _Of, like: Totals) -> Totals:
    known = {name: [part.values[name] for part in each] for name in like.values}
    values = {name: [value for value in found if value is not None] for name, found in known.items()}
    return replace(
        like,
        energy_kcal=of([part.energy_kcal for part in each]),
        energy_kj=of([part.energy_kj for part in each]),
        values={name: of(found) if found else None for name, found in values.items()},
    )


def _macro(each: Sequence[MacroEnergy], of: _Of) -> MacroEnergy:
    names = ("protein", "fat", "carbohydrate", "alcohol")
    return MacroEnergy(*(of([getattr(part, name) for part in each]) for name in names))


def _pooled(ends: Ends, tallies: Sequence[Tally], pan: PanEnds) -> Ends:
    """The ends, with what is lost from a pan that is no sum over its items."""
    fat, kcal = pan.eaten_g(), _kcal_from_fat(ends, pan)
    spans = {"fat_g": fat}
    for name, most in _WITH_FAT.items():
        if ends[0].batch.values[name] is not None:
            spans[name] = _with_fat(name, ends, pan, most)
    macros = [replace(end.macro, fat=value) for end, value in zip(ends, (kcal.low, kcal.high), strict=True)]
    energy = Interval(macros[0].total, macros[1].total)
    if pan.brief.energy_basis is EnergyBasis.DECLARED:
        energy = _stated_energy(tallies, pan)
    low = _changed(ends[0], {name: span.low for name, span in spans.items()}, macros[0], energy.low)
    return low, _changed(ends[1], {name: span.high for name, span in spans.items()}, macros[1], energy.high)


def _changed(end: Tally, values: Mapping[str, float], macro: MacroEnergy, energy_kcal: float) -> Tally:
    batch = replace(end.batch, energy_kcal=energy_kcal, values={**end.batch.values, **values})
    return replace(end, batch=batch, portion=scaled(batch, 1 / end.portions), macro=macro)


def _with_fat(name: str, ends: Ends, pan: PanEnds, most: float) -> Interval:
    """What is eaten of something that runs out with fat. Of a mix that was not weighed it is at its ends as it is."""
    held, raw = pan.per_g_fat(name, most), Interval(*(end.raw.values[name] or 0.0 for end in ends))
    if pan.component.is_weighed:
        return _less(raw, held, pan.lost_g())
    low, high = (end.batch.values[name] or 0.0 for end in ends)
    return Interval(max(low - held.high * pan.half_g, 0.0), min(high + held.high * pan.half_g, raw.high))


def _kcal_from_fat(ends: Ends, pan: PanEnds) -> Interval:
    """The narrower of what is eaten, by what its fat brings, and of what is there less what is lost."""
    held, eaten = pan.kcal_per_g_fat(), pan.eaten_g()
    left = _less(Interval(ends[0].raw_macro.fat, ends[1].raw_macro.fat), held, pan.lost_g())
    return Interval(max(held.low * eaten.low, left.low), min(held.high * eaten.high, left.high))


def _stated_energy(tallies: Sequence[Tally], pan: PanEnds) -> Interval:
    """Stated energy less what goes with the fat, which is no more than is stated."""
    dry = [each.raw.energy_kcal - (each.raw_macro.alcohol - each.macro.alcohol) for each in tallies]
    by_fat, stated = pan.kcal_per_g_fat(), pan.per_g_fat("energy_kcal", pan.kcal_per_g_fat().high)
    held = Interval(min(by_fat.low, stated.low), by_fat.high)
    return _less(Interval(min(dry), max(dry)), held, pan.lost_g())


def _less(raw: Interval, held: Interval, lost_g: Interval) -> Interval:
    return Interval(max(raw.low - held.high * lost_g.high, 0.0), max(raw.high - held.low * lost_g.low, 0.0))
