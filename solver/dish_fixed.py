"""A dish whose amounts are settled: what went in, what was taken out, and what it came to."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from solver.components import Component
from solver.outcome import Quantity


@dataclass(frozen=True, slots=True, eq=False)
class FixedDish:
    """A dish whose amounts are settled. Its ingredients have names of their own; their foods may be dishes.

    quantities: what went in, raw grams, also of what did not stay. components: empty when nothing is cooked.
    spoons: name of a component to teaspoons of its drippings that are spooned back.
    yield_g: what it weighs as eaten; None where nobody weighed it: then what the cooking table leaves of it.
    measure: amount and unit that it comes to, such as (1.5, "cup"); None where nobody measured it.
    strained_out: names of ingredients that were taken out whole; none of their numbers count.
    skimmed_fat_g: fat skimmed off, of all ingredients in proportion to their fat.
    discarded: names of ingredients, each with the raw grams that were thrown away, such as of a marinade.
    """

    name: str
    quantities: tuple[Quantity, ...]
    components: tuple[Component, ...] = ()
    spoons: Mapping[str, int] = field(default_factory=dict)
    yield_g: float | None = None
    measure: tuple[float, str] | None = None
    strained_out: frozenset[str] = frozenset()
    skimmed_fat_g: float = 0.0
    discarded: tuple[tuple[str, float], ...] = ()
