"""Portions of a dish as eaten: what each weighs, of which components, and what is in it."""

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from solver.cooked import CookedComponent
from solver.outcome import Totals
from solver.portion_scale import weigh_out_g
from solver.portion_shares import How, shares_of
from solver.tally import scaled


@dataclass(frozen=True, slots=True)
class Division:
    """How the dish is divided. scale_g: the step of the kitchen scale, 1 or 0.1 g."""

    how: How
    scale_g: float = 1.0


@dataclass(frozen=True, slots=True)
class OfComponent:
    """What of a component is in a portion, as eaten with its drippings: exact, and as the scale shows it."""

    grams: float
    weigh_out_g: float


@dataclass(frozen=True, slots=True)
class Portion:
    """A share of the batch, and the same share of everything in it.

    share: exact; all shares sum to 1. totals: of the portion as eaten; its grams are exact. components: by name.
    weigh_out_g: of the whole portion in steps of the scale; over all portions these sum to the batch on the scale, and
    those of each component to the component. So the components of one portion may differ from it by a few steps.
    pieces: None where the dish is not cut. leftover: nobody eats it now.
    """

    name: str
    share: Fraction
    totals: Totals
    weigh_out_g: float
    components: Mapping[str, OfComponent]
    pieces: int | None
    leftover: bool

    @property
    def grams(self) -> float:
        """Weight as eaten, exact."""
        return self.totals.grams


def divide(batch: Totals, cooked: tuple[CookedComponent, ...], division: Division, at: str = "") -> tuple[Portion, ...]:
    """The portions in the order asked for, then what is left.

    batch: as eaten; its energy is what portions by energy are counted from, and where a value is lacking that is a
    lower bound. cooked: the components that the batch is made of. at: JSON pointer to the division.
    Raises UnusableBrief: repeated_portion, not_positive, nothing_to_divide, no_pieces_left, portions_exceed_batch.
    """
    slices = shares_of(division.how, batch, at)
    shares = [each.share for each in slices]
    on_scale = weigh_out_g(batch.grams, shares, division.scale_g)
    parts = {each.component.name: weigh_out_g(each.eaten_g, shares, division.scale_g) for each in cooked}
    return tuple(
        Portion(
            name=each.name,
            share=each.share,
            totals=scaled(batch, float(each.share)),
            weigh_out_g=on_scale[n],
            components={
                part.component.name: OfComponent(part.eaten_g * float(each.share), parts[part.component.name][n])
                for part in cooked
            },
            pieces=each.pieces,
            leftover=each.leftover,
        )
        for n, each in enumerate(slices)
    )
