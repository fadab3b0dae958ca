"""The best dish that is known while a brief is still being solved."""

from solver.answer import printed_dish
from solver.errors import VerificationError
from solver.meets import meets_musts
from solver.outcome import Dish
from solver.printing import rounded
from solver.watch import Look


def best_so_far(look: Look) -> Dish | None:
    """The point of a look in amounts that a kitchen can measure, rebuilt from the raw rows of the table like any plan.

    None where there is no point yet, and where its amounts as printed would miss a must: at the end such amounts are
    sought anew, and here nobody waits for that.
    """
    if look.x is None:
        return None
    amounts = rounded(look.formulation, look.x)
    if not meets_musts(look.formulation, amounts):
        return None
    try:
        dish = printed_dish(look.formulation, amounts)
    except VerificationError:
        return None
    return None if dish.missed else dish
