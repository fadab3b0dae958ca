"""The few numbers that decide when two floats agree. Every tolerance of the solver is here."""

from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

FloatArray: TypeAlias = NDArray[np.float64]
IntArray: TypeAlias = NDArray[np.int32]
BoolArray: TypeAlias = NDArray[np.bool_]

#: Largest violation of a scaled row or bound that every backend is asked to keep.
FEASIBILITY = 1e-7

#: Largest wrong sign of a reduced cost: small, since item amounts of thousands of grams multiply it in a proof.
DUAL_FEASIBILITY = 1e-9

#: Largest violation that `verify` accepts, relative to max(1, |bound|): ten times what the backends keep,
#: since a row is rescaled before it is recomputed.
VERIFICATION = 1e-6

#: Largest difference, relative to max(1, grams), between the fat that went in and the fat that was eaten and lost.
BALANCE = 1e-9

#: A value nearer to an integer than this is that integer.
INTEGRALITY = 1e-5

#: Absolute values of matrix coefficients a programme may hold; beyond, solvers misread models as infeasible.
LARGEST_COEFFICIENT = 1e4

#: Amounts of items without a step are printed in multiples of this many grams.
PRINTED_STEP_G = 0.1

#: Most grams of one item in one portion; what an item without any limit may grow to.
LARGEST_PORTION_G = 10_000.0

#: Rows are scaled by a power of two so that their largest coefficient is between half of this and this.
ROW_MAGNITUDE = 128.0
