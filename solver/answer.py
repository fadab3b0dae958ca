"""A plan, or no decision: assembling what was found and how far it is proven."""

from solver.chain import ChainEnd, Solved
from solver.formulate import Formulation
from solver.interpret import quantities
from solver.levels import completed
from solver.notes import notes
from solver.numerics import FloatArray
from solver.outcome import Dish, LevelProof, Plan, Undecided
from solver.printing import binding_targets
from solver.task import Task
from solver.verify import dish_of, verified


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


def printed_dish(formulation: Formulation, amounts: FloatArray) -> Dish:
    """What printed amounts come to, rebuilt from the raw rows."""
    binding = binding_targets(formulation, amounts)
    return dish_of(quantities(formulation, amounts), formulation.brief, binding)


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
