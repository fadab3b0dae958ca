"""What stands in the way of wishes, as it goes out."""

from collections.abc import Sequence

from service.schemas.in_the_way import InTheWayAnswer
from service.translate.members import to_member
from service.translate.numbers import maybe_rounded
from solver.brief import Brief
from solver.in_the_way import InTheWay
from solver.outcome import Member


def to_in_the_way(found: Sequence[InTheWay], brief: Brief) -> list[InTheWayAnswer]:
    """As the contract has it, in the brief's own names."""
    return [_wish(one, brief) for one in found]


def _wish(one: InTheWay, brief: Brief) -> InTheWayAnswer:
    return InTheWayAnswer.model_validate(
        {
            "kind": one.kind.value,
            "name": one.name,
            "why": one.why.value,
            "closer_by_percent": maybe_rounded(None if one.closer_by is None else 100 * one.closer_by),
            "members": [to_member(brief, member) for member in one.members],
            "irreducible": one.proven,
            "text": to_member(brief, Member(one.kind, one.name)).text,
        }
    )
