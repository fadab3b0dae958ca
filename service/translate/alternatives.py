"""From other good plans to the answer that lists them."""

from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import TypeAlias

from service.schemas.alternatives import AlternativeAnswer, AlternativesAnswer
from service.translate.cautions import to_cautions
from service.translate.numbers import rounded
from service.translate.to_dish import to_dish
from solver.alternatives import Alternative, Alternatives
from solver.cautions.caution import Caution
from solver.notes import notes
from solver.outcome import Plan

#: What may hurt whoever eats a plan.
CautionsOf: TypeAlias = Callable[[Plan], Sequence[Caution]]


def to_alternatives(found: Alternatives, plan: Plan, cautions_of: CautionsOf) -> AlternativesAnswer:
    """As the contract has it. plan: the one that they are alternatives to."""
    return AlternativesAnswer(
        plans=[_alternative(one, plan, cautions_of) for one in found.found],
        level=found.level,
        most_loss=rounded(found.most_loss),
        ended=found.ended.value,
    )


def _alternative(one: Alternative, plan: Plan, cautions_of: CautionsOf) -> AlternativeAnswer:
    warnings = notes(plan.brief, one.dish)
    return AlternativeAnswer(
        differs_by=list(one.differs_by),
        mass_share_percent=rounded(100 * one.mass_share),
        loss=rounded(one.loss),
        dish=to_dish(one.dish),
        cautions=to_cautions(cautions_of(replace(plan, dish=one.dish, warnings=warnings))),
        warnings=list(warnings),
    )
