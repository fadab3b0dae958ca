from collections.abc import Sequence
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from solver.brief import Brief
from solver.catalogue import Catalogue
from solver.energy_eaten import MacroEnergy
from solver.errors import VerificationError
from solver.numerics import LARGEST_PORTION_G, VERIFICATION
from solver.outcome import Dish, Distribution, Quantity, TargetResult
from solver.pantry import PantryItem, Step
from solver.targets import Per, Target
from solver.verify import dish_of, distribution, verified
from tests.solver.larder import BREAD, BUTTER, CHICKEN, PURE, between, brief, food, item, pantry

FAT, SALT = item(PURE[1]), item(food("salt", sodium_mg=38758.0, fat_g=0, protein_g=0, total_carbohydrate_g=0))


def used(*amounts: tuple[PantryItem, float]) -> list[Quantity]:
    return [Quantity(one, grams, None if one.step is None else round(grams / one.step.grams)) for one, grams in amounts]


def dish(asked: Brief, *amounts: tuple[PantryItem, float], binding: Sequence[str] = ()) -> Dish:
    return dish_of(used(*amounts), asked, frozenset(binding))


def result(target: Target, *amounts: tuple[PantryItem, float], portions: int = 1) -> TargetResult:
    asked = brief(*(one for one, _ in amounts), targets=(target,), portions=portions)
    return dish(asked, *amounts, binding=[target.id]).targets[0]


def one_item(one: PantryItem, grams: float, portions: int = 1) -> Dish:
    return dish(brief(one, portions=portions), (one, grams))


def test_a_dish_of_real_foods_comes_to_what_was_worked_by_hand(catalogue: Catalogue) -> None:
    # 150 g ground beef 80/20 (SR28 23572: P 17.17, F 20.00, C 0) and 20 g butter (01001: 0.85, 81.11, 0.06).
    beef, butter = (replace(item(catalogue.food(f"sr28:{number}")), price_per_g=0.01) for number in ("23572", "01001"))
    protein, fat, carbohydrate = 1.5 * 17.17 + 0.2 * 0.85, 1.5 * 20.00 + 0.2 * 81.11, 0.2 * 0.06
    kcal = 4 * protein + 9 * fat + 4 * carbohydrate
    targets = tuple(between(of, 0.1, None) for of in ("fat_share_percent", "ketogenic_ratio", "protein_g"))
    found = dish(brief(beef, butter, targets=targets, portions=2), (beef, 150.0), (butter, 20.0))
    assert [one.value for one in found.targets] == pytest.approx(
        [100 * 9 * fat / kcal, fat / (protein + carbohydrate), protein / 2], rel=1e-12
    )
    assert found.ketogenic_ratio == pytest.approx(fat / (protein + carbohydrate))
    assert found.batch.energy_kcal == pytest.approx(kcal)
    assert found.cost == pytest.approx(1.70)
    assert found.distribution == Distribution(fat=80, protein=20, carbohydrate=0, alcohol=0)


macro_energies = st.builds(MacroEnergy, *(st.one_of(st.just(0.0), st.floats(0, 1e7)) for _ in range(4)))


@given(macro_energies)
def test_whole_percents_sum_to_100_and_none_is_a_whole_percent_off(macro: MacroEnergy) -> None:
    found = distribution(macro)
    if macro.total == 0:
        assert found is None
        return
    assert found is not None
    assert found.fat + found.protein + found.carbohydrate + found.alcohol == 100
    for name in ("fat", "protein", "carbohydrate", "alcohol"):
        assert abs(getattr(found, name) - 100 * getattr(macro, name) / macro.total) < 1
        assert getattr(found, name) >= 0


