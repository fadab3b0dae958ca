"""What a request asks to be worked on, and what was last seen of it."""

from collections.abc import Callable
from dataclasses import dataclass

from service.cards.formats import Carded
from service.lanes import Kind as Lane
from service.schemas.dish import DishAnswer
from service.translate.to_progress import best_dish, to_progress
from service.work.kept import Kind
from solver.backends.stop import Stop
from solver.deadline import Deadline
from solver.watch import Look, Watch


@dataclass(frozen=True, slots=True)
class Job:
    """kind: what is asked for. work: makes the answer, ends soon once the stop is set, and shows how far it is.

    deadline: of the answer, from the arrival of the request, waiting included. lane: where it waits and runs.
    """

    kind: Kind
    work: Callable[[Stop, Watch | None], Carded]
    deadline: Deadline
    lane: Lane = Lane.STEPPED


class Latest:
    """The newest look at a solve, from the thread that solves to the one that tells.

    The best dish stays until there is a better one that can be printed as well.
    """

    def __init__(self) -> None:
        self._look: Look | None = None
        self._seen: tuple[str, float | None, float | None] | None = None
        self._printed: object = None
        self._best: DishAnswer | None = None

    def look(self, look: Look) -> None:
        """Remember this one; it costs nothing."""
        self._look = look

    def taken(self) -> str | None:
        """What is to be told, as JSON; None where nothing is new."""
        look = self._look
        if look is None:
            return None
        seen = (look.level.name, look.value, look.bound)
        if seen == self._seen and look.x is self._printed:
            return None
        is_new = look.x is not None and look.x is not self._printed
        self._seen, self._printed = seen, look.x
        if is_new:
            self._best = best_dish(look) or self._best
        return to_progress(look, self._best).model_dump_json()
