"""Portions of a cooked dish: by hand, and that dividing neither makes nor loses anything nor changes a ratio."""

from dataclasses import replace
from fractions import Fraction
from math import fsum, isclose

import pytest
from hypothesis import given
from hypothesis import strategies as st

from solver.components import Drippings, Placed
from solver.errors import Problem, UnusableBrief
from solver.numerics import BALANCE
from solver.outcome import Quantity, Totals
from solver.portion_scale import weigh_out_g
from solver.portion_shares import LEFTOVERS, Asked, ByEnergy, ByPieces, ByShares, ByWeight, Equal, How
from solver.portions import Division, Portion, divide
from solver.tally import Tally, tally
from tests.solver.larder import BUTTER, PATTIES, TABLE, item, kitchen, macronutrients, pantry

MINCE = macronutrients("mince", protein=15, fat=30)
SERVED = replace(PATTIES, drippings=Drippings.SERVED)


def supper(mince_g: float = 900.0, butter_g: float = 20.0) -> Tally:
    """Patties with their drippings, and butter at the table.

    900 g mince of 30 % fat weigh 0.84 x 900 - 0.9 x 270 = 513 g when cooked, and 175.5 g fat run out and are served:
    688.5 g, and 708.5 g with the butter. Protein 135.2 g; fat 286 g, all of it eaten; carbohydrate 0.2 g:
    9 x 286 + 4 x 135.4 = 3115.6 kcal.
    """
    asked = kitchen(item(MINCE), item(BUTTER), targets=(), parts=(SERVED, TABLE))
    mince, butter = pantry(MINCE, BUTTER)
    quantities = (
        Quantity(mince, mince_g, None, Placed(SERVED.name)),
        Quantity(butter, butter_g, None, Placed(TABLE.name)),
    )
    return tally(quantities, asked)


SUPPER = supper()


def divided(how: How, of: Tally = SUPPER, scale_g: float = 1.0) -> tuple[Portion, ...]:
    return divide(of.batch, of.cooked, Division(how, scale_g), "/division")


def refused(how: How, of: Totals = SUPPER.batch) -> Problem:
    with pytest.raises(UnusableBrief) as caught:
        divide(of, SUPPER.cooked, Division(how), "/division")
    (problem,) = caught.value.problems
    return problem


def asked(**amounts: float) -> tuple[Asked, ...]:
    return tuple(Asked(name, amount) for name, amount in amounts.items())


def test_the_supper_weighs_and_holds_what_the_tests_below_count_with() -> None:
    assert SUPPER.batch.grams == pytest.approx(708.5)
    assert SUPPER.batch.energy_kcal == pytest.approx(3115.6)


def test_equal_portions_hold_drippings_that_are_served() -> None:
    portions = divided(Equal(4))
    assert [portion.name for portion in portions] == ["portion 1", "portion 2", "portion 3", "portion 4"]
    for portion in portions:
        assert portion.grams == pytest.approx(177.125)
        assert portion.components["patties"].grams == pytest.approx((513 + 175.5) / 4)
        assert portion.components["at the table"].grams == pytest.approx(5)
        assert portion.totals.values["fat_g"] == pytest.approx(71.5)
        assert (portion.pieces, portion.leftover) == (None, False)


def test_rounded_portions_sum_to_the_rounded_batch() -> None:
    portions = divided(Equal(4))  # 4 x 177.125 = 708.5, which the scale shows as 709
    assert [portion.weigh_out_g for portion in portions] == [178, 177, 177, 177]
    assert [portion.components["patties"].weigh_out_g for portion in portions] == [173, 172, 172, 172]
    assert [portion.components["at the table"].weigh_out_g for portion in portions] == [5, 5, 5, 5]


def test_a_finer_scale_shows_tenths() -> None:
    assert [portion.weigh_out_g for portion in divided(Equal(4), scale_g=0.1)] == [177.2, 177.1, 177.1, 177.1]


def test_cut_into_eight_of_which_the_guest_eats_three() -> None:
    guest, left = divided(ByPieces(8, asked(guest=3)))
    assert (guest.share, guest.pieces, guest.leftover) == (Fraction(3, 8), 3, False)
    assert (left.name, left.share, left.pieces, left.leftover) == (LEFTOVERS, Fraction(5, 8), 5, True)
    assert guest.grams == pytest.approx(265.6875)
    assert guest.totals.energy_kcal == pytest.approx(1168.35)


