"""What is found beside a plan or a conflict, as it goes out."""

from dataclasses import dataclass
from typing import Any

from service.translate.alternatives import to_alternatives
from service.translate.asked import Asked
from service.translate.reference import Reference
from service.translate.ways_out import allowed_by, to_ways_out
from service.translate.worth import to_worth
from solver.alternatives import Alternatives
from solver.cautions.caution import Caution
from solver.outcome import Plan
from solver.practical import Eligible
from solver.ways_out import WaysOut
from solver.worth import Worth


@dataclass(frozen=True, slots=True)
class Beside:
    """worth: what limits are worth; others: other good plans; None when nobody asked.

    ways_out: what would make a plan possible; None but for a conflict.
    """

    worth: tuple[Worth, ...] | None = None
    others: Alternatives | None = None
    ways_out: WaysOut | None = None


def may_be_added(asked: Asked, reference: Reference) -> Eligible:
    """The foods that may be proposed to whoever asked."""
    return Eligible(reference.practical, allowed_by(asked.exclusions, reference.allergens))


def beside_plan(asked: Asked, plan: Plan, beside: Beside, reference: Reference) -> dict[str, Any]:
    """Fields of a plan's answer."""
    worth, others = beside.worth, beside.others
    return {
        "worth": None if worth is None else to_worth(worth),
        "alternatives": None if others is None else to_alternatives(others, plan, _Cautions(asked, reference)),
    }


def beside_conflict(asked: Asked, beside: Beside, reference: Reference) -> dict[str, Any]:
    """Fields of a conflict's answer."""
    found = beside.ways_out
    return {"ways_out": None if found is None else to_ways_out(found, _Cautions(asked, reference))}


@dataclass(frozen=True, slots=True)
class _Cautions:
    """What may hurt whoever eats a plan that this request led to."""

    asked: Asked
    reference: Reference

    def __call__(self, plan: Plan) -> tuple[Caution, ...]:
        return self.reference.cautions(plan.brief, plan.dish, self.asked.eater, self.asked.profile)
