"""How HiGHS says that a solve ended, by its own status names."""

from collections.abc import Mapping
from types import MappingProxyType

from solver.backends.base import Status

#: What each means to us; complete, which a test holds.
STATUSES: Mapping[str, Status] = MappingProxyType(
    {
        "kOptimal": Status.OPTIMAL,
        "kModelEmpty": Status.OPTIMAL,
        "kInfeasible": Status.INFEASIBLE,
        "kUnbounded": Status.UNBOUNDED,
        "kUnboundedOrInfeasible": Status.INFEASIBLE_OR_UNBOUNDED,
        "kTimeLimit": Status.TIME_LIMIT,
        "kInterrupt": Status.INTERRUPTED,
        "kHighsInterrupt": Status.INTERRUPTED,
        "kIterationLimit": Status.STOPPED,
        "kSolutionLimit": Status.STOPPED,
        "kMemoryLimit": Status.STOPPED,
        "kObjectiveBound": Status.STOPPED,
        "kObjectiveTarget": Status.STOPPED,
        "kUnknown": Status.STOPPED,
        "kNotset": Status.FAILED,
        "kLoadError": Status.FAILED,
        "kModelError": Status.FAILED,
        "kPresolveError": Status.FAILED,
        "kSolveError": Status.FAILED,
        "kPostsolveError": Status.FAILED,
    }
)
