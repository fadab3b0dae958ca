"""From what limits are worth to the answer that says so."""

from collections.abc import Sequence

from service.schemas.worth import WorthAnswer
from solver.worth import Unsaid, Worth

#: Digits that say something. Worth may be tiny in its unit, so that decimals would cut it off.
SIGNIFICANT_DIGITS = 6


def to_worth(found: Sequence[Worth]) -> list[WorthAnswer]:
    """As the contract has it."""
    return [_worth(one) for one in found]


def _worth(one: Worth) -> WorthAnswer:
    return WorthAnswer.model_validate(
        {
            "kind": one.kind.value,
            "name": one.name,
            "end": one.end,
            "by": _significant(one.by),
            "unit": one.unit,
            "level": one.level,
            "more": _significant(one.more),
            "more_reason": _words(one.more_reason),
            "less": _significant(one.less),
            "less_reason": _words(one.less_reason),
            "checked": one.checked.value,
        }
    )


def _significant(value: float | None) -> float | None:
    return None if value is None else float(f"{value:.{SIGNIFICANT_DIGITS}g}")


def _words(reason: Unsaid | None) -> str | None:
    return None if reason is None else reason.value
