"""One moment by which all levels of a solve must have ended."""

import time
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Deadline:
    """A point on the monotonic clock, seconds."""

    at_s: float

    @staticmethod
    def after(seconds: float) -> "Deadline":
        """The moment `seconds` from now."""
        return Deadline(time.monotonic() + seconds)

    def remaining_s(self) -> float:
        """Seconds left, never negative."""
        return max(0.0, self.at_s - time.monotonic())

    def share(self, part: float) -> "Deadline":
        """An earlier deadline that takes `part` (0 to 1) of what is left."""
        return Deadline(self.at_s - self.remaining_s() * (1 - part))
