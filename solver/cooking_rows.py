"""What the cooking table says of one food or one mix under one method."""

from dataclasses import dataclass

from solver.cooking_curves import Segment, fat_kept_g


@dataclass(frozen=True, slots=True)
class CookingRow:
    """One food or kind under one method, all in g as eaten per g raw.

    fat_retention: capped at 1, since no fat was added; as_sampled, without the cap: lean that was cooked under its fat
    or skin gains some. low, high: the 90 % interval around what was sampled. measured: a pair of this very food, else
    an estimate. pairs: how many pairs of this kind and method stand behind it; why: the evidence in words.
    """

    method: str
    kind: str
    measured: bool
    yield_g_per_g: float
    yield_half_interval_g_per_g: float
    fat_retention_g_per_g: float
    fat_retention_as_sampled_g_per_g: float
    fat_retention_low_g_per_g: float
    fat_retention_high_g_per_g: float
    pairs: int
    why: str
    source: str


#: Share of fat by which a mix may be outside what was measured and count as inside (our choice).
_NEARLY = 0.005


@dataclass(frozen=True, slots=True)
class FatCurve:
    """A mix under one method. Half-intervals are of 90 %, g per g raw; it was measured from least_fat to most_fat."""

    mix: str
    method: str
    segments: tuple[Segment, ...]
    yield_at_no_fat_g_per_g: float
    yield_lost_per_fat_g_per_g: float
    yield_half_interval_g_per_g: float
    fat_kept_half_interval_g_per_g: float
    least_fat_g_per_g: float
    most_fat_g_per_g: float
    rows: int
    why: str
    source: str

    def fat_kept_g(self, holding_g: float, fat_g: float) -> float:
        """Fat kept, g, of a raw mix with this mass that holds fat, of which `fat_g` is fat."""
        return fat_kept_g(self.segments, holding_g, fat_g)

    def covers(self, mass_g: float, fat_g: float) -> bool:
        """Whether a mix is as fat as those that were measured, to half a percent of its mass."""
        least, most = self.least_fat_g_per_g - _NEARLY, self.most_fat_g_per_g + _NEARLY
        return least * mass_g <= fat_g <= most * mass_g

    def cooked_g(self, mass_g: float, fat_g: float) -> float:
        """Weight as eaten, g, drippings apart."""
        return self.yield_at_no_fat_g_per_g * mass_g - self.yield_lost_per_fat_g_per_g * fat_g


@dataclass(frozen=True, slots=True)
class MethodSpread:
    """What the table states about a kind and a method: half-interval of yield, factor of retention, evidence."""

    yield_half: float
    factor: float
    pairs: int
    why: str
