"""Where in a brief a translator is, so that each thing it refuses gets its pointer and none stops the others."""

from dataclasses import dataclass, field

from service.body import pointer
from service.problems import MOST_LISTED
from solver.errors import AmountError, Problem


@dataclass(frozen=True, slots=True)
class Place:
    """A path into the document. All places made from one root share its list of problems."""

    path: tuple[str | int, ...] = ()
    problems: list[Problem] = field(default_factory=list)

    def __truediv__(self, part: str | int) -> "Place":
        return Place((*self.path, part), self.problems)

    @property
    def is_full(self) -> bool:
        """More has been refused than is listed, so hints are no longer worth their time."""
        return len(self.problems) > MOST_LISTED

    def refuse(self, code: str, detail: str, remedy: str) -> None:
        """Note a problem here."""
        self.problems.append(Problem(pointer(self.path), code, detail, remedy))

    def refuse_amount(self, error: AmountError) -> None:
        """Note an amount that cannot be read or weighed here."""
        self.refuse(error.code, error.detail, error.remedy)
