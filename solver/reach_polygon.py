"""The region of two amounts under the musts, as a polygon: its vertices are sought in one direction after another.

What is reachable of two sums under linear rows is a convex polygon. Solving in a direction finds a point of its border;
the direction square to the line between two neighbouring points finds either a point beyond, or the proof that nothing
is beyond that line. Every edge of the answer has been asked so.
"""

from contextlib import closing
from dataclasses import dataclass, field

import numpy as np

from solver.backends.base import Status
from solver.bands import batches
from solver.exactness import mixes_left
from solver.formulate import Formulation
from solver.levels import completed
from solver.meets import meets_musts
from solver.missing import Counted
from solver.numerics import INTEGRALITY, VERIFICATION, FloatArray
from solver.outcome import Checked, ProofStatus
from solver.quantities import QUANTITY
from solver.reach import Pantry, not_countable
from solver.reach_ends import amounts_at, failed, plain_sum, unlimited
from solver.reach_hull import ON_THE_LINE, Point, beyond, corners
from solver.reach_outcome import Polygon, Vertex
from solver.reach_search import Farthest, Search, Sum
from solver.targets import Target

#: More vertices than this are not sought.
MOST_VERTICES = 400

_FIRST = ((1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0))

_SOURCES = (
    "Whose fat is in the drippings only the amounts decide, and that is no straight edge; ask for the range of each."
)


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
    found: list[Point] = field(default_factory=list)
    gaps: list[tuple[float | None, float, float]] = field(default_factory=list)

    def towards(self, x: float, y: float) -> Point | None:
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
        gap = None if found.beyond is None else max(found.beyond - found.most, 0.0)
        self.gaps.append((gap, x / self.width[0], y / self.width[1]))
        point = Point(self._of(found, self.x, 0), self._of(found, self.y, 1), found)
        self.found.append(point)
        return point

    def gap_percent(self) -> float | None:
        """How far beyond a direction's point something may be, at most, in percent of the width."""
        beyond = []
        for gap, x, y in self.gaps:
            if gap is None:
                return None
            beyond.append(gap / float(np.hypot(x * self.width[0], y * self.width[1])))
        return 100 * max(beyond, default=0.0)

    def _of(self, found: Farthest, target: Target, axis: int) -> float:
        return float(plain_sum(target).weights(found.formulation) @ found.solved.x) / self.per[axis]


def polygon_of(pantry: Pantry, x: Target, y: Target) -> Polygon:
    """The region of two amounts while the musts other than these two hold.

    With steps, least amounts when used and mixes that lose fat it is the hull of the dishes that can be had, within its
    gap; where the clock leaves no time for that, what lies around it.
    """
    counted = pantry.counted(x, y)
    why_not = not_countable(pantry.brief, counted, x, y)
    if why_not is not None:
        return _none(x, y, why_not, counted)
    around, is_known = _sought(pantry, counted, (x, y), relaxed=True)
    if is_known or not around.complete:
        return around
    real, _ = _sought(pantry, counted, (x, y), relaxed=False)
    return real if real.complete else around


def _sought(pantry: Pantry, counted: Counted, of: tuple[Target, Target], *, relaxed: bool) -> tuple[Polygon, bool]:
    """The polygon, and whether there is no more to know of it. relaxed: whole numbers and pans are left out of it."""
    brief, asked = pantry.without(*of), [plain_sum(each) for each in of]
    with closing(Search(brief, counted, pantry.backend, pantry.deadline, asked, relaxed=relaxed)) as search:
        if search.depends_on_source:
            return _none(*of, _SOURCES, counted), True
        asking = _Asking(search, *of, (batches(of[0], pantry.brief), batches(of[1], pantry.brief)))
        points = _border(asking)
        if not points:
            late = failed(asking.status or Status.TIME_LIMIT)
            return _none(*of, late.note or "", counted, complete=late.status is ProofStatus.OPTIMAL), True
        vertices = tuple(_vertex(point, careful=not search.outer) for point in points)
        is_known = search.outer or all(each.attained for each in vertices)
        polygon = Polygon(
            *of,
            vertices=vertices,
            outer=search.outer or bool(mixes_left(search.formulation)) or search.formulation.program.has_integers,
            complete=asking.status is None,
            checked=asking.checked,
            note=_note(points),
            left_out=counted.left_out,
            gap_percent=asking.gap_percent() if is_known and not search.outer else None,
        )
        return polygon, is_known


def _none(x: Target, y: Target, note: str, counted: Counted, *, complete: bool = True) -> Polygon:
    left_out = counted.left_out
    return Polygon(x, y, (), outer=False, complete=complete, checked=Checked.CLAIM, note=note, left_out=left_out)


def _border(asking: _Asking) -> list[Point]:
    """The vertices, counter-clockwise."""
    first = [point for direction in _FIRST if (point := asking.towards(*direction)) is not None]
    if len(first) < len(_FIRST):
        return corners(first, asking.width)
    right, top, left, bottom = first
    asking.width = (max(right.x - left.x, VERIFICATION), max(top.y - bottom.y, VERIFICATION))
    points: list[Point] = []
    for here, following in zip(first, (*first[1:], first[0]), strict=True):
        points += [here, *_between(asking, here, following)]
    return corners(points, asking.width)


def _between(asking: _Asking, here: Point, following: Point) -> list[Point]:
    """Vertices on the way from one point of the border to another, both excluded."""
    waiting, done = [(here, following)], list[Point]()
    while waiting and len(asking.found) < MOST_VERTICES:
        start, stop = waiting.pop()
        across = ((stop.y - start.y) / asking.width[1], -(stop.x - start.x) / asking.width[0])
        length = float(np.hypot(*across))
        if length <= ON_THE_LINE:
            continue
        point = asking.towards(across[0] / length, across[1] / length)
        if point is None:
            break
        if beyond(start, stop, point, asking.width) > ON_THE_LINE:
            done.append(point)
            waiting += [(start, point), (point, stop)]
    if waiting and asking.status is None:
        asking.status = Status.STOPPED
    return done


def _merged(x: Sum, target: Target, factor: float) -> Sum:
    """Both sums in one, posed together where they count the same basis."""
    y = plain_sum(target).times(factor)
    ((counts, basis),), ((others, other_basis),) = x.terms, y.terms
    if basis is not other_basis:
        return Sum((*x.terms, *y.terms))
    names = dict.fromkeys((*counts, *others))
    return Sum((({name: counts.get(name, 0.0) + others.get(name, 0.0) for name in names}, basis),))


def _vertex(point: Point, *, careful: bool) -> Vertex:
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


def _note(points: list[Point]) -> str | None:
    endless = sorted({name for point in points for name in unlimited(point.found)})
    if not endless:
        return None
    return f"Nothing limits {', '.join(endless)} but the most that a portion may hold; the region would go on."


def is_amount(target: Target) -> bool:
    """Whether it is an amount, and no share or ratio."""
    return QUANTITY[target.of].denominator is None
