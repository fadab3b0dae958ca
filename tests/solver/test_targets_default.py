import pytest

from solver.targets_default import default_within


def test_an_energy_may_miss_its_aim_by_3_percent() -> None:
    assert default_within("energy_kcal", 650.0) == pytest.approx(19.5)


@pytest.mark.parametrize("of", ["protein_g", "sodium_mg", "vitamin_d_ug"])
def test_any_other_amount_by_5_percent(of: str) -> None:
    assert default_within(of, 40.0) == pytest.approx(2.0)


@pytest.mark.parametrize("of", ["fat_share_percent", "protein_share_percent", "carbohydrate_share_percent"])
@pytest.mark.parametrize("aim", [0.0, 5.0, 75.0])
def test_a_share_by_one_percentage_point_whatever_the_aim(of: str, aim: float) -> None:
    assert default_within(of, aim) == 1.0


@pytest.mark.parametrize("aim", [1.0, 4.0])
def test_a_ketogenic_ratio_by_a_twentieth_whatever_the_aim(aim: float) -> None:
    assert default_within("ketogenic_ratio", aim) == 0.05


def test_an_unknown_quantity_is_a_key_error() -> None:
    with pytest.raises(KeyError):
        default_within("flavour", 1.0)
