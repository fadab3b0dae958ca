"""Pans: the drippings of a component, where the programme has to know how much fat ran out of it.

Rendered fat D of a mix is the greatest of the lines  f - a_k m - b_k f  over its fat f and the mass m that holds fat,
so D is convex. What the scale said of a pan, or of what is finished in it, is a number. Pieces render in proportion to
each of them.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from solver.as_eaten import COLUMNS, PLACE, rendered
from solver.components import Component, Drippings
from solver.cook import Content, cook, rendered_part
from solver.cooked import CookedComponent
from solver.cooking_curves import holding_part
from solver.numerics import FloatArray, IntArray
from solver.pantry import PantryItem
from solver.uses import Use

#: The part of what rendered that a spoon can be sure to find; the rest clings (common practice, no source: 80 to 90 %).
SPOONABLE = 0.8


@dataclass(frozen=True, slots=True, eq=False)
class Pan:
    """The drippings of one component.

    members: (n,) numbers of the uses that go into it. fat, own: (n,) g fat per g raw, and g that renders per g raw by
    itself (0 in a mix). lines: (k, n), g rendered per g raw of each member by each line of a mix; empty otherwise.
    settled: what became of it, where the scale or its being finished leaves nothing open; None otherwise.
    sources: (s, len(COLUMNS)), what 100 g of rendered fat of each member that has fat takes along.
    spoon: number of the use that is its drippings spooned back; None where none are.
    """

    component: Component
    members: IntArray
    fat: FloatArray
    own: FloatArray
    lines: FloatArray
    settled: CookedComponent | None
    sources: FloatArray
    spoon: int | None

    @property
    def has_column(self) -> bool:
        """Whether the rendered fat is a column: it is no sum over the members, and it matters where it goes."""
        is_sum = len(self.lines) == 0 and self.settled is None
        return not is_sum and self.component.drippings is not Drippings.SERVED

    @property
    def rising(self) -> FloatArray:
        """The lines that can be above 0, which only a pan that is not settled needs."""
        return self.lines[:0] if self.settled is not None else self.lines[(self.lines > 0).any(axis=1)]

    @property
    def spoonable(self) -> float:
        """The part of the rendered fat that may be spooned back: all of what was weighed."""
        return 1.0 if self.component.drippings_g is not None else SPOONABLE

    def rendered_g(self, grams: FloatArray) -> float:
        """What renders for grams of all uses, (uses,): the exact curve, by this path's own arithmetic."""
        if self.settled is not None:
            return self.settled.rendered_g
        raw = grams[self.members]
        if len(self.lines):
            return max(float((self.lines @ raw).max()), 0.0)
        return float(self.own @ raw)

    def steepest(self) -> FloatArray:
        """The most that one gram more of each member can change what renders, (n,) g per g."""
        if self.settled is not None:
            return np.zeros(len(self.members))
        return np.abs(self.lines).max(axis=0) if len(self.lines) else self.own


def pans_of(components: Sequence[Component], uses: Sequence[Use], raw: FloatArray) -> tuple[Pan, ...]:
    """The pan of every component that is cooked. raw: (uses, len(COLUMNS)), per 100 g."""
    found = (_pan(component, uses, raw) for component in components if component.method is not None)
    return tuple(pan for pan in found if len(pan.members))


def _pan(component: Component, uses: Sequence[Use], raw: FloatArray) -> Pan:
    inside = [n for n, use in enumerate(uses) if use.component is component]
    members = np.array([n for n in inside if not uses[n].is_spoon], dtype=np.int32)
    fat = np.nan_to_num(raw[members, PLACE["fat_g"]]) / 100
    own = fat * np.array([rendered_part(component, uses[n].placed) for n in members])
    settled = _settled(component, [uses[n].item for n in members], uses)
    can_render = fat > 0 if component.is_mix or component.is_weighed else own > 0
    sources = _sources(raw[members[can_render]])
    return Pan(
        component=component,
        members=members,
        fat=fat,
        own=own,
        lines=_lines(component, fat, raw[members, PLACE["protein_g"]] / 100),
        settled=settled,
        sources=sources if settled is None else _mixture(raw[members], settled),
        spoon=next((n for n in inside if uses[n].is_spoon), None),
    )


def _lines(component: Component, fat: FloatArray, protein: FloatArray) -> FloatArray:
    if component.curve is None:
        return np.empty((0, len(fat)))
    holding = np.array([holding_part(*of) for of in zip(fat, protein, strict=True)])
    return np.array([fat - line.a_g_per_g * holding - line.b_g_per_g * fat for line in component.curve.segments])


def _settled(component: Component, items: Sequence[PantryItem], uses: Sequence[Use]) -> CookedComponent | None:
    if not component.is_weighed and not (component.is_mix and component.finished):
        return None
    placed = {use.item.name: use.placed for use in uses if use.component is component}
    contents = [Content(item.name, item.food, item.at_least_g, placed[item.name]) for item in items]
    return cook(component, contents)


def _mixture(raw: FloatArray, settled: CookedComponent) -> FloatArray:
    """What 100 g of the rendered fat of a settled pan take along: its true mixture, one source."""
    parts = [(row, item.rendered_g) for row, item in zip(raw, settled.items, strict=True) if item.rendered_g > 0]
    if not parts:
        return np.empty((0, len(COLUMNS)))
    total = sum(grams for _, grams in parts)
    rows = [rendered(row) / row[PLACE["fat_g"]] * (100 * grams / total) for row, grams in parts]
    return np.asarray(np.sum(rows, axis=0)[None, :])


def _sources(raw: FloatArray) -> FloatArray:
    rows = [rendered(row) / row[PLACE["fat_g"]] * 100 for row in raw if row[PLACE["fat_g"]] > 0]
    return np.unique(np.array(rows).reshape(-1, len(COLUMNS)), axis=0)
