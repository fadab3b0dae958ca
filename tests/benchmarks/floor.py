"""The floor: HiGHS through its own Python interface, given the finished arrays. One level: pass, run, read.

Its options are the library's own but for silence, one thread, and for a stepped brief the gap that ours stops at.
Making the object is not counted.
"""

import time
from dataclasses import dataclass

import highspy
import numpy as np

from solver.brief import Brief
from solver.formulate import Formulation, formulate
from solver.levels import Level, levels
from solver.missing import count


@dataclass(frozen=True, slots=True, eq=False)
class Finished:
    """The arrays of one brief: its programme and its levels."""

    formulation: Formulation
    levels: tuple[Level, ...]

    @classmethod
    def of(cls, brief: Brief) -> "Finished":
        """Pose a brief."""
        formulation = formulate(brief, count(brief))
        return cls(formulation, levels(formulation))


def run_floor(finished: Finished, *, presolve: bool) -> float:
    """Seconds to pass, run and read the first level."""
    highs = highspy.Highs()
    highs.setOptionValue("output_flag", False)  # noqa: FBT003  the library takes no keyword
    highs.setOptionValue("threads", 1)
    highs.setOptionValue("presolve", "on" if presolve else "off")
    first, program = finished.levels[0], finished.formulation.program
    highs.setOptionValue("mip_abs_gap", first.absolute_gap)
    highs.setOptionValue("mip_rel_gap", 0.0)
    rows, integer = program.rows, program.integer.astype(np.int32)
    began = time.process_time()
    highs.passModel(
        len(first.cost),
        rows.height,
        len(rows.value),
        int(highspy.MatrixFormat.kRowwise),
        int(highspy.ObjSense.kMinimize),
        0.0,
        first.cost,
        program.column_lower,
        program.column_upper,
        program.row_lower,
        program.row_upper,
        rows.start,
        rows.index,
        rows.value,
        integer,
    )
    highs.run()
    np.array(highs.getSolution().col_value)
    return time.process_time() - began


def floor_s(finished: Finished, repetitions: int) -> float:
    """Median seconds with the better of presolve on and off."""
    taken = {
        presolve: [run_floor(finished, presolve=presolve) for _ in range(repetitions)] for presolve in (True, False)
    }
    return min(float(np.median(each)) for each in taken.values())
