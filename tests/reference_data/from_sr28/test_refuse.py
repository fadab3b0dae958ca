import math

import pytest

from reference_data.from_sr28.refuse import CORRECTIONS, correct_refuse
from solver.catalogue import Catalogue
from tests.reference_data.from_sr28.invented import food_row


def test_a_food_without_a_correction_stays_as_it_is() -> None:
    plain = food_row(refuse="12")
    assert correct_refuse([plain]) == (plain,)


def test_a_correction_replaces_what_the_source_says() -> None:
    correction = CORRECTIONS[0]
    (corrected,) = correct_refuse([food_row(number=correction.food, refuse=correction.was)])
    assert corrected.refuse == correction.corrected


def test_a_correction_of_what_the_source_does_not_say_is_refused() -> None:
    with pytest.raises(ValueError, match=f"refuse of {CORRECTIONS[0].food}"):
        correct_refuse([food_row(number=CORRECTIONS[0].food, refuse="1")])


def test_every_food_is_corrected_once_with_a_reason_and_the_table_holds_the_correction(catalogue: Catalogue) -> None:
    assert len({correction.food for correction in CORRECTIONS}) == len(CORRECTIONS)
    for correction in CORRECTIONS:
        refuse = catalogue.food(f"sr28:{correction.food}").refuse_percent
        assert correction.reason
        assert refuse == float(correction.corrected) if correction.corrected else math.isnan(refuse)
