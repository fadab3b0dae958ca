"""Sparse rows as an ordinary array, for tests."""

import numpy as np

from solver.numerics import FloatArray
from solver.program import Rows


def dense(rows: Rows) -> FloatArray:
    matrix = np.zeros((rows.height, rows.width))
    for row in range(rows.height):
        for entry in range(rows.start[row], rows.start[row + 1]):
            matrix[row, rows.index[entry]] = rows.value[entry]
    return matrix
