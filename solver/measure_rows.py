"""A food's measures, taken apart so that the words of an amount can be compared with them."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import TypeAlias

from solver.foods import Food, Measure
from solver.unit_words import UnitWords, unit_words

#: Measures whose weights differ by less than this share mean the same.
SAME_WEIGHT = 0.01

#: Rows of one measure ("1/2 cup" and "1 cup") may differ this much by being rounded separately: 1.2 g for 1/4 tsp
#: stands for anything from 1.15 to 1.25 g.
SAME_ROW = 0.05


class Unweighable(Exception):  # noqa: N818  the amount is unweighable, not an error in the code
    """Why measures give no weight: code and detail as in `AmountError`, whose remedy needs the food."""

    def __init__(self, code: str, detail: str) -> None:
        self.code, self.detail = code, detail
        super().__init__(detail)


@dataclass(frozen=True, slots=True)
class Row:
    """One measure with its words. each_g: grams of one of its unit."""

    measure: Measure
    said: UnitWords
    each_g: float


Rows: TypeAlias = Sequence[Row]
_Rule: TypeAlias = Callable[[tuple[str, ...], UnitWords], bool]

#: From the surest to the boldest; the first that finds anything decides.
_RULES: tuple[_Rule, ...] = (
    lambda asked, said: asked == said.words,
    lambda asked, said: sorted(asked) == sorted(said.words),
    lambda asked, said: asked == said.bare,
    lambda asked, said: asked in said.alternatives,
    lambda asked, said: asked == said.words[: len(asked)],
)


def rows_of(food: Food) -> Rows:
    """The measures of a food that weigh something."""
    return tuple(
        Row(measure, unit_words(measure.unit), measure.grams / measure.amount)
        for measure in food.measures
        if measure.amount > 0 and measure.grams > 0
    )


def matching(asked: tuple[str, ...], rows: Rows) -> Rows:
    """The rows that have the words asked for, by the first of these that finds any; may be empty.

    The same words, in any order, without remarks in brackets, as one alternative of "chopped or diced", as the
    beginning ("large" finds "large, peeled", never "extra large").
    """
    for rule in _RULES:
        found = tuple(row for row in rows if asked and rule(asked, row.said))
        if found:
            return found
    return ()


def agreed_g(rows: Rows, share: float, what: str) -> float:
    """Grams of one of the unit on which rows agree, by the heaviest, whose rounding matters least.

    Raises `Unweighable` (ambiguous_measure) where they differ by more than `share`.
    """
    refuse_disagreement([row.each_g for row in rows], share, what)
    return max(rows, key=lambda row: row.measure.grams).each_g


def refuse_disagreement(weights: Sequence[float], share: float, what: str) -> None:
    """Raise `Unweighable` (ambiguous_measure) where the weights of `what` differ by more than `share`."""
    if max(weights) > min(weights) * (1 + share):
        raise Unweighable("ambiguous_measure", f"For this food, {what} may mean several weights.")
