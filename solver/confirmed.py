"""A way out is confirmed by solving the changed brief like any other."""

from solver.backends.base import Backend
from solver.brief import Brief
from solver.deadline import Deadline
from solver.errors import UnusableBrief
from solver.outcome import Plan
from solver.solve import solve


def plan_of(brief: Brief, backend: Backend, deadline: Deadline) -> Plan | None:
    """The plan of a changed brief; None where there is none, or the change leaves nothing to solve."""
    try:
        outcome = solve(brief, backend, deadline)
    except UnusableBrief:
        return None
    return outcome if isinstance(outcome, Plan) else None
