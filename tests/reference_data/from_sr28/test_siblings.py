from reference_data.from_sr28.ascii_files import FoodRow
from reference_data.from_sr28.siblings import sibling_findings
from tests.reference_data.from_sr28.invented import food_row

FULLER = food_row(number="99001", description="Bird, leg, meat and skin, raw", refuse="30", refuse_description="Bone")


def leaner(refuse: str, description: str) -> FoodRow:
    return food_row(
        number="99002", description="Bird, leg, meat only, raw", refuse=refuse, refuse_description=description
    )


def found(*foods: FoodRow) -> list[str]:
    return [finding.found for finding in sibling_findings(foods) if finding.food == "99002"]


def test_a_leaner_cut_with_the_same_bone_and_more_refuse_is_sound() -> None:
    assert found(FULLER, leaner("42", "30% bone, 12% skin")) == []


def test_a_leaner_cut_with_less_refuse_is_found() -> None:
    assert found(FULLER, leaner("20", "Bone")) == ["20 %"]


def test_a_leaner_cut_with_another_share_of_bone_is_found() -> None:
    assert found(FULLER, leaner("50", "Bone and cartilage 38%, skin 12%")) == ["bone 38 %"]
