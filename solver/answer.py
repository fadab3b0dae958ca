"""A plan, or no decision: assembling what was found and how far it is proven."""

from solver.formulate import Formulation
from solver.interpret import amounts_of
from solver.levels import completed
from solver.notes import notes
from solver.numerics import FloatArray
from solver.outcome import Checked, Dish, LevelProof, Plan, ProofStatus, Undecided
from solver.printing import binding_targets
from solver.solved import ChainEnd, Solved
from solver.task import Task
from solver.verify import dish_of, verified

_GUARDED = (
    "Whose fat is in the drippings only the amounts decide, so the targets were sought by the worst of their sources; "
    "this dish meets them, and whether a better one does is not known."
)


def plan_of(task: Task, end: ChainEnd, amounts: FloatArray, freed: frozenset[int]) -> Plan:
    """The plan with these printed item amounts (column units), proven as far as the chain came."""
    formulation = task.formulation
    dish = verified(printed_dish(formulation, amounts))
    printed = completed(formulation, amounts, freed)
    return Plan(
        brief=task.brief,
        dish=dish,
        proof=task.proof(*(level_proof(solved, printed) for solved in end.solved)),
        left_out=formulation.layout.left_out,
        warnings=notes(task.brief, dish),
    )


def plan_of_mixture(task: Task, dish: Dish) -> Plan:
    """A plan that the rows did not see, since they take the worst of several sources: nothing is proven of it."""
    found = LevelProof("musts", ProofStatus.BEST_FOUND, Checked.CLAIM, 0.0, None, None, 0.0)
    return Plan(
        brief=task.brief,
        dish=verified(dish),
        proof=task.proof(found),
        left_out=task.formulation.layout.left_out,
        warnings=(*notes(task.brief, dish), _GUARDED),
    )


def printed_dish(formulation: Formulation, amounts: FloatArray) -> Dish:
    """What printed amounts come to, rebuilt from the raw rows."""
    binding = binding_targets(formulation, amounts)
    found = amounts_of(formulation, amounts)
    return dish_of(found.quantities, formulation.brief, binding, found.spoons)


def level_proof(solved: Solved, printed: FloatArray) -> LevelProof:
    """A level's proof, with the value that the printed amounts have. printed: (columns,)."""
    value = float(solved.level.cost @ printed)
    return LevelProof(
        level=solved.level.name,
        status=solved.status,
        checked=solved.checked,
        value=value,
        bound=solved.bound,
        gap=None if solved.bound is None else value - solved.bound,
        seconds=solved.seconds,
    )


def undecided_of_mixture(task: Task) -> Undecided:
    """By the worst source of the drippings there is no plan, by the best there may be one, and none was found."""
    reason = "Whose fat is in the drippings only the amounts decide; by the worst of their sources no plan exists."
    advice = "Widen the bands of what fats differ in, or let only one fat into each pan."
    return Undecided(
        task.brief, reason, advice, task.proof(), task.formulation.layout.left_out, notes(task.brief, None)
    )


def undecided_of_tolerance(task: Task) -> Undecided:
    """Counted anew, with the most that a gram of any fat in a pan brings, the printed amounts miss a must."""
    reason = "The rows hold within the tolerance; counted anew for all that may run out of a pan, the amounts do not."
    advice = "Widen the narrowest band a little, hold within less, or let only one fat into each pan."
    return Undecided(
        task.brief, reason, advice, task.proof(), task.formulation.layout.left_out, notes(task.brief, None)
    )


def undecided_of(task: Task, *, on_grid: bool) -> Undecided:
    """The clock ended first. on_grid: plans exist between the grams, but none was found in amounts of 0.1 g."""
    reason = "Neither a plan nor a proof that none exists was found in time."
    advice = "Allow more time, larger steps, or fewer items with steps."
    if on_grid:
        reason = "The targets can be met between the grams, but no amounts in multiples of 0.1 g were found in time."
        advice = "Widen the narrowest band a little, or allow more time."
    return Undecided(
        task.brief, reason, advice, task.proof(), task.formulation.layout.left_out, notes(task.brief, None)
    )
