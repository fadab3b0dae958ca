"""Linear rows alone may pretend that more fat rendered than does: where they do and where not, against brute force."""

from collections.abc import Iterator
from dataclasses import replace
from itertools import product
from math import inf

import pytest

from solver.backends import open_backend
from solver.brief import Brief, Preference
from solver.components import Drippings
from solver.cook import SPOON_G
from solver.exactness import mixes_left
from solver.numerics import VERIFICATION
from solver.outcome import Checked, Conflict, Dish, Plan, Quantity
from solver.pans import SPOONABLE
from solver.pantry import PantryItem, Step
from solver.solve import solve
from solver.targets import Target
from solver.verify import dish_of
from tests.solver.larder import PATTIES, TABLE, between, into, item, kitchen, macronutrients, posed
from tests.solver.pretending import pretends

STEP_G = 50.0

MINCE, LEAN = macronutrients("mince", protein=15, fat=30), macronutrients("lean", protein=22, fat=4)
BUTTER = macronutrients("butter", protein=1, fat=80)

SPOONED = replace(PATTIES, drippings=Drippings.SPOONED_BACK)


def stepped(of: PantryItem, price: float, most: int) -> PantryItem:
    return replace(of, step=Step(1, "piece", STEP_G), price_per_g=price, on_hand_g=most * STEP_G)


def brief(*targets: Target, spooned: bool = False) -> Brief:
    """Two minces for the patties and butter for the table, in pieces of 50 g, so that brute force sees everything."""
    component = SPOONED if spooned else PATTIES
    items = (
        into(stepped(item(MINCE), 0.004, 8), component),
        into(stepped(item(LEAN), 0.011, 8), component),
        into(stepped(item(BUTTER), 0.006, 3), TABLE),
    )
    asked = kitchen(*items, targets=targets, parts=(component, TABLE))
    return replace(asked, prefer=(Preference.CHEAPEST,))


def dishes(asked: Brief) -> Iterator[Dish]:
    """Every dish that can be printed."""
    counts = [range(round((one.on_hand_g or 0.0) / STEP_G) + 1) for one in asked.pantry]
    for pieces in product(*counts):
        used = [
            Quantity(one, n * STEP_G, n, one.placed[0]) for one, n in zip(asked.pantry, pieces, strict=True) if n > 0
        ]
        dish = dish_of(used, asked, frozenset())
        yield dish
        for cooked in dish.cooked:
            if cooked.component.drippings is Drippings.SPOONED_BACK:
                for spoons in range(1, int(SPOONABLE * cooked.rendered_g / SPOON_G + 1e-9) + 1):
                    yield dish_of(used, asked, frozenset(), {cooked.component.name: spoons})


def cheapest(asked: Brief) -> float:
    """By brute force; infinite where nothing meets all targets."""
    return min((dish.cost or 0.0 for dish in dishes(asked) if all(one.met for one in dish.targets)), default=inf)


#: The linear rows pretend: fat, energy or a share has an upper bound.
PRETENDING = [
    brief(between("protein_g", 50.0, None), between("fat_g", None, 26.0)),
    brief(between("protein_g", 60.0, None), between("energy_kcal", None, 520.0)),
    brief(between("fat_share_percent", 50.0, 60.0), between("energy_kcal", 400.0, 450.0)),
]

#: Nothing pays for pretending: fat is only asked for, or all of what is asked for is lean.
PLAIN = [
    brief(between("protein_g", 30.0, None), between("fat_g", 40.0, None)),
    brief(between("protein_g", 60.0, 80.0), between("energy_kcal", 500.0, None)),
]

#: A spoon wants as much as there is.
SPOONS = [
    brief(between("fat_share_percent", 74.0, 76.0), between("protein_g", 30.0, None), spooned=True),
    brief(between("fat_g", 60.0, 64.0), between("protein_g", 20.0, 24.0), spooned=True),
    brief(between("fat_share_percent", 84.0, None), between("protein_g", 50.0, None), spooned=True),
]


@pytest.mark.parametrize("asked", PRETENDING)
def test_where_the_linear_rows_pretend_the_curve_is_posed_exactly_and_nothing_cheaper_exists(asked: Brief) -> None:
    assert pretends(asked) == {"patties"}
    assert found(asked) == pytest.approx(cheapest(asked), abs=VERIFICATION)


@pytest.mark.parametrize("asked", PLAIN)
def test_where_nothing_pays_for_pretending_the_linear_rows_are_enough(asked: Brief) -> None:
    assert pretends(asked) == frozenset()
    assert found(asked) == pytest.approx(cheapest(asked), abs=VERIFICATION)


@pytest.mark.parametrize("asked", SPOONS)
def test_no_more_is_spooned_back_than_a_spoon_finds(asked: Brief) -> None:
    assert found(asked) == pytest.approx(cheapest(asked), abs=VERIFICATION)


def test_what_only_the_linear_rows_could_meet_is_a_conflict() -> None:
    # 400 g mince and 400 g lean keep at least 50 g of fat when they hold 120 g protein.
    asked = brief(between("protein_g", 120.0, None), between("fat_g", None, 18.0))
    assert cheapest(asked) == inf
    outcome = solve(asked, open_backend("highs"))
    assert isinstance(outcome, Conflict)
    assert {member.name for member in outcome.members} == {"protein_g", "fat_g"}


def test_a_mix_that_is_posed_exactly_is_not_left_to_pose() -> None:
    asked = PRETENDING[0]
    assert mixes_left(posed(asked)) == {"patties"}
    assert mixes_left(posed(asked, exact=frozenset({"patties"}))) == frozenset()


def test_served_drippings_need_no_whole_numbers() -> None:
    served = replace(PATTIES, drippings=Drippings.SERVED)
    mince = into(item(MINCE), served)
    asked = kitchen(mince, targets=(between("protein_g", 30.0, None), between("fat_g", None, 61.0)), parts=(served,))
    outcome = solve(asked, open_backend("highs"))
    assert isinstance(outcome, Plan)
    assert {level.checked for level in outcome.proof.levels} == {Checked.CERTIFICATE}
    assert outcome.dish.batch.values["fat_g"] == pytest.approx(2 * (outcome.dish.batch.values["protein_g"] or 0.0))


def found(asked: Brief) -> float:
    """What the plan costs."""
    outcome = solve(asked, open_backend("highs"))
    assert isinstance(outcome, Plan)
    level = outcome.proof.levels[0]
    assert level.bound is not None
    assert level.level == "cheapest"
    assert level.value == pytest.approx(outcome.dish.cost)
    return level.value
