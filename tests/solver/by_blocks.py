"""The least grams of one added food by brute force: every food of a table posed alone, all of them in one programme.

One block for each food: the brief's own columns and rows once more, and the column of that food. What a block comes to
does not depend on the others, so the sum of the grams is least where each is. scipy solves it; nothing is searched.
"""

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import block_diag, csr_array

from solver.additions import Offered
from solver.nearest_end import exactly_posed
from solver.numerics import FloatArray
from tests.solver.backends.dense import dense

#: A miss of the musts, in the measure of their rows, that is none.
NO_MISS = 1e-7


def least_grams(offered: Offered) -> FloatArray:
    """(foods,) for the batch, of a brief without whole numbers; infinite where no amount that may be added will do."""
    formulation = exactly_posed(offered.brief)
    layout, program = formulation.layout, formulation.program
    assert not program.has_integers
    place = {use.item.name: column for column, use in enumerate(layout.uses)}
    foods = {number: place[name] for number, name in enumerate(offered.names) if name in place}
    added = set(foods.values())
    own = [column for column in range(layout.width) if column not in added]
    misses = np.array([place for place, column in enumerate(own) if column in _range(layout.miss_columns)])
    blocks = Blocks(dense(program.rows), own, list(foods.values()))
    lower, upper = blocks.spread(program.column_lower), blocks.spread(program.column_upper)
    every_miss = (misses + len(blocks.columns[0]) * np.arange(len(foods))[:, None]).ravel()
    opened = upper.copy()
    opened[every_miss] = np.inf
    cost = np.zeros(len(upper))
    cost[every_miss] = 1.0
    rows = (program.row_lower, program.row_upper)
    missed = blocks.solve(cost, lower, opened, rows)[every_miss].reshape(len(foods), -1).sum(axis=1)
    can = missed <= NO_MISS
    least = np.full(len(offered.names), np.inf)
    if can.any():
        chosen = [number for number, helps in zip(foods, can, strict=True) if helps]
        some = Blocks(dense(program.rows), own, [foods[number] for number in chosen])
        last = np.arange(1, len(chosen) + 1) * (len(own) + 1) - 1
        cost = np.zeros(len(chosen) * (len(own) + 1))
        cost[last] = 1.0
        x = some.solve(cost, some.spread(program.column_lower), some.spread(program.column_upper), rows)
        least[chosen] = x[last] * layout.unit_g[[foods[number] for number in chosen]]
    return least


class Blocks:
    """columns: of each block, the own ones and then the food's."""

    def __init__(self, matrix: FloatArray, own: list[int], foods: list[int]) -> None:
        self.columns = [[*own, food] for food in foods]
        self._matrix = block_diag([csr_array(matrix[:, columns]) for columns in self.columns], format="csr")

    def spread(self, values: FloatArray) -> FloatArray:
        """Values of the programme's columns in the order of the blocks' columns."""
        return np.concatenate([values[columns] for columns in self.columns])

    def solve(
        self, cost: FloatArray, lower: FloatArray, upper: FloatArray, rows: tuple[FloatArray, FloatArray]
    ) -> FloatArray:
        """The point of least cost."""
        least, most = (np.tile(ends, len(self.columns)) for ends in rows)
        answer = milp(cost, bounds=Bounds(lower, upper), constraints=LinearConstraint(self._matrix, least, most))
        assert answer.status == 0, answer.message
        return np.asarray(answer.x, dtype=np.float64)


def _range(columns: slice) -> range:
    return range(columns.start, columns.stop)
