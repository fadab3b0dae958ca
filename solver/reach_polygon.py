"""The region of two amounts under the musts, as a polygon: its vertices are sought in one direction after another.

What is reachable of two sums under linear rows is a convex polygon. Solving in a direction finds a point of its border;
the direction square to the line between two neighbouring points finds either a point beyond, or the proof that nothing
is beyond that line. Every edge of the answer has been asked so.
"""

from dataclasses import dataclass, field

import numpy as np

from solver.backends.base import Status
from solver.bands import batches
from solver.exactness import mixes_left
from solver.formulate import Formulation
from solver.levels import completed
from solver.numerics import INTEGRALITY, VERIFICATION, FloatArray
from solver.outcome import Checked, ProofStatus
from solver.printing import meets_musts
from solver.quantities import QUANTITY
from solver.reach import Pantry, not_countable
from solver.reach_ends import amounts_at, failed, plain_sum, unlimited
from solver.reach_outcome import Polygon, Vertex
from solver.reach_search import Farthest, Search, Sum
from solver.targets import Target

#: Part of the width of the region: what is nearer to a line than this is on it.
ON_THE_LINE = 1e-9

#: More vertices than this are not sought.
MOST_VERTICES = 400

_FIRST = ((1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0))

_SOURCES = (
    "Whose fat is in the drippings only the amounts decide, and that is no straight edge; ask for the range of each."
)


@dataclass(frozen=True, slots=True, eq=False)
class _Point:
    x: float
    y: float
    found: Farthest


@dataclass(slots=True, eq=False)
class _Asking:
    """A search, what is asked of it, and how wide the region is. status: the last that ended without a point."""

    search: Search
    x: Target
    y: Target
    per: tuple[float, float]
    width: tuple[float, float] = (1.0, 1.0)
    status: Status | None = None
    checked: Checked = Checked.CERTIFICATE
    found: list[_Point] = field(default_factory=list)

    def towards(self, x: float, y: float) -> _Point | None:
        """The point furthest in a direction, in parts of the width."""
        wanted = _merged(
            plain_sum(self.x).times(x / self.width[0] / self.per[0]), self.y, y / self.width[1] / self.per[1]
        )
        found = self.search.most(wanted)
        if not isinstance(found, Farthest):
            self.status = found
            return None
        if found.solved.status is not ProofStatus.OPTIMAL or found.solved.checked is not Checked.CERTIFICATE:
            self.checked = Checked.CLAIM
        point = _Point(self._of(found, self.x, 0), self._of(found, self.y, 1), found)
        self.found.append(point)
        return point

    def _of(self, found: Farthest, target: Target, axis: int) -> float:
        return float(plain_sum(target).weights(found.formulation) @ found.solved.x) / self.per[axis]


def polygon_of(pantry: Pantry, x: Target, y: Target) -> Polygon:
    """The region of two amounts while the musts other than these two hold."""
    counted = pantry.counted(x, y)
    why_not = not_countable(pantry.brief, counted, x, y)
    if why_not is not None:
        return _none(x, y, why_not, pantry)
    brief, asked = pantry.without(x, y), [plain_sum(x), plain_sum(y)]
    search = Search(brief, counted, pantry.backend, pantry.deadline, asked, relaxed=True)
    try:
        if search.depends_on_source:
            return _none(x, y, _SOURCES, pantry)
        asking = _Asking(search, x, y, (batches(x, pantry.brief), batches(y, pantry.brief)))
        points = _border(asking)
        if not points:
            return _none(x, y, failed(asking.status or Status.TIME_LIMIT).note or "", pantry)
        loose = bool(mixes_left(search.formulation))
        return Polygon(
            x=x,
            y=y,
            vertices=tuple(_vertex(point, careful=not search.outer) for point in points),
            outer=search.outer or loose or search.formulation.program.has_integers,
            complete=asking.status is None,
            checked=asking.checked,
            note=_note(points),
            left_out=counted.left_out,
        )
    finally:
        search.close()


def _none(x: Target, y: Target, note: str, pantry: Pantry) -> Polygon:
    left_out = pantry.counted(x, y).left_out
    return Polygon(x, y, (), outer=False, complete=True, checked=Checked.CLAIM, note=note, left_out=left_out)


