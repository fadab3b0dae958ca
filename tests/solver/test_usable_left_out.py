"""What missing values make unusable."""

from dataclasses import replace

from solver.brief import Brief
from solver.missing import count
from solver.pantry import PantryItem
from solver.usable import refuse_left_out
from tests.solver.larder import BUTTER, CHICKEN, ENERGY, between, brief, food, item, pantry
from tests.solver.refusals import only_problem, problems

FRESH = item(BUTTER)
STOCK = item(food("stock", protein_g=1.0))


def without_values(asked: Brief) -> None:
    refuse_left_out(asked, count(asked))


def needed(of: PantryItem) -> PantryItem:
    return replace(of, at_least_g=10.0)


def test_an_item_that_must_be_used_and_lacks_a_value_is_refused_with_what_it_lacks() -> None:
    asked = brief(FRESH, needed(STOCK), targets=(ENERGY,))
    assert only_problem(asked, without_values) == (
        "/pantry/1/at_least",
        "needed_value_missing",
        "stock must be used, but has no value for fat_g, total_carbohydrate_g, which the targets or rules need.",
    )


def test_an_item_that_may_be_left_out_is() -> None:
    without_values(brief(FRESH, STOCK, targets=(ENERGY,)))


def test_a_pantry_of_which_nothing_is_left_is_refused_with_what_is_lacking() -> None:
    asked = brief(*pantry(BUTTER, CHICKEN), targets=(between("sodium_mg", 1.0, None), between("iron_mg", 1.0, None)))
    assert only_problem(asked, without_values) == (
        "/pantry",
        "nothing_left",
        "Every item lacks a value that the targets or rules need (iron_mg, sodium_mg).",
    )


def test_saying_how_to_count_it_mends_both() -> None:
    asked = brief(needed(FRESH), targets=(between("sodium_mg", 1.0, None),))
    assert [problem.code for problem in problems(asked, without_values)] == ["needed_value_missing", "nothing_left"]
    without_values(replace(asked, count_missing_as={"sodium_mg": 600.0}))
