import math
from dataclasses import replace

import pytest

from solver.brief import Brief, Preference
from solver.pantry import Step
from solver.targets import Per, Target
from solver.usable import refuse_unusable
from solver.usable_targets import LARGEST_END, LEAST_END
from tests.solver.larder import BUTTER, CHICKEN, ENERGY, between, brief, item
from tests.solver.refusals import only_problem, problems

FRESH = item(BUTTER)
SHARE = between("fat_share_percent", 70.0, 80.0)


def with_target(target: Target) -> Brief:
    return brief(targets=(ENERGY, target))


def test_a_usable_brief_passes() -> None:
    refuse_unusable(brief())


@pytest.mark.parametrize("portions", [0, -1])
def test_a_dish_has_at_least_one_portion(portions: int) -> None:
    asked = brief(replace(FRESH, at_least_g=100.0, step=Step(1, "pat", 5.0)), portions=portions)
    assert only_problem(asked) == ("/portions", "too_few_portions", "A dish has at least one portion.")


@pytest.mark.parametrize(
    ("field", "emptied"),
    [
        ("pantry", replace(brief(), pantry=())),
        ("targets", replace(brief(), targets=())),
        ("prefer", replace(brief(), prefer=())),
    ],
)
def test_pantry_targets_and_preference_are_not_empty(field: str, emptied: Brief) -> None:
    assert only_problem(emptied) == (f"/{field}", "empty", f"{field} is empty.")


def test_a_target_is_of_a_quantity_that_exists() -> None:
    found = only_problem(with_target(between("flavour", 1.0, None)))
    assert found == ("/targets/1/of", "unknown_quantity", "There is no such quantity.")


def test_a_target_has_a_band() -> None:
    assert only_problem(with_target(between("protein_g", None, None))) == (
        "/targets/1",
        "no_band",
        "protein_g has no band.",
    )


@pytest.mark.parametrize("end", [-1.0, LEAST_END / 2, LARGEST_END * 2, math.nan, math.inf])
@pytest.mark.parametrize("field", ["at_least", "at_most"])
def test_an_end_of_a_band_is_an_amount(end: float, field: str) -> None:
    lower, upper = (end, None) if field == "at_least" else (None, end)
    pointer, code, detail = only_problem(with_target(between("protein_g", lower, upper)))
    assert (pointer, code) == (f"/targets/1/{field}", "not_an_amount")
    assert detail == "protein_g has an end below 0, or one too small or too large to plan with."


@pytest.mark.parametrize("field", ["at_least", "at_most"])
def test_a_share_is_at_most_100_percent(field: str) -> None:
    lower, upper = (100.5, None) if field == "at_least" else (None, 100.5)
    found = only_problem(with_target(between("fat_share_percent", lower, upper)))
    assert found == (f"/targets/1/{field}", "beyond_100", "fat_share_percent has an end above 100 %.")
    refuse_unusable(with_target(between("fat_share_percent", 100.0, 100.0)))


def test_a_band_is_not_crossed() -> None:
    found = only_problem(with_target(between("protein_g", 40.0, 30.0)))
    assert found == ("/targets/1/at_least", "crossed_band", "protein_g: at_least 40 is above at_most 30.")


LOW, HIGH = between("protein_g", 20.0, 30.0), replace(between("protein_g", 40.0, None), id="more")


def test_two_bands_that_nothing_meets_are_both_named() -> None:
    found = problems(brief(targets=(LOW, ENERGY, HIGH)))
    assert [(problem.pointer, problem.code, problem.detail) for problem in found] == [
        (
            "/targets/0",
            "contradictory_bands",
            "protein_g at least 20 and at most 30 cannot be had together with at least 40 at /targets/2.",
        ),
        (
            "/targets/2",
            "contradictory_bands",
            "protein_g at least 40 cannot be had together with at least 20 and at most 30 at /targets/0.",
        ),
    ]


@pytest.mark.parametrize(
    "other",
    [
        replace(HIGH, lower=30.0),
        replace(HIGH, of="fat_g"),
        replace(HIGH, per=Per.BATCH),
        replace(HIGH, priority=1),
    ],
    ids=["touching", "of something else", "per batch", "a wish"],
)
def test_bands_that_can_be_had_together_pass(other: Target) -> None:
    refuse_unusable(brief(targets=(LOW, other)))


