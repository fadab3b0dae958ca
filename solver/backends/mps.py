"""Writing a programme down in MPS format, by HiGHS, so that any solver can read it."""

from pathlib import Path

from solver.program import LinearProgram

#: The last line of a whole file.
_END = b"ENDATA\n"


def write_mps(program: LinearProgram, path: Path) -> None:
    """Write `program`, whose columns and rows have numbers for names. path: ends in .mps.

    Raises OSError when the file is not whole: the library itself says nothing of a disk that has no room.
    """
    from solver.backends.highs import HighsSession  # noqa: PLC0415 - the solver is loaded when it is needed

    session = HighsSession(program)
    try:
        session.write(str(path))
    finally:
        session.close()
    with path.open("rb") as file:
        whole = file.read()[-len(_END) :] == _END
    if not whole:
        raise OSError(f"{path.name} could not be written to its end")
