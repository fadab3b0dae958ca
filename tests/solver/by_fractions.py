"""Polytopes in exact arithmetic: every vertex by trying every set of rows, so that nothing is shared with a solver."""

from collections.abc import Sequence
from fractions import Fraction
from itertools import combinations
from typing import TypeAlias

Point: TypeAlias = tuple[Fraction, ...]

#: coefficients @ x >= least.
Row: TypeAlias = tuple[Sequence[int | Fraction], int | Fraction]


def box(*most: int | Fraction) -> list[Row]:
    """0 <= x <= most."""
    rows: list[Row] = []
    for place, end in enumerate(most):
        unit = [int(other == place) for other in range(len(most))]
        rows += [(unit, 0), ([-each for each in unit], -end)]
    return rows


def exactly(coefficients: Sequence[int | Fraction], value: int | Fraction) -> list[Row]:
    return [(coefficients, value), ([-each for each in coefficients], -value)]


def vertices(rows: Sequence[Row]) -> list[Point]:
    """All vertices of what meets the rows."""
    size = len(rows[0][0])
    found = (_meeting(chosen) for chosen in combinations(rows, size))
    return list({point for point in found if point is not None and all(dot(row, point) >= end for row, end in rows)})


def dot(row: Sequence[int | Fraction], point: Point) -> Fraction:
    return sum((Fraction(a) * x for a, x in zip(row, point, strict=True)), Fraction(0))


def _meeting(rows: Sequence[Row]) -> Point | None:
    """Where the rows hold with equality, by Gauss and Jordan; None where that is no single point."""
    table = [[Fraction(each) for each in (*row, end)] for row, end in rows]
    for column in range(len(table)):
        pivot = next((n for n in range(column, len(table)) if table[n][column] != 0), None)
        if pivot is None:
            return None
        table[column], table[pivot] = table[pivot], table[column]
        first = table[column][column]
        table[column] = [each / first for each in table[column]]
        for n in range(len(table)):
            if n != column:
                factor = table[n][column]
                table[n] = [a - factor * b for a, b in zip(table[n], table[column], strict=True)]
    return tuple(row[-1] for row in table)


def hull(points: Sequence[Point]) -> list[Point]:
    """Corners of the convex hull of points of the plane, counter-clockwise, by gift wrapping."""
    here = start = min(points)
    corners = []
    while True:
        corners.append(here)
        following = next(point for point in points if point != here)
        for point in points:
            turn = _turn(here, following, point)
            if turn < 0 or (turn == 0 and _far(here, point) > _far(here, following)):
                following = point
        here = following
        if here == start:
            return corners


def _turn(a: Point, b: Point, c: Point) -> Fraction:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def _far(a: Point, b: Point) -> Fraction:
    return (b[0] - a[0]) ** 2 + (b[1] - a[1]) ** 2
