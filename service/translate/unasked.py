"""The most amounts that nobody set: a conflict says of them that they are ours, and offers no way out through them."""

from collections.abc import Iterable

from service.schemas.answer import Answer, ConflictAnswer
from service.schemas.members import MemberAnswer
from service.schemas.ways_out import ChangeAnswer
from solver.outcome import MemberKind

_MOST = MemberKind.MOST_AMOUNT.value


def told(members: Iterable[MemberAnswer], names: frozenset[str]) -> list[MemberAnswer]:
    """The same members. names: of items whose most amount nobody set."""
    return [
        each.model_copy(update={"text": f"{each.text}, as nobody asks for more of it"})
        if _is_ours(each, names)
        else each
        for each in members
    ]


def told_in_conflict(answer: Answer, names: frozenset[str]) -> Answer:
    """The same answer; of a conflict with its members so told. names: as of `told`."""
    if not isinstance(answer, ConflictAnswer):
        return answer
    fields: dict[str, object] = {
        "members": told(answer.members, names),
        "other_conflicts": [told(each, names) for each in answer.other_conflicts],
    }
    if answer.ways_out is not None:
        changes = [each for each in answer.ways_out.changes if not _is_ours(each, names)]
        fields["ways_out"] = answer.ways_out.model_copy(update={"changes": changes})
    return answer.model_copy(update=fields)


def _as_ours(each: MemberAnswer) -> MemberAnswer:
    return each.model_copy(update={"text": f"{each.text}, as nobody asks for more of it"})


def _is_ours(each: MemberAnswer | ChangeAnswer, names: frozenset[str]) -> bool:
    return each.kind == _MOST and each.name in names
