"""What the allocator may hold back."""

import subprocess
import sys

import pytest

#: Many threads that each want memory of their own and give it back; then how many heaps there are, by malloc_info(3).
_HEAPS = """
import ctypes, threading
from service.memory import share_heaps
if {shared}:
    share_heaps()
barrier = threading.Barrier(12)
def work():
    barrier.wait()
    kept = [ctypes.create_string_buffer(5_000) for _ in range(2_000)]
    barrier.wait()
threads = [threading.Thread(target=work) for _ in range(12)]
for each in threads: each.start()
for each in threads: each.join()
libc = ctypes.CDLL(None)
libc.fopen.restype = ctypes.c_void_p
file = ctypes.c_void_p(libc.fopen(b"/dev/stdout", b"w"))
libc.malloc_info(0, file)
libc.fflush(file)
"""


def heaps(*, shared: bool) -> int:
    ran = subprocess.run(
        [sys.executable, "-c", _HEAPS.format(shared=shared)], capture_output=True, text=True, check=True, timeout=60
    )
    return ran.stdout.count("<heap ")


@pytest.mark.skipif(sys.platform != "linux", reason="the setting is one of glibc")
def test_all_threads_share_two_heaps() -> None:
    assert heaps(shared=True) <= 2 < heaps(shared=False)
