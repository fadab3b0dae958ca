"""What cautions are drawn up with: their wordings, the safe temperatures, the reference intakes."""

from dataclasses import dataclass
from pathlib import Path

from solver.cautions.caution import Caution, Wordings, load_wordings
from solver.cautions.intakes import Intakes, load_intakes
from solver.cautions.safe_temperatures import US_CONSUMER, SafeTemperatures, load_safe_temperatures


@dataclass(frozen=True, slots=True)
class Book:
    """The tables, and the profile whose temperatures are stated."""

    wordings: Wordings
    temperatures: SafeTemperatures
    intakes: Intakes
    profile: str = US_CONSUMER

    def caution(self, code: str, trigger: str, *, source: str = "", **known: str) -> Caution:
        """A caution of the table; see `Wordings.caution`."""
        return self.wordings.caution(code, trigger, source=source, **known)


def load_book(folder: Path) -> Book:
    """Load the tables of the folder of reference data. Raises ReferenceDataError when one is missing or damaged."""
    return Book(
        load_wordings(folder / "cautions.csv"),
        load_safe_temperatures(folder / "safe_temperatures.csv", folder / "sources.csv"),
        load_intakes(folder / "reference_intakes.csv"),
    )
