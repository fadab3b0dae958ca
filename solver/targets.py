"""A target: a band on an amount, a share or a ratio; a must, or a wish with a priority."""

from dataclasses import dataclass
from enum import Enum


class WeightBasis(Enum):
    """What a target counts: what is eaten after cooking, or what was weighed out (INFOODS's bases of a weight)."""

    AS_EATEN = "as_eaten"
    RAW = "raw"


class Per(Enum):
    """What a target's amount is counted for. A share or a ratio is the same for both."""

    PORTION = "portion"
    BATCH = "batch"


@dataclass(frozen=True, slots=True)
class Target:
    """lower <= quantity <= upper, in the quantity's own unit; at least one side is given.

    of: a name from `quantities`, e.g. "energy_kcal", "fat_share_percent", "ketogenic_ratio", "sodium_mg".
    id: unique in the brief, defaults to `of`. lower, upper: None for an open side.
    aim, within: how the band was written, when it was written so; None otherwise.
    priority: None for a must; otherwise a wish, 1 is met before 2.
    """

    id: str
    of: str
    per: Per = Per.PORTION
    lower: float | None = None
    upper: float | None = None
    aim: float | None = None
    within: float | None = None
    priority: int | None = None
    basis: WeightBasis = WeightBasis.AS_EATEN
