"""From the solver's outcome to the answer that goes out."""

from typing import Any

from service.schemas.answer import (
    Answer,
    ConflictAnswer,
    LeftOutAnswer,
    LevelAnswer,
    PlanAnswer,
    ProofAnswer,
    UndecidedAnswer,
)
from service.translate.members import to_member
from service.translate.to_dish import dish_fields, maybe_rounded, rounded, to_dish
from solver.outcome import Conflict, LevelProof, Outcome, Plan, Proof, Undecided

EXACTNESS = (
    "Exact for these inputs: every number is counted from the printed amounts and the composition of each food as "
    "the table or label states it. Cooking is not counted yet: in the pan water leaves and fat renders, so the dish "
    "on the plate may differ from the dish on the board."
)

#: The conditions are those that the diet's own clinical literature names; no number here is advice.
REMINDER = (
    "Medical diets need professional oversight: ketogenic therapy, kidney disease, diabetes medicines, pregnancy "
    "and breastfeeding, and any such diet for a child."
)


def to_answer(outcome: Outcome) -> Answer:
    """The answer as the contract has it."""
    match outcome:
        case Plan():
            dish = dish_fields(outcome.dish)
            return PlanAnswer(outcome="plan", exactness=EXACTNESS, **dish, **_common(outcome))
        case Conflict():
            return _conflict(outcome)
        case Undecided():
            return UndecidedAnswer(
                outcome="undecided", reason=outcome.reason, advice=outcome.advice, **_common(outcome)
            )


def _conflict(outcome: Conflict) -> ConflictAnswer:
    return ConflictAnswer(
        outcome="conflict",
        members=[to_member(outcome.brief, member) for member in outcome.members],
        irreducible=outcome.irreducible,
        checked=outcome.checked.value,
        nearest=None if outcome.nearest is None else to_dish(outcome.nearest),
        **_common(outcome),
    )


def _common(outcome: Outcome) -> dict[str, Any]:
    return {
        "title": outcome.brief.title,
        "portions": outcome.brief.portions,
        "energy_basis": outcome.brief.energy_basis.value,
        "proof": _proof(outcome.proof),
        "left_out": [LeftOutAnswer(name=left.item, lacks=list(left.lacks)) for left in outcome.left_out],
        "warnings": list(outcome.warnings),
        "reminder": REMINDER,
    }


def _proof(proof: Proof) -> ProofAnswer:
    return ProofAnswer(
        levels=[_level(level) for level in proof.levels],
        solver=proof.solver,
        solver_version=proof.solver_version,
        seconds=rounded(proof.seconds),
    )


def _level(level: LevelProof) -> LevelAnswer:
    return LevelAnswer(
        level=level.level,
        status=level.status.value,
        checked=level.checked.value,
        value=rounded(level.value),
        bound=maybe_rounded(level.bound),
        gap=maybe_rounded(level.gap),
        seconds=rounded(level.seconds),
    )