def test_a_share_is_the_same_for_a_portion_and_for_the_batch() -> None:
    batch = replace(between("fat_share_percent", 90.0, None), id="batch", per=Per.BATCH)
    found = problems(brief(targets=(ENERGY, SHARE, batch)))
    assert [(problem.pointer, problem.code) for problem in found] == [
        ("/targets/1", "contradictory_bands"),
        ("/targets/2", "contradictory_bands"),
    ]


def test_items_have_names_of_their_own() -> None:
    asked = brief(FRESH, item(CHICKEN), replace(FRESH, on_hand_g=5.0))
    assert only_problem(asked) == ("/pantry/2/name", "repeated_name", "butter stands at /pantry/0 too.")


def test_targets_have_ids_of_their_own() -> None:
    assert only_problem(with_target(ENERGY)) == (
        "/targets/1/id",
        "repeated_id",
        "energy_kcal stands at /targets/0 too.",
    )
    refuse_unusable(with_target(replace(ENERGY, id="again")))


def test_the_cheapest_plan_needs_every_price() -> None:
    asked = brief(replace(FRESH, price_per_g=0.0), item(CHICKEN))
    assert only_problem(replace(asked, prefer=(Preference.CHEAPEST,))) == (
        "/pantry/1",
        "unpriced",
        "chicken has no price, and the cheapest plan is asked for.",
    )
    refuse_unusable(asked)


def test_what_is_counted_for_missing_values_is_a_nutrient_that_exists() -> None:
    found = only_problem(replace(brief(), count_missing_as={"flavour": 1.0}))
    assert found == ("/count_missing_as/flavour", "unknown_nutrient", "There is no such nutrient.")


def test_a_pointer_escapes_what_json_pointers_reserve() -> None:
    # RFC 6901, section 3: "~" is "~0" and "/" is "~1".
    pointer, *_ = only_problem(replace(brief(), count_missing_as={"a/b~c": 1.0}))
    assert pointer == "/count_missing_as/a~1b~0c"


@pytest.mark.parametrize("value", [-1.0, LARGEST_END * 2, math.nan])
def test_what_is_counted_for_missing_values_is_an_amount(value: float) -> None:
    pointer, code, detail = only_problem(replace(brief(), count_missing_as={"fibre_g": value}))
    assert (pointer, code) == ("/count_missing_as/fibre_g", "not_an_amount")
    assert "fibre_g" in detail


@pytest.mark.parametrize(
    "targets",
    [
        (SHARE,),
        (SHARE, between("ketogenic_ratio", 1.0, None)),
        (SHARE, between("energy_kcal", None, 600.0)),
        (between("protein_g", 0.0, 40.0),),
    ],
)
def test_targets_that_an_empty_plate_meets_are_refused(targets: tuple[Target, ...]) -> None:
    found = only_problem(brief(targets=targets))
    assert found == ("/targets", "empty_plate", "Every target is met by an empty plate.")


def test_ratios_alone_are_enough_when_some_item_must_be_used() -> None:
    refuse_unusable(brief(replace(FRESH, at_least_g=100.0), item(CHICKEN), targets=(SHARE,)))


@pytest.mark.parametrize("priority", [None, 1])
def test_an_amount_to_reach_is_enough_even_as_a_wish(priority: int | None) -> None:
    refuse_unusable(brief(targets=(SHARE, replace(between("protein_g", 30.0, None), priority=priority))))


def test_all_problems_are_found_at_once() -> None:
    asked = brief(
        replace(FRESH, on_hand_g=-1.0),
        replace(FRESH, at_least_g=60.0, at_most_g=50.0),
        targets=(between("flavour", 1.0, None), between("protein_g", 40.0, 30.0)),
        portions=0,
    )
    found = problems(replace(asked, count_missing_as={"aroma": 1.0}))
    assert {(problem.pointer, problem.code) for problem in found} >= {
        ("/portions", "too_few_portions"),
        ("/pantry/0/on_hand", "not_an_amount"),
        ("/pantry/1/at_least", "crossed_limits"),
        ("/pantry/1/name", "repeated_name"),
        ("/targets/0/of", "unknown_quantity"),
        ("/targets/1/at_least", "crossed_band"),
        ("/count_missing_as/aroma", "unknown_nutrient"),
    }
