"""From the solver's outcome to the answer that goes out."""

from typing import Any

from service.schemas.answer import (
    Answer,
    ConflictAnswer,
    ExcludedAnswer,
    LeftOutAnswer,
    LevelAnswer,
    PlanAnswer,
    ProofAnswer,
    UndecidedAnswer,
)
from service.translate.asked import Asked
from service.translate.beside import Beside, beside_conflict, beside_plan
from service.translate.cautions import to_cautions
from service.translate.members import to_member
from service.translate.numbers import maybe_rounded, rounded
from service.translate.plate_off import to_plate_off
from service.translate.reference import Reference
from service.translate.to_allergens import to_allergens
from service.translate.to_brings import to_brings
from service.translate.to_dish import dish_fields, to_dish
from service.translate.to_nutrition import to_nutrition
from solver.breakdown import brings_of
from solver.cautions import Cautions
from solver.outcome import Conflict, Dish, LevelProof, Outcome, Plan, Proof, Undecided
from solver.plate_off import plate_off

EXACTNESS = (
    "Exact for these inputs: every number is counted from the printed amounts, the composition of each food as the "
    "table or label states it, and what the cooking table or your scale says of each component. How far the plate may "
    "be off is stated beside it; your own scale outranks every table."
)

#: The conditions are those that the diet's own clinical literature names; no number here is advice.
REMINDER = (
    "Medical diets need professional oversight: ketogenic therapy, kidney disease, diabetes medicines, pregnancy "
    "and breastfeeding, and any such diet for a child."
)


def to_answer(asked: Asked, outcome: Outcome, reference: Reference, beside: Beside) -> Answer:
    """The answer as the contract has it. beside: what was found beside the outcome."""
    common = _common(asked, outcome, reference.cautions)
    match outcome:
        case Plan():
            return PlanAnswer(
                outcome="plan",
                brings=[to_brings(each) for each in brings_of(outcome.dish, outcome.brief)],
                nutrition=to_nutrition(asked.layout, outcome.dish, outcome.brief),
                method_steps=asked.method.with_dishes(each.item.name for each in outcome.dish.quantities),
                exactness=EXACTNESS,
                allergens=to_allergens(outcome.dish.quantities, reference.allergens),
                plate_may_be_off=to_plate_off(plate_off(outcome.dish, outcome.brief)),
                **dish_fields(outcome.dish),
                **beside_plan(asked, outcome, beside, reference),
                **common,
            )
        case Conflict():
            return ConflictAnswer(
                outcome="conflict", **_conflict(outcome), **beside_conflict(asked, beside, reference), **common
            )
        case Undecided():
            return UndecidedAnswer(outcome="undecided", reason=outcome.reason, advice=outcome.advice, **common)


def _conflict(outcome: Conflict) -> dict[str, Any]:
    return {
        "members": [to_member(outcome.brief, member) for member in outcome.members],
        "irreducible": outcome.irreducible,
        "other_conflicts": [[to_member(outcome.brief, member) for member in other] for other in outcome.others],
        "checked": outcome.checked.value,
        "nearest": None if outcome.nearest is None else to_dish(outcome.nearest),
    }


def _dish(outcome: Outcome) -> Dish | None:
    match outcome:
        case Plan():
            return outcome.dish
        case Conflict():
            return outcome.nearest
        case Undecided():
            return None


def _common(asked: Asked, outcome: Outcome, cautions: Cautions) -> dict[str, Any]:
    return {
        "title": outcome.brief.title,
        "portions": outcome.brief.portions,
        "energy_basis": outcome.brief.energy_basis.value,
        "proof": _proof(outcome.proof),
        "left_out": [LeftOutAnswer(name=left.item, lacks=list(left.lacks)) for left in outcome.left_out],
        "excluded": [ExcludedAnswer(name=each.item, why=each.why) for each in asked.excluded],
        "cautions": to_cautions(cautions(asked.brief, _dish(outcome), asked.eater, asked.profile)),
        "warnings": [*asked.notes, *outcome.warnings],
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
