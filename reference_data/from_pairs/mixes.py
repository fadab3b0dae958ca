"""Mixes: the forms of mince and sausage, the rows of each, and the curve fitted to them."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from reference_data.from_pairs.matching import Pair
from solver.cooking_curves import FEWEST_ROWS, MixRow, Segment, fat_kept_g, fit_segments, fit_yield
from solver.cooking_estimate import half_interval_90

#: A method that no row measures is given the spread of the one that stands in for it, times this: our choice.
WIDENED = 1.5


@dataclass(frozen=True, slots=True)
class Form:
    """A mix as the kitchen names it; its rows are of this kind and method, with the word in the description."""

    name: str
    method: str
    kind: str
    word: str
    stands_in: bool = False


FORMS = (
    Form("broiled patty", "broiled", "mince", "patt"),
    Form("pan-fried patty", "pan-fried", "mince", "patt"),
    Form("pan-fried crumbles", "pan-fried", "mince", "crumbles"),
    Form("baked loaf", "baked", "mince", "loaf"),
    Form("pan-fried sausage", "pan-fried", "sausage", "sausage"),
    Form("hot air patty", "broiled", "mince", "patt", stands_in=True),
)


@dataclass(frozen=True, slots=True)
class FittedMix:
    """A curve with its rows, all in g per g raw; the yield is yield_at_no_fat + yield_change x fat.

    fat_kept_half, yield_half: 90 % half-intervals. yield_as: the form whose rows the yield's interval is of.
    """

    form: Form
    pairs: tuple[Pair, ...]
    segments: tuple[Segment, ...]
    yield_at_no_fat: float
    yield_change: float
    fat_kept_half: float
    yield_half: float
    yield_as: str = ""

    @property
    def animals(self) -> frozenset[str | None]:
        """The food groups of its rows: beef, poultry."""
        return frozenset(pair.raw.group for pair in self.pairs)


def fit_mixes(usable: Sequence[Pair]) -> tuple[FittedMix, ...]:
    """Every form.

    Rows of one animal are of one study, too, and come out of its regression, so they miss each other by less than a
    percent; no such loaf is pork, nor anybody else's oven. Their yield has the widest interval that forms with rows of
    several animals show.
    """
    mixes = tuple(fit_mix(form, usable) for form in FORMS)
    return tuple(_with_wider_yield(mix, mixes) for mix in mixes)


def _with_wider_yield(mix: FittedMix, mixes: Sequence[FittedMix]) -> FittedMix:
    several = [each for each in mixes if each.form.kind == mix.form.kind and len(each.animals) > 1]
    measured = [each for each in several if not each.form.stands_in]
    if len(mix.animals) > 1 or not measured:
        return mix
    widest = max(measured, key=lambda each: each.yield_half)
    return replace(mix, yield_half=max(mix.yield_half, widest.yield_half), yield_as=widest.form.name)


def mix_row(pair: Pair) -> MixRow:
    """A pair per gram of raw mix."""
    fat = pair.raw.value("fat_g") / 100
    return MixRow(fat, pair.fat_retention_g_per_g * fat, pair.yield_g_per_g)


def pairs_of(form: Form, usable: Sequence[Pair]) -> tuple[Pair, ...]:
    """The usable pairs of a form."""
    return tuple(
        pair
        for pair in usable
        if pair.kind == form.kind and pair.method == form.method and form.word in pair.cooked.name.lower()
    )


def fit_mix(form: Form, usable: Sequence[Pair]) -> FittedMix:
    """The curve of a form, with the spread of its rows when each is left out of the fit."""
    pairs = pairs_of(form, usable)
    rows = [mix_row(pair) for pair in pairs]
    missed = [_missed(rows, place) for place in range(len(rows))]
    factor = WIDENED if form.stands_in or len(rows) < _ENOUGH else 1.0
    at_no_fat, change = fit_yield(rows)
    return FittedMix(
        form,
        pairs,
        fit_segments(rows),
        at_no_fat,
        change,
        factor * half_interval_90([kept for kept, _ in missed]),
        factor * half_interval_90([cooked for _, cooked in missed]),
    )


#: Rows below which the largest miss is no 90th percentile; its half-interval is widened like a stand-in's.
_ENOUGH = 8


def _missed(rows: Sequence[MixRow], place: int) -> tuple[float, float]:
    """What the curve of the other rows misses in one: fat kept and yield, g per g raw."""
    row, others = rows[place], [*rows[:place], *rows[place + 1 :]]
    at_no_fat, change = fit_yield(others)
    # What the fattest of few rows held says where a share ends, and nothing of a row that is fatter still.
    segments = fit_segments(others)[:2] if len(others) < FEWEST_ROWS else fit_segments(others)
    kept = fat_kept_g(segments, 1.0, row.fat)
    return row.fat_kept - kept, row.yield_g_per_g - (at_no_fat + change * row.fat)