def test_by_weight_the_rest_is_left() -> None:
    guest, cook, left = divided(ByWeight(asked(guest=250, cook=200.5)))
    assert (guest.grams, cook.grams, left.grams) == pytest.approx((250, 200.5, 258))
    assert guest.totals.energy_kcal == pytest.approx(3115.6 * 250 / 708.5)
    assert guest.components["patties"].grams == pytest.approx(688.5 * 250 / 708.5)
    assert left.leftover


def test_uneven_parts_leave_nothing() -> None:
    parts = divided(ByShares(asked(a=2, b=1, c=1)))
    assert [part.share for part in parts] == [Fraction(1, 2), Fraction(1, 4), Fraction(1, 4)]
    percents = divided(ByShares(asked(a=50, b=25, c=25)))
    assert parts == percents


def test_by_energy_the_rest_is_left() -> None:
    guest, left = divided(ByEnergy(asked(guest=600)))
    assert guest.totals.energy_kcal == pytest.approx(600)
    assert guest.grams == pytest.approx(708.5 * 600 / 3115.6)
    assert left.totals.energy_kcal == pytest.approx(2515.6)


@pytest.mark.parametrize("off_g", [-0.04, 0.0, 0.04])
def test_what_the_scale_cannot_show_is_neither_left_nor_too_much(off_g: float) -> None:
    (all_of_it,) = divided(ByWeight(asked(guest=708.5 + off_g)))
    assert all_of_it.share == 1
    (energy,) = divided(ByEnergy(asked(guest=3115.6 * (1 + off_g / 708.5))))
    assert energy.share == 1


def test_what_the_scale_can_show_is_left_or_too_much() -> None:
    assert [portion.leftover for portion in divided(ByWeight(asked(guest=708.4)))] == [False, True]
    assert refused(ByWeight(asked(guest=708.6))).code == "portions_exceed_batch"


def test_missing_values_stay_missing_in_every_portion() -> None:
    lacking = replace(SUPPER.batch, lacking={"sodium_mg": ("mince",)})
    assert SUPPER.batch.values["sodium_mg"] is None
    for portion in divide(lacking, SUPPER.cooked, Division(Equal(2))):
        assert portion.totals.values["sodium_mg"] is None
        assert portion.totals.lacking == {"sodium_mg": ("mince",)}


@pytest.mark.parametrize(
    ("how", "pointer", "code"),
    [
        (ByWeight(asked(a=400, b=309)), "/division/portions", "portions_exceed_batch"),
        (ByEnergy(asked(a=3000, b=200)), "/division/portions", "portions_exceed_batch"),
        (ByPieces(8, asked(a=5, b=4)), "/division/eats", "no_pieces_left"),
        (ByShares((Asked("Anna", 1), Asked("anna", 2))), "/division/portions/1/name", "repeated_portion"),
        (ByPieces(8, (Asked("Leftovers", 1),)), "/division/eats/0/name", "repeated_portion"),
        (ByShares(asked(a=1, b=0)), "/division/portions/1/parts", "not_positive"),
    ],
)
def test_a_division_that_cannot_be_is_refused_where_it_is_wrong(how: How, pointer: str, code: str) -> None:
    problem = refused(how)
    assert (problem.pointer, problem.code) == (pointer, code)
    assert problem.detail.endswith(".")
    assert problem.remedy.endswith(".")


def test_nothing_cannot_be_divided() -> None:
    nothing = supper(0.0, 0.0).batch
    assert refused(Equal(2), nothing).code == "nothing_to_divide"
    water = replace(SUPPER.batch, energy_kcal=0.0)
    assert refused(ByEnergy(asked(a=1)), water).detail == "The dish has no energy, so it cannot be divided."
    assert len(divide(water, SUPPER.cooked, Division(Equal(2)))) == 2


AMOUNTS = st.lists(st.floats(1, 100), min_size=1, max_size=6)


def named(amounts: list[float]) -> tuple[Asked, ...]:
    return tuple(Asked(f"eater {n}", amount) for n, amount in enumerate(amounts))


