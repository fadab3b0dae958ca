"""One brief on its way through: what every part of an answer needs to know about it."""

import time
from dataclasses import dataclass

from solver.backends.base import Backend
from solver.brief import Brief
from solver.deadline import Deadline
from solver.formulate import Formulation
from solver.outcome import LevelProof, Proof
from solver.watch import Watch


@dataclass(frozen=True, slots=True, eq=False)
class Task:
    """A formulated brief, who solves it, by when, and when it began (performance counter, seconds).

    watch: shown how far it is; None where nobody looks.
    """

    formulation: Formulation
    backend: Backend
    deadline: Deadline
    began_s: float
    watch: Watch | None = None

    @staticmethod
    def started(formulation: Formulation, backend: Backend, deadline: Deadline, watch: Watch | None = None) -> "Task":
        """A task that begins now."""
        return Task(formulation, backend, deadline, time.perf_counter(), watch)

    @property
    def brief(self) -> Brief:
        """The brief as asked."""
        return self.formulation.brief

    def proof(self, *levels: LevelProof) -> Proof:
        """The proof of an answer that is given now."""
        return Proof(levels, self.backend.name, self.backend.version, time.perf_counter() - self.began_s)
