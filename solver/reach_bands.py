"""The least and the most of a ratio in bands of an amount, where there is no exact curve.

With steps, least amounts when used and mixes that lose fat only some amounts can be had, and the best ratio leaps from
one to the next. So what can be had of the amount is cut into bands; in each of them the ends of the ratio are sought as
those of a range, and each has its gap.
"""

from itertools import pairwise

from solver.bands import batches
from solver.numerics import VERIFICATION
from solver.outcome import Checked, ProofStatus
from solver.quantities import QUANTITY
from solver.reach import Pantry
from solver.reach_ends import failed, plain_sum, ratio_ends
from solver.reach_outcome import Curve, End, Piece
from solver.reach_search import Farthest, Search, scaled
from solver.targets import Target

#: As many bands as the amounts are cut into.
BANDS = 12

_IN_BANDS = (
    "Steps, least amounts when used and mixes that lose fat give no exact curve: each piece is a part of the amounts, "
    "with the least or the most of any dish in it."
)


def curve_in_bands(pantry: Pantry, search: Search, x: Target, y: Target) -> Curve:
    """The ratio y in bands of the amount x. search: its last extra row holds x."""
    per = batches(x, pantry.brief)
    width = extent(pantry, search, x, y)
    if isinstance(width, Curve):
        return width
    start, stop = width
    scale = per * scaled(plain_sum(x).weights(search.formulation))[1]
    edges = [start + (stop - start) * number / BANDS for number in range(BANDS + 1)]
    ends: list[tuple[Piece, Piece, End, End]] = []
    for low, high in pairwise(edges):
        search.fix(low * scale, high * scale)
        least, most = ratio_ends(search, QUANTITY[y.of], y)
        ends.append((_level(low, high, least), _level(low, high, most), least, most))
        if ProofStatus.BEST_FOUND in {least.status, most.status}:
            break
    return _curve(pantry, x, y, ends)


def extent(pantry: Pantry, search: Search, x: Target, y: Target) -> tuple[float, float] | Curve:
    """The least and the most of the amount, nothing of it beyond; an empty curve that says why there is none."""
    per = batches(x, pantry.brief)
    low, high = search.most(plain_sum(x).times(-1)), search.most(plain_sum(x))
    for end in (low, high):
        if not isinstance(end, Farthest):
            late = failed(end)
            return no_curve(pantry, x, y, late.note or "", complete=late.status is ProofStatus.OPTIMAL)
    assert isinstance(low, Farthest)  # noqa: S101  the loop has looked
    assert isinstance(high, Farthest)  # noqa: S101  the loop has looked
    start, stop = -_beyond(low) / per, _beyond(high) / per
    if stop - start <= VERIFICATION * max(1.0, stop):
        return no_curve(pantry, x, y, f"The amount is {start:.6g}, whatever is done.")
    return start, stop


def no_curve(pantry: Pantry, x: Target, y: Target, note: str, *, complete: bool = True) -> Curve:
    """A curve without a piece. complete: False where the clock is why."""
    return Curve(x, y, (), (), complete, Checked.CLAIM, note, pantry.counted(x, y).left_out)


def _beyond(found: Farthest) -> float:
    return found.most if found.beyond is None else max(found.most, found.beyond)


def _level(low: float, high: float, end: End) -> Piece:
    return Piece(low, high, end.value or 0.0, 0.0, 1.0, 0.0)


def _curve(pantry: Pantry, x: Target, y: Target, ends: list[tuple[Piece, Piece, End, End]]) -> Curve:
    proven = [each for each in ends if ProofStatus.BEST_FOUND not in {each[2].status, each[3].status}]
    shown = [end for each in proven for end in each[2:] if end.value is not None]
    gaps = [end.gap for end in shown if end.gap is not None]
    sure = all(end.checked is Checked.CERTIFICATE for end in shown)
    return Curve(
        x=x,
        y=y,
        least=tuple(piece for piece, _, end, _ in proven if end.value is not None),
        most=tuple(piece for _, piece, _, end in proven if end.value is not None),
        complete=len(proven) == BANDS,
        checked=Checked.CERTIFICATE if sure else Checked.CLAIM,
        note=_IN_BANDS,
        left_out=pantry.counted(x, y).left_out,
        gap=max(gaps, default=0.0) if len(gaps) == len(shown) else None,
        in_bands=True,
    )
