"""Who eats on the way in, cautions on the way out."""

from dataclasses import asdict
from typing import get_args

import pytest
from pydantic import ValidationError

from service.schemas.eater import EaterBody
from service.translate.cautions import to_cautions, to_eater
from solver.cautions.caution import Caution
from solver.eater import CONDITIONS, Eater


def test_nobody_is_nobody_and_an_empty_eater_is_somebody_unknown() -> None:
    assert to_eater(None) is None
    assert to_eater(EaterBody()) == Eater()


def test_everything_said_of_an_eater_arrives() -> None:
    body = EaterBody.model_validate(
        {
            "age_years": 5,
            "weight_kg": 18.5,
            "pregnant": False,
            "lactating": True,
            "conditions": ["insulin", "porphyria", "insulin"],
            "meals_per_day": 3,
            "prescribed": True,
        }
    )
    assert to_eater(body) == Eater(5.0, 18.5, False, True, ("insulin", "porphyria"), 3.0, True)  # noqa: FBT003


def test_the_contract_knows_the_conditions_that_the_cautions_know() -> None:
    (condition,) = get_args(EaterBody.model_fields["conditions"].annotation)
    assert get_args(condition) == CONDITIONS


@pytest.mark.parametrize(
    "body", [{"age_years": -1}, {"weight_kg": 0}, {"conditions": ["flu"]}, {"age_years": float("nan")}, {"pregnant": 1}]
)
def test_what_no_eater_is_like_is_refused(body: dict[str, object]) -> None:
    with pytest.raises(ValidationError):
        EaterBody.model_validate(body)


def test_a_caution_goes_out_as_it_is() -> None:
    caution = Caution("raw_egg", "Raw.", "sauce: egg", "sr28")
    (answer,) = to_cautions([caution])
    assert answer.model_dump() == asdict(caution)
