"""Small bars for the terminal: where the energy comes from, and where each target lies in its band.

They say nothing that the numbers above them do not, and can be read without colour.
"""

from collections.abc import Iterator

from service.schemas.dish import DishAnswer, DistributionAnswer, TargetAnswer

#: Characters of a bar.
_WIDTH = 24

#: Unicode block elements, U+258F to U+2589: eighths of a character, from the left; then the whole one.
_EIGHTHS = ("", *map(chr, range(0x258F, 0x2588, -1)))
_FULL = "\u2588"

#: A value inside its band, and one outside.
_INSIDE, _OUTSIDE = "\u25cf", "\u2715"


def bar_rows(dish: DishAnswer) -> list[tuple[str, str]]:
    """Names with their bars: shares of energy, then targets; without those whose value or end is nothing."""
    percent = dish.energy_distribution_percent
    targets = ((target.id, bar) for target in dish.targets if (bar := target_bar(target)) is not None)
    return [*(() if percent is None else _shares(percent)), *targets]


def _shares(percent: DistributionAnswer) -> Iterator[tuple[str, str]]:
    for name, share in percent.model_dump().items():
        if share or name != "alcohol":
            yield f"energy from {name}", share_bar(share)


def share_bar(percent: float) -> str:
    """So many percent of the width, to an eighth of a character."""
    whole, eighths = divmod(round(percent / 100 * _WIDTH * 8), 8)
    return _FULL * whole + _EIGHTHS[eighths]


def target_bar(target: TargetAnswer) -> str | None:
    """The band as a line, its ends marked, and the value where it is; None where there is nothing to draw.

    A band with two ends is half the bar, in its middle. With a single end that is the middle, and 0 is at the left.
    """
    ends = [end for end in (target.at_least, target.at_most) if end is not None]
    beyond = (ends[-1] - ends[0]) / 2 if len(ends) > 1 else ends[0]
    if target.value is None or beyond <= 0:
        return None
    left, right = ends[0] - beyond, ends[-1] + beyond

    def place(value: float) -> int:
        return max(0, min(_WIDTH - 1, int((value - left) / (right - left) * _WIDTH)))

    first = 0 if target.at_least is None else place(target.at_least)
    last = _WIDTH - 1 if target.at_most is None else place(target.at_most)
    bar = ["\u2500" if first <= n <= last else " " for n in range(_WIDTH)]
    if target.at_least is not None:
        bar[first] = "\u251c"
    if target.at_most is not None:
        bar[last] = "\u2524"
    bar[place(target.value)] = _INSIDE if target.met else _OUTSIDE
    return "".join(bar)