HOWS: st.SearchStrategy[How] = st.one_of(
    st.builds(Equal, st.integers(1, 40)),
    st.builds(lambda amounts: ByWeight(named(amounts)), AMOUNTS),
    st.builds(lambda amounts: ByShares(named(amounts)), AMOUNTS),
    st.builds(lambda amounts: ByEnergy(named(amounts)), AMOUNTS),
    st.builds(
        lambda counts, more: ByPieces(sum(counts) + more, named(list(counts))),
        st.lists(st.integers(1, 5), min_size=1, max_size=6),
        st.integers(0, 9),
    ),
)
SUPPERS = st.builds(supper, st.floats(600, 5000), st.floats(1, 500))


def numbers(totals: Totals) -> list[float]:
    known = [value for value in totals.values.values() if value is not None]
    return [totals.grams, totals.energy_kcal, totals.energy_kj, *known]


@given(HOWS, SUPPERS)
def test_portions_sum_to_the_batch(how: How, of: Tally) -> None:
    portions = divided(how, of)
    assert sum(portion.share for portion in portions) == 1
    columns = zip(*(numbers(portion.totals) for portion in portions), strict=True)
    for column, whole in zip(columns, numbers(of.batch), strict=True):
        assert abs(fsum(column) - whole) <= BALANCE * max(1.0, whole)
    for cooked in of.cooked:
        parts = fsum(portion.components[cooked.component.name].grams for portion in portions)
        assert isclose(parts, cooked.eaten_g, rel_tol=BALANCE)


@given(HOWS, SUPPERS)
def test_the_components_of_a_portion_are_the_portion(how: How, of: Tally) -> None:
    for portion in divided(how, of):
        assert isclose(fsum(part.grams for part in portion.components.values()), portion.grams, rel_tol=BALANCE)


@given(HOWS, SUPPERS)
def test_the_size_of_a_portion_changes_no_ratio(how: How, of: Tally) -> None:
    def ratios(totals: Totals) -> tuple[float, float]:
        fat, protein, carbohydrate = (
            totals.values[name] or 0.0 for name in ("fat_g", "protein_g", "available_carbohydrate_g")
        )
        return fat / (protein + carbohydrate), 9 * fat / totals.energy_kcal

    for portion in divided(how, of):
        assert ratios(portion.totals) == pytest.approx(ratios(of.batch))


@given(HOWS, SUPPERS, st.sampled_from([1.0, 0.1]))
def test_the_scale_is_off_by_less_than_a_step_and_by_half_a_step_in_all(how: How, of: Tally, scale_g: float) -> None:
    portions = divided(how, of, scale_g)
    near = 1e-9
    assert all(abs(portion.weigh_out_g - portion.grams) < scale_g + near for portion in portions)
    assert abs(fsum(portion.weigh_out_g for portion in portions) - of.batch.grams) <= scale_g / 2 + near
    for cooked in of.cooked:
        shown = fsum(portion.components[cooked.component.name].weigh_out_g for portion in portions)
        assert abs(shown - cooked.eaten_g) <= scale_g / 2 + near


@given(st.integers(1, 40), SUPPERS)
def test_pieces_of_which_each_eats_one_are_equal_portions(pieces: int, of: Tally) -> None:
    cut = divided(ByPieces(pieces, named([1] * pieces)), of)
    equal = divided(Equal(pieces), of)
    assert [(part.share, part.totals, part.weigh_out_g) for part in cut] == [
        (part.share, part.totals, part.weigh_out_g) for part in equal
    ]


@given(AMOUNTS, SUPPERS)
def test_portions_by_energy_are_the_portions_by_the_weight_of_that_energy(amounts: list[float], of: Tally) -> None:
    by_energy = divided(ByEnergy(named(amounts)), of)
    grams_per_kcal = of.batch.grams / of.batch.energy_kcal
    by_weight = divided(ByWeight(named([amount * grams_per_kcal for amount in amounts])), of)
    assert [part.grams for part in by_energy] == pytest.approx([part.grams for part in by_weight])


def test_the_largest_remainders_get_the_steps_that_are_left() -> None:
    shares = [Fraction(1, 6), Fraction(1, 3), Fraction(1, 2)]  # of 10: 1.67, 3.33, 5
    assert weigh_out_g(10.0, shares, 1.0) == (2, 3, 5)
