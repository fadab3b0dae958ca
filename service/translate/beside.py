"""What is found beside a plan or a conflict, as it goes out."""

from dataclasses import dataclass
from typing import Any

from service.translate.alternatives import to_alternatives
from service.translate.asked import Asked
from service.translate.holds_carried import to_carried
from service.translate.in_the_way import to_in_the_way
from service.translate.reference import Reference
from service.translate.ways_out import allowed_by, to_ways_out
from service.translate.worth import to_worth
from solver.alternatives import Alternatives
from solver.cautions.caution import Caution
from solver.holds_carried import Carried
from solver.in_the_way import InTheWay
from solver.outcome import Plan
from solver.practical import Eligible
from solver.ways_out import WaysOut
from solver.worth import Worth


@dataclass(frozen=True, slots=True)
class Beside:
    """worth: what limits are worth; others: other good plans; None when nobody asked.

    in_the_way: what stands in the way of each wish that a plan misses.
    ways_out: what would make a plan possible; carried: how much of a tolerance is; None but for a conflict.
    """

    in_the_way: tuple[InTheWay, ...] = ()
    worth: tuple[Worth, ...] | None = None
    others: Alternatives | None = None
    ways_out: WaysOut | None = None
    carried: Carried | None = None


def may_be_added(asked: Asked, reference: Reference) -> Eligible:
    """The foods that may be proposed to whoever asked."""
    return Eligible(reference.practical, allowed_by(asked.exclusions, reference.allergens))


def beside_plan(asked: Asked, plan: Plan, beside: Beside, reference: Reference) -> dict[str, Any]:
    """Fields of a plan's answer."""
    worth, others = beside.worth, beside.others
    return {
        "in_the_way": to_in_the_way(beside.in_the_way, plan.brief),
        "worth": None if worth is None else to_worth(worth),
        "alternatives": None if others is None else to_alternatives(others, plan, CautionsOfAsked(asked, reference)),
    }


def beside_conflict(asked: Asked, beside: Beside, reference: Reference) -> dict[str, Any]:
    """Fields of a conflict's answer."""
    found = beside.ways_out
    return {
        "ways_out": None if found is None else to_ways_out(found, CautionsOfAsked(asked, reference)),
        "tolerance_carried": to_carried(beside.carried),
    }


@dataclass(frozen=True, slots=True)
class CautionsOfAsked:
    """What may hurt whoever eats a plan that this request led to."""

    asked: Asked
    reference: Reference

    def __call__(self, plan: Plan) -> tuple[Caution, ...]:
        """Its cautions."""
        return self.reference.cautions(plan.brief, plan.dish, self.asked.eater, self.asked.profile)
