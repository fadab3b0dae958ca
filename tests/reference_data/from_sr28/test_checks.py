import pytest

from reference_data.from_sr28.checks import findings
from reference_data.from_sr28.refuse import CORRECTIONS
from tests.reference_data.from_sr28.invented import food_row

#: Nutrient numbers as in SR28: protein 203, fat 204, carbohydrate 205, ash 207, energy 208, alcohol 221, water 255,
#: sugars 269, fibre 291, saturated fat 606.
SOUND = {203: "20.00", 204: "30.00", 205: "1.00", 207: "3.00", 208: "353", 255: "46.00", 269: "0.90", 291: "0.0"}


def found(values: dict[int, str], **changes: str) -> list[str]:
    return [finding.check for finding in findings(food_row(**changes), values)]


def test_a_sound_food_has_no_findings() -> None:
    assert found(SOUND) == []


@pytest.mark.parametrize(
    ("values", "check"),
    [
        ({204: "40.00", 208: "441"}, "proximates"),
        ({205: "3.00", 208: "361"}, "carbohydrate by difference"),
        ({269: "1.20"}, "sugars and fibre"),
        ({606: "31.000"}, "fatty acids"),
        ({208: "356"}, "energy"),
    ],
)
def test_what_looks_wrong_is_found(values: dict[int, str], check: str) -> None:
    assert found(SOUND | values) == [check]


def test_missing_fibre_is_found_and_nothing_is_made_of_it() -> None:
    assert found({number: text for number, text in SOUND.items() if number != 291}) == ["fibre missing"]


def test_alcohol_counts_among_the_proximates_and_the_energy() -> None:
    spirit = {203: "0.00", 204: "0.00", 205: "0.00", 207: "0.00", 208: "231", 221: "33.4", 255: "66.60", 291: "0.0"}
    assert found(spirit) == []
    assert found(spirit | {221: "0.0"}) == ["proximates", "energy"]


def test_refuse_that_is_not_the_sum_of_its_items_is_found_unless_it_is_corrected() -> None:
    items = {"refuse": "20", "refuse_description": "Rind 8%, wax .5%"}
    assert found(SOUND, **items) == ["refuse items"]
    assert found(SOUND, **items, number=CORRECTIONS[0].food) == []
    assert found(SOUND, refuse="9", refuse_description="Rind 8%, wax .5%") == []
