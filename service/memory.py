"""Keeping what the allocator of the C library holds back small, since every thread would get a heap of its own."""

import ctypes
import sys

#: M_ARENA_MAX of mallopt(3), and how many heaps all threads share. Two were as fast here as one a thread.
_M_ARENA_MAX, _ARENAS = -8, 2


def share_heaps() -> None:
    """Let all threads share two heaps, where the C library knows how: glibc does, others have no such setting."""
    if sys.platform == "linux":
        mallopt = getattr(ctypes.CDLL(None), "mallopt", None)
        if mallopt is not None:
            mallopt(_M_ARENA_MAX, _ARENAS)
