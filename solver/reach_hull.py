"""The convex hull of points of a region, which are as wide apart as the region is."""

from dataclasses import dataclass

import numpy as np

from solver.reach_search import Farthest

#: Part of the width of the region: what is nearer to a line than this is on it.
ON_THE_LINE = 1e-9


@dataclass(frozen=True, slots=True, eq=False)
class Point:
    """A point of the border, in the units of the two amounts, and the dish there."""

    x: float
    y: float
    found: Farthest


def beyond(start: Point, stop: Point, point: Point, width: tuple[float, float]) -> float:
    """How far a point is to the right of the way from start to stop, in parts of the width."""
    along = ((stop.x - start.x) / width[0], (stop.y - start.y) / width[1])
    aside = ((point.x - start.x) / width[0], (point.y - start.y) / width[1])
    length = float(np.hypot(*along))
    return (along[1] * aside[0] - along[0] * aside[1]) / length if length > 0 else float(np.hypot(*aside))


def corners(points: list[Point], width: tuple[float, float]) -> list[Point]:
    """The convex hull, counter-clockwise, without what lies on an edge (Andrew 1979, from memory)."""
    ordered = sorted(points, key=lambda point: (point.x, point.y))
    apart: list[Point] = []
    for point in ordered:
        if not apart or _apart(apart[-1], point, width) > ON_THE_LINE:
            apart.append(point)
    if len(apart) <= 1:
        return apart
    lower, upper = _chain(apart, width), _chain(apart[::-1], width)
    return [*lower[:-1], *upper[:-1]]


def _chain(points: list[Point], width: tuple[float, float]) -> list[Point]:
    chain: list[Point] = []
    for point in points:
        while len(chain) > 1 and beyond(chain[-2], point, chain[-1], width) <= ON_THE_LINE:
            chain.pop()
        chain.append(point)
    return chain


def _apart(one: Point, other: Point, width: tuple[float, float]) -> float:
    return float(np.hypot((one.x - other.x) / width[0], (one.y - other.y) / width[1]))
