"""The solvers behind the seam, and the one table that opens them by name."""

from collections.abc import Callable, Mapping
from types import MappingProxyType

from solver.backends.base import Backend
from solver.errors import BackendError


def _highs() -> Backend:
    from solver.backends.highs import HighsBackend  # noqa: PLC0415  opening one backend imports no other

    return HighsBackend()


def _scipy_highs() -> Backend:
    from solver.backends.scipy_highs import ScipyHighsBackend  # noqa: PLC0415  the same

    return ScipyHighsBackend()


def _pulp_cbc() -> Backend:
    from solver.backends.pulp_cbc import PulpCbcBackend  # noqa: PLC0415  the same

    return PulpCbcBackend()


#: Name of each backend to what makes one. The first is the default; the others are its referees.
BACKENDS: Mapping[str, Callable[[], Backend]] = MappingProxyType(
    {"highs": _highs, "scipy-highs": _scipy_highs, "pulp-cbc": _pulp_cbc},
)


def open_backend(name: str) -> Backend:
    """The backend of that name. Raises BackendError, with the names there are, when there is none."""
    if name not in BACKENDS:
        raise BackendError(f"no backend is named {name!r}; there are {', '.join(BACKENDS)}")
    return BACKENDS[name]()