def test_the_percents_left_over_go_to_the_largest_remainders() -> None:
    # 66.6, 16.7 and 16.7 %: rounding each would give 101.
    assert distribution(MacroEnergy(protein=16.7, fat=66.6, carbohydrate=16.7, alcohol=0)) == Distribution(
        66, 17, 17, 0
    )
    # 33.4, 33.3, 33.3 %: rounding each would give 99.
    assert distribution(MacroEnergy(protein=33.3, fat=33.4, carbohydrate=33.3, alcohol=0)) == Distribution(
        34, 33, 33, 0
    )


def test_without_macro_energy_there_is_no_distribution() -> None:
    assert distribution(MacroEnergy(0, 0, 0, 0)) is None


@pytest.mark.parametrize(
    ("lower", "upper", "grams", "met", "miss"),
    [
        (30.0, 40.0, 35.0, True, 0.0),
        (30.0, 40.0, 30.0, True, 0.0),
        (30.0, 40.0, 40.0, True, 0.0),
        (30.0, 40.0, 29.9, False, 0.1),
        (30.0, 40.0, 40.2, False, 0.2),
        (30.0, None, 500.0, True, 0.0),
        (None, 40.0, 0.1, True, 0.0),
    ],
)
def test_a_target_is_met_inside_its_band_and_says_by_how_much_it_is_missed(
    lower: float | None, upper: float | None, grams: float, *, met: bool, miss: float
) -> None:
    found = result(between("fat_g", lower, upper), (FAT, grams))
    assert found.value == pytest.approx(grams)
    assert found.met is met
    assert found.miss == pytest.approx(miss)
    assert found.reason is None


def test_the_tolerance_is_that_of_the_verification_and_no_more() -> None:
    for beyond, met in ((0.9 * VERIFICATION, True), (1.1 * VERIFICATION, False)):
        assert result(between("fat_g", 50.0 * (1 + beyond), None), (FAT, 50.0)).met is met
        assert result(between("fat_g", 0.5 + beyond, None), (FAT, 0.5)).met is met  # ends below 1 count as 1


def test_an_amount_is_for_a_portion_or_for_the_batch() -> None:
    target = between("fat_g", 10.0, 100.0)
    assert result(target, (FAT, 80.0), portions=4).value == 20
    assert result(replace(target, per=Per.BATCH), (FAT, 80.0), portions=4).value == 80
    assert result(between("energy_kcal", 1.0, None), (FAT, 80.0), portions=4).value == pytest.approx(180)


def test_a_target_is_binding_only_when_it_is_met() -> None:
    assert result(between("fat_g", 30.0, None), (FAT, 30.0)).binding
    assert not result(between("fat_g", 30.0, None), (FAT, 29.0)).binding
    target = between("fat_g", 30.0, None)
    assert not dish(brief(FAT, targets=(target,)), (FAT, 30.0), binding=["other"]).targets[0].binding


def test_a_ratio_of_fat_to_nothing_is_undefined_with_a_reason_and_above_any_bound() -> None:
    for lower, upper, met in ((4.0, None, True), (None, 4.0, False), (3.0, 4.0, False)):
        found = result(between("ketogenic_ratio", lower, upper), (FAT, 30.0))
        assert (found.value, found.miss, found.binding) == (None, None, False)
        assert found.reason == "there is neither protein nor available carbohydrate"
        assert found.met is met
    assert one_item(FAT, 30.0).ketogenic_ratio is None


def test_a_share_of_no_energy_is_undefined_with_a_reason_and_inside_any_band() -> None:
    found = result(between("fat_share_percent", 70.0, 80.0), (SALT, 5.0))
    assert (found.value, found.reason, found.met, found.miss) == (None, "there is no macro energy to share", True, None)
    assert one_item(SALT, 5.0).distribution is None


def test_a_sum_that_lacks_values_never_vouches_for_a_target() -> None:
    unsalted = item(food("unsalted", fat_g=1.0))
    with pytest.raises(VerificationError, match="sodium_mg is missing from unsalted"):
        result(between("sodium_mg", None, 800.0), (SALT, 1.0), (unsalted, 50.0))


