"""Keeping memory small and cheap: few heaps of the C library, and what is free in them goes back.

What a start has made is never looked through for garbage again.
"""

import ctypes
import gc
import sys
from collections.abc import Callable

#: M_ARENA_MAX of mallopt(3), and how many heaps all threads share. Two were as fast here as one a thread.
_M_ARENA_MAX, _ARENAS = -8, 2


def share_heaps() -> None:
    """Let all threads share two heaps, where the C library knows how: glibc does, others have no such setting."""
    mallopt = _of_the_c_library("mallopt")
    if mallopt is not None:
        mallopt(_M_ARENA_MAX, _ARENAS)


def give_back() -> None:
    """Return to the system what is free in the heaps, by malloc_trim(3): glibc keeps it for as long as it lives."""
    trim = _of_the_c_library("malloc_trim")
    if trim is not None:
        trim(0)


def settle() -> None:
    """Call once all that stays is made: the food table and all code are passed over when garbage is collected."""
    gc.collect()
    gc.freeze()


def _of_the_c_library(name: str) -> Callable[..., int] | None:
    return getattr(ctypes.CDLL(None), name, None) if sys.platform == "linux" else None
