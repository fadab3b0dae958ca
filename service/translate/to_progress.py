"""From a look at a solve to what is told of its progress."""

from service.schemas.dish import DishAnswer
from service.schemas.work import ProgressAnswer
from service.translate.numbers import maybe_rounded
from service.translate.to_dish import to_dish
from solver.best_so_far import best_so_far
from solver.watch import Look


def best_dish(look: Look) -> DishAnswer | None:
    """The best dish that a look shows; None where it shows none that can be printed."""
    dish = best_so_far(look)
    return None if dish is None else to_dish(dish)


def to_progress(look: Look, best: DishAnswer | None) -> ProgressAnswer:
    """The progress as the contract has it. best: the best dish so far, of this look or of one before it."""
    gap = None if look.value is None or look.bound is None else max(look.value - look.bound, 0.0)
    return ProgressAnswer(
        level=look.level.name,
        value=maybe_rounded(look.value),
        bound=maybe_rounded(look.bound),
        gap=maybe_rounded(gap),
        best=best,
    )