def test_a_missed_must_does_not_leave_the_house() -> None:
    asked = brief(FAT, targets=(between("fat_g", 30.0, None), between("energy_kcal", None, 100.0)))
    with pytest.raises(VerificationError, match=r"miss fat_g, energy_kcal$"):
        verified(dish(asked, (FAT, 20.0)))


def test_an_undefined_ratio_that_misses_its_must_does_not_leave_the_house() -> None:
    with pytest.raises(VerificationError, match="ketogenic_ratio"):
        verified(dish(brief(FAT, targets=(between("ketogenic_ratio", None, 4.0),)), (FAT, 20.0)))


def test_a_missed_wish_leaves_with_its_miss() -> None:
    wish = replace(between("fat_g", 30.0, None), priority=1)
    asked = dish(brief(FAT, targets=(wish,)), (FAT, 20.0))
    assert verified(asked) is asked
    assert asked.targets[0].miss == pytest.approx(10)


STEPPED = replace(item(BUTTER), step=Step(1, "tbsp", 14.2))


@pytest.mark.parametrize(
    ("one", "grams", "said"),
    [
        (replace(FAT, on_hand_g=50.0), 50.1, "outside what the pantry allows"),
        (replace(FAT, at_most_g=50.0), 50.1, "outside what the pantry allows"),
        (replace(FAT, at_least_g=50.0), 49.9, "outside what the pantry allows"),
        (FAT, LARGEST_PORTION_G + 0.1, "outside what the pantry allows"),
        (FAT, -0.1, "outside what the pantry allows"),
        (replace(FAT, least_when_used_g=20.0), 19.9, "less than the least amount when used"),
        (FAT, 12.34, "not a multiple of its step"),
        (STEPPED, 20.0, "not a multiple of its step"),
        (STEPPED, 14.3, "not a multiple of its step"),
    ],
)
def test_an_amount_that_the_pantry_or_a_kitchen_rules_out_is_refused(one: PantryItem, grams: float, said: str) -> None:
    with pytest.raises(VerificationError, match=f"{one.name}: {grams} g is {said}"):
        one_item(one, grams)


@pytest.mark.parametrize(
    ("one", "grams"),
    [
        (replace(FAT, on_hand_g=50.0, at_most_g=60.0, at_least_g=50.0), 50.0),
        (replace(FAT, least_when_used_g=20.0), 20.0),
        (FAT, 0.1 + 0.2),
        (STEPPED, 3 * 14.2),
    ],
)
def test_an_amount_at_its_limit_is_accepted(one: PantryItem, grams: float) -> None:
    assert one_item(one, grams).quantities[0].grams == grams


def test_the_largest_amount_grows_with_the_portions() -> None:
    assert one_item(FAT, 2 * LARGEST_PORTION_G, portions=2).batch.grams == 2 * LARGEST_PORTION_G


def test_a_dish_without_an_item_that_must_be_used_is_refused() -> None:
    needed = replace(item(CHICKEN), at_least_g=100.0)
    with pytest.raises(VerificationError, match="chicken must be used and is not"):
        dish(brief(needed, FAT), (FAT, 30.0))


def test_a_used_item_without_a_price_leaves_the_cost_unknown() -> None:
    bread, butter = replace(item(BREAD), price_per_g=0.004), item(BUTTER)
    asked = brief(bread, butter)
    assert dish(asked, (bread, 50.0)).cost == pytest.approx(0.2)
    assert dish(asked, (bread, 50.0), (butter, 10.0)).cost is None


def test_quantities_and_targets_keep_the_order_of_the_brief() -> None:
    targets = tuple(between(of, 0.0, None) for of in ("protein_g", "fat_g", "energy_kcal"))
    asked = brief(*pantry(CHICKEN, BUTTER), targets=targets)
    found = dish(asked, *((one, 10.0) for one in asked.pantry))
    assert [one.item.name for one in found.quantities] == ["chicken", "butter"]
    assert [one.target.of for one in found.targets] == ["protein_g", "fat_g", "energy_kcal"]
