"""One brief from the body of a request to its answer: what the HTTP face and the command line share."""

from dataclasses import dataclass, field
from typing import Protocol

from reference_data import reference_folder
from service.beside import look_beside
from service.keeping import Keeper, keeper_of
from service.schemas.answer import Answer
from service.schemas.breakdown import BreakdownAnswer
from service.schemas.breakdown_body import BreakdownBody
from service.schemas.brief import BriefBody
from service.search.index import FoodSearch
from service.search.words import load_words
from service.settings import Settings
from service.translate.asked import Asked, to_asked
from service.translate.breakdown import to_given_dish
from service.translate.reference import Reference, open_reference
from service.translate.to_answer import to_answer
from service.translate.to_breakdown import to_breakdown
from solver.backends import open_backend
from solver.backends.base import Backend
from solver.backends.stop import Stop
from solver.brief import Brief
from solver.catalogue import Catalogue, load_catalogue
from solver.deadline import Deadline
from solver.outcome import Outcome
from solver.solve import solve as solve_brief
from solver.watch import Watch


class Solve(Protocol):
    """The seam to the solver."""

    def __call__(
        self, brief: Brief, backend: Backend, deadline: Deadline | None = None, *, watch: Watch | None = None
    ) -> Outcome:
        """Raises UnusableBrief when the brief cannot be posed."""


@dataclass(frozen=True, slots=True)
class Planner:
    """Holds what every brief needs; used by several threads at once."""

    catalogue: Catalogue
    search: FoodSearch
    reference: Reference
    backend: Backend
    settings: Settings
    solve: Solve = solve_brief
    keeper: Keeper = field(default_factory=Keeper)

    def asked(self, body: BriefBody) -> Asked:
        """What a body asks for. Raises UnusableBrief."""
        return to_asked(body, self.reference, self.settings)

    def broken_down(self, body: BreakdownBody) -> BreakdownAnswer:
        """The numbers of a dish as it is. Raises UnusableBrief."""
        return to_breakdown(to_given_dish(body, self.reference, self.settings), self.reference)

    def answer(self, asked: Asked, deadline: Deadline, stop: Stop | None = None, watch: Watch | None = None) -> Answer:
        """Solve. Raises UnusableBrief when the brief contradicts itself.

        stop: ends it before its deadline. watch: shown how far it is.
        """
        with self.keeper.asked("plan", asked.body, self.backend, stop) as kept:
            outcome = self.solve(asked.brief, kept.backend, deadline, watch=watch)
            limit_s = self.settings.ways_out_time_s
            beside = look_beside(asked, outcome, self.reference, kept.backend, deadline, ways_out_time_s=limit_s)
            answer = to_answer(asked, outcome, self.reference, beside)
            kept.undecided = answer if answer.outcome == "undecided" else None
        return answer


def open_planner(
    settings: Settings,
    *,
    backend: Backend | None = None,
    catalogue: Catalogue | None = None,
    solve: Solve = solve_brief,
) -> Planner:
    """A planner with the catalogue and the solver that the settings name, unless they are given."""
    folder = settings.food_table or reference_folder() / "sr28"
    foods = load_catalogue(folder) if catalogue is None else catalogue
    search = FoodSearch(foods, load_words(reference_folder() / "words.csv"))
    return Planner(
        catalogue=foods,
        search=search,
        reference=open_reference(reference_folder(), foods, search),
        backend=open_backend(settings.backend) if backend is None else backend,
        settings=settings,
        solve=solve,
        keeper=keeper_of(settings),
    )
