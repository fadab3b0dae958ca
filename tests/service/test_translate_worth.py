"""What limits are worth, as it goes out."""

from dataclasses import replace
from typing import get_args

import pytest

from service.schemas.worth import NotSaid
from service.translate.worth import to_worth
from solver.outcome import Checked, MemberKind
from solver.worth import Unsaid, Worth

TINY = Worth(
    kind=MemberKind.ON_HAND,
    name="egg",
    end="on_hand",
    by=0.1,
    unit="g for the batch",
    level="cheapest",
    more=-8.7654321e-6,
    more_reason=None,
    less=None,
    less_reason=Unsaid.NO_PLAN,
    checked=Checked.CERTIFICATE,
)


def test_every_field_goes_out_in_the_words_of_the_contract() -> None:
    (answer,) = to_worth([TINY])
    assert answer.model_dump() == {
        "kind": "on hand",
        "name": "egg",
        "end": "on_hand",
        "by": 0.1,
        "unit": "g for the batch",
        "level": "cheapest",
        "more": -8.76543e-6,
        "more_reason": None,
        "less": None,
        "less_reason": "no plan then",
        "checked": "certificate checked",
    }


def test_the_contract_knows_every_reason() -> None:
    assert set(get_args(NotSaid)) == {reason.value for reason in Unsaid}


@pytest.mark.parametrize("digits", [1.0, 0.1, 0.01, 123456.0])
def test_what_has_few_digits_keeps_them(digits: float) -> None:
    (answer,) = to_worth([replace(TINY, more=digits)])
    assert answer.more == digits