def _border(asking: _Asking) -> list[_Point]:
    """The vertices, counter-clockwise."""
    first = [point for direction in _FIRST if (point := asking.towards(*direction)) is not None]
    if len(first) < len(_FIRST):
        return _corners(first, asking.width)
    right, top, left, bottom = first
    asking.width = (max(right.x - left.x, VERIFICATION), max(top.y - bottom.y, VERIFICATION))
    points: list[_Point] = []
    for here, following in zip(first, (*first[1:], first[0]), strict=True):
        points += [here, *_between(asking, here, following)]
    return _corners(points, asking.width)


def _between(asking: _Asking, here: _Point, following: _Point) -> list[_Point]:
    """Vertices on the way from one point of the border to another, both excluded."""
    waiting, done = [(here, following)], list[_Point]()
    while waiting and len(asking.found) < MOST_VERTICES:
        start, stop = waiting.pop()
        across = ((stop.y - start.y) / asking.width[1], -(stop.x - start.x) / asking.width[0])
        length = float(np.hypot(*across))
        if length <= ON_THE_LINE:
            continue
        point = asking.towards(across[0] / length, across[1] / length)
        if point is None:
            break
        if _beyond(start, stop, point, asking.width) > ON_THE_LINE:
            done.append(point)
            waiting += [(start, point), (point, stop)]
    if waiting and asking.status is None:
        asking.status = Status.STOPPED
    return done


def _beyond(start: _Point, stop: _Point, point: _Point, width: tuple[float, float]) -> float:
    """How far a point is to the right of the way from start to stop, in parts of the width."""
    along = ((stop.x - start.x) / width[0], (stop.y - start.y) / width[1])
    aside = ((point.x - start.x) / width[0], (point.y - start.y) / width[1])
    length = float(np.hypot(*along))
    return (along[1] * aside[0] - along[0] * aside[1]) / length if length > 0 else float(np.hypot(*aside))


def _corners(points: list[_Point], width: tuple[float, float]) -> list[_Point]:
    """The convex hull, counter-clockwise, without what lies on an edge (Andrew 1979, from memory)."""
    ordered = sorted(points, key=lambda point: (point.x, point.y))
    apart: list[_Point] = []
    for point in ordered:
        if not apart or _apart(apart[-1], point, width) > ON_THE_LINE:
            apart.append(point)
    if len(apart) <= 1:
        return apart
    lower, upper = _chain(apart, width), _chain(apart[::-1], width)
    return [*lower[:-1], *upper[:-1]]


def _chain(points: list[_Point], width: tuple[float, float]) -> list[_Point]:
    chain: list[_Point] = []
    for point in points:
        while len(chain) > 1 and _beyond(chain[-2], point, chain[-1], width) <= ON_THE_LINE:
            chain.pop()
        chain.append(point)
    return chain


def _apart(one: _Point, other: _Point, width: tuple[float, float]) -> float:
    return float(np.hypot((one.x - other.x) / width[0], (one.y - other.y) / width[1]))


def _merged(x: Sum, target: Target, factor: float) -> Sum:
    """Both sums in one, posed together where they count the same basis."""
    y = plain_sum(target).times(factor)
    ((counts, basis),), ((others, other_basis),) = x.terms, y.terms
    if basis is not other_basis:
        return Sum((*x.terms, *y.terms))
    names = dict.fromkeys((*counts, *others))
    return Sum((({name: counts.get(name, 0.0) + others.get(name, 0.0) for name in names}, basis),))


def _vertex(point: _Point, *, careful: bool) -> Vertex:
    formulation, x = point.found.formulation, point.found.solved.x
    return Vertex(point.x, point.y, amounts_at(formulation, x), careful and _is_attained(formulation, x))


def _is_attained(formulation: Formulation, x: FloatArray) -> bool:
    """Whether what was relaxed holds all the same: whole numbers are whole, and no pan pretends."""
    integer, pans = formulation.program.integer, formulation.layout.pan_columns
    if (np.abs(x[integer] - np.round(x[integer])) > INTEGRALITY).any():
        return False
    amounts = x[formulation.layout.use_columns]
    true = completed(formulation, amounts, frozenset())
    return bool((np.abs(true[pans] - x[pans]) <= VERIFICATION).all()) and meets_musts(formulation, amounts)


def _note(points: list[_Point]) -> str | None:
    endless = sorted({name for point in points for name in unlimited(point.found)})
    if not endless:
        return None
    return f"Nothing limits {', '.join(endless)} but the most that a portion may hold; the region would go on."


def is_amount(target: Target) -> bool:
    """Whether it is an amount, and no share or ratio."""
    return QUANTITY[target.of].denominator is None
