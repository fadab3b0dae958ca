"""Keeping standard output for the answer alone.

Native solver code can write stray lines to the C library's standard output, past Python. While a brief is solved,
file descriptor 1 leads to standard error; the answer is written to a duplicate of the real one.
"""

import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from typing import TextIO


@contextmanager
def standard_output_kept_clean() -> Iterator[TextIO]:
    """A text stream to the real standard output; everything else that is written there goes to standard error."""
    sys.stdout.flush()
    kept = os.dup(1)
    os.dup2(2, 1)
    try:
        with os.fdopen(os.dup(kept), "w", encoding="utf-8") as answers:
            yield answers
    finally:
        sys.stdout.flush()
        os.dup2(kept, 1)
        os.close(kept)
