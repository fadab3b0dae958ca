"""One brief from the body of a request to its answer: what the HTTP face and the command line share."""

from dataclasses import dataclass
from typing import Protocol

from reference_data import reference_folder
from service.schemas.answer import Answer
from service.schemas.brief import BriefBody
from service.search.index import FoodSearch
from service.search.words import load_words
from service.settings import Settings
from service.translate.to_answer import to_answer
from service.translate.to_brief import to_brief
from solver.backends import open_backend
from solver.backends.base import Backend
from solver.backends.stop import Stop
from solver.brief import Brief
from solver.catalogue import Catalogue, load_catalogue
from solver.deadline import Deadline
from solver.outcome import Outcome
from solver.solve import solve as solve_brief


class Solve(Protocol):
    """The seam to the solver."""

    def __call__(self, brief: Brief, backend: Backend, deadline: Deadline | None = None) -> Outcome:
        """Raises UnusableBrief when the brief cannot be posed."""


@dataclass(frozen=True, slots=True)
class Planner:
    """Holds what every brief needs; used by several threads at once."""

    catalogue: Catalogue
    search: FoodSearch
    backend: Backend
    settings: Settings
    solve: Solve = solve_brief

    def brief(self, body: BriefBody) -> Brief:
        """The brief that a body describes. Raises UnusableBrief."""
        return to_brief(body, self.catalogue, self.settings, self.search)

    def answer(self, brief: Brief, deadline: Deadline, stop: Stop | None = None) -> Answer:
        """Solve. Raises UnusableBrief when the brief contradicts itself. stop: ends it before its deadline."""
        backend = self.backend if stop is None else stop.watching(self.backend)
        return to_answer(self.solve(brief, backend, deadline))


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
    return Planner(
        catalogue=foods,
        search=FoodSearch(foods, load_words(reference_folder() / "words.csv")),
        backend=open_backend(settings.backend) if backend is None else backend,
        settings=settings,
        solve=solve,
    )
