"""Who should not eat like this without a clinic: contraindications as the trade knows them, from memory."""

import pytest

from solver.eater import CONDITIONS, Eater
from solver.outcome import Quantity
from solver.targets import Target
from tests.solver.cautions.dishes import BEEF, CAUTIONS, brief_of, dish_of, item

BEEF_ITEM = item("ground beef", BEEF)
RATIO = Target("ratio", "ketogenic_ratio", lower=3.0)


def codes(eater: Eater | None, *targets: Target, fat_percent: int = 20) -> dict[str, str]:
    dish = dish_of(Quantity(BEEF_ITEM, 100, None), fat_percent=fat_percent)
    return {c.code: f"{c.trigger} | {c.text}" for c in CAUTIONS(brief_of(BEEF_ITEM, targets=targets), dish, eater)}


@pytest.mark.parametrize("condition", CONDITIONS)
def test_every_condition_has_a_caution_of_its_own(condition: str) -> None:
    found = codes(Eater(age_years=40, conditions=(condition,)))
    assert found[f"medical_{condition}"].startswith(f"eater: {condition} | ")
    assert [code for code in found if code.startswith("medical_") and code != "medical_supervision"] == [
        f"medical_{condition}"
    ]


def test_sglt2_inhibitors_bring_ketoacidosis_with_normal_glucose() -> None:
    text = codes(Eater(conditions=("sglt2_inhibitor",)))["medical_sglt2_inhibitor"]
    assert "ketoacidosis" in text
    assert "glucose is normal" in text


def test_the_reminder_names_everyone_who_needs_a_clinic() -> None:
    text = codes(None, RATIO)["medical_supervision"]
    for named in (
        *("ketogenic therapy", "children", "pregnancy", "breastfeeding", "SGLT2", "normal glucose", "insulin"),
        *("sulphonylureas", "blood-pressure", "kidney", "pancreatitis", "fat oxidation", "carnitine"),
        *("pyruvate carboxylase", "porphyria"),
    ):
        assert named in text


@pytest.mark.parametrize(
    ("target", "expected"),
    [
        (RATIO, True),
        (Target("fat_share_percent", "fat_share_percent", lower=74, upper=76, aim=75, within=1), True),
        (Target("fat_share_percent", "fat_share_percent", lower=49.5, upper=51, aim=50), True),
        (Target("fat_share_percent", "fat_share_percent", upper=90), False),
        (Target("protein_g", "protein_g", lower=60), False),
    ],
)
def test_the_reminder_comes_with_what_is_asked_for(target: Target, *, expected: bool) -> None:
    assert ("medical_supervision" in codes(None, target)) is expected


def test_the_reminder_comes_with_a_dish_that_is_mostly_fat() -> None:
    assert "medical_supervision" not in codes(None, fat_percent=49)
    assert codes(None, fat_percent=50)["medical_supervision"].startswith("the dish: 50 % of energy from fat | ")


def test_children_and_breastfeeding_have_cautions() -> None:
    assert "medical_child" in codes(Eater(age_years=17.9))
    assert "medical_child" not in codes(Eater(age_years=18))
    assert "medical_lactation" in codes(Eater(lactating=True))


def test_a_prescribed_therapy_is_eaten_to_the_last_gram() -> None:
    child = Eater(age_years=5, conditions=("ketogenic_therapy",), prescribed=True)
    text = codes(child, RATIO)["therapy_as_prescribed"]
    assert "0.1 g" in text
    assert "every meal" in text
    assert "everything is eaten" in text
    assert "therapy_as_prescribed" not in codes(Eater(age_years=40, prescribed=True))


def test_histamine_and_spice_are_not_assessed_for_whoever_eats() -> None:
    assert "not assessed" in codes(Eater())["histamine_and_spice_not_assessed"]
    assert "histamine_and_spice_not_assessed" not in codes(None)


def test_without_a_plan_the_brief_and_the_eater_still_speak() -> None:
    found = {c.code for c in CAUTIONS(brief_of(BEEF_ITEM, targets=(RATIO,)), None, Eater(conditions=("insulin",)))}
    assert found == {"medical_supervision", "medical_insulin", "histamine_and_spice_not_assessed"}
