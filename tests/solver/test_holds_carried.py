"""How much of a tolerance a pantry can carry, the conflict that says so, and what else uses the same rows."""

from dataclasses import replace

import pytest

from solver.alternatives import alternatives
from solver.backends import open_backend
from solver.brief import Brief
from solver.changes import smallest_changes
from solver.deadline import Deadline
from solver.errors import UnusableBrief
from solver.holds import Holds, Tolerance
from solver.holds_carried import GAP, carried
from solver.outcome import Conflict, MemberKind, Outcome, Plan
from solver.solve import solve
from solver.worth import worth
from tests.solver.larder import BREAD, BUTTER, CHICKEN, between, brief, food, item, pantry
from tests.solver.refusals import only_problem

ENERGY = Holds(Tolerance.PERCENT, {"fat_g": 10, "protein_g": 10, "total_carbohydrate_g": 10})
#: All energy moves by a tenth: from E to 0.9 E and 1.1 E; so a band of 540 to 660 is just wide enough, at E = 600.
NARROW = between("energy_kcal", 570.0, 630.0)
BACKEND = open_backend("highs")


def soon() -> Deadline:
    return Deadline.after(20)


def held(holds: Holds, *targets: object) -> Brief:
    return replace(brief(*pantry(BUTTER, CHICKEN, BREAD), targets=targets or (NARROW,)), holds=holds)  # type: ignore[arg-type]


def solved(asked: Brief) -> Outcome:
    return solve(asked, BACKEND)


def test_half_of_a_tenth_fits_into_half_of_the_band() -> None:
    """By hand: 570 <= (1 - 0.1 s) E and (1 + 0.1 s) E <= 630 have an E only where s <= 0.5."""
    found = carried(held(ENERGY), BACKEND, soon())
    assert found is not None
    assert found.proven
    assert found.part <= 0.5 <= found.not_above
    assert found.not_above - found.part <= GAP


def test_just_inside_has_a_plan_and_just_outside_has_none() -> None:
    asked = held(ENERGY)
    found = carried(asked, BACKEND, soon())
    assert found is not None
    assert isinstance(solved(replace(asked, holds=replace(ENERGY, scale=found.part))), Plan)
    assert isinstance(solved(replace(asked, holds=replace(ENERGY, scale=found.not_above))), Conflict)


def test_the_tolerance_is_a_member_and_without_it_the_rest_can_be_met() -> None:
    conflict = solved(held(ENERGY))
    assert isinstance(conflict, Conflict)
    assert {member.kind for member in conflict.members} == {MemberKind.TOLERANCE, MemberKind.TARGET}
    assert conflict.irreducible
    assert isinstance(solved(replace(conflict.brief, holds=None)), Plan)


def test_a_conflict_that_needs_no_tolerance_does_not_name_it() -> None:
    impossible = between("protein_g", 400.0, None)
    conflict = solved(held(ENERGY, NARROW, impossible))
    assert isinstance(conflict, Conflict)
    assert MemberKind.TOLERANCE not in {member.kind for member in conflict.members}
    assert carried(conflict.brief, BACKEND, soon()) is None


def test_the_smallest_change_of_a_target_makes_it_hold() -> None:
    """By hand: with 570 kept, E = 570 / 0.9 and the band has to reach to 1.1 E = 696.67."""
    conflict = solved(held(ENERGY))
    assert isinstance(conflict, Conflict)
    limits = {change.moved.value: change.limit for change in smallest_changes(conflict, BACKEND, soon())}
    assert limits["at_most"] == pytest.approx(570 / 0.9 * 1.1, rel=1e-6)
    assert limits["at_least"] == pytest.approx(630 / 1.1 * 0.9, rel=1e-6)


def test_alternatives_and_worth_hold_as_well() -> None:
    wide = between("energy_kcal", 500.0, 700.0)
    plan = solved(held(ENERGY, wide))
    assert isinstance(plan, Plan)
    for other in alternatives(plan, 2, BACKEND, soon()).found:
        assert all(each.worst is not None and each.met for each in other.dish.targets)
    assert isinstance(worth(plan, BACKEND, soon()), tuple)


def test_label_rounding_by_hand() -> None:
    """A cheese printed with 9 g fat, give or take half a gram, in 100 g: 300 g hold 25.5 to 28.5 g."""
    from solver.label_intervals import nutrient_row  # noqa: PLC0415

    cheese = replace(food("cheese", fat_g=9), half_interval=nutrient_row({"fat_g": 0.5}))
    asked = brief(replace(item(cheese), at_least_g=300.0, at_most_g=300.0), targets=(between("fat_g", 25.5, 28.5),))
    plan = solved(replace(asked, holds=Holds(Tolerance.LABEL_ROUNDING)))
    assert isinstance(plan, Plan)
    worst = plan.dish.targets[0].worst
    assert worst is not None
    assert (worst.lowest, worst.highest) == pytest.approx((25.5, 28.5))
    narrower = replace(asked, targets=(between("fat_g", 25.6, 28.5),), holds=Holds(Tolerance.LABEL_ROUNDING))
    assert isinstance(solved(narrower), Conflict)


@pytest.mark.parametrize(
    ("holds", "pointer", "code"),
    [
        (Holds(Tolerance.PERCENT), "/holds_within/percent", "empty"),
        (Holds(Tolerance.PERCENT, {"fats": 1}), "/holds_within/percent/fats", "unknown_nutrient"),
        (Holds(Tolerance.PERCENT, {"fat_g": 101}), "/holds_within/percent/fat_g", "not_an_amount"),
        (Holds(Tolerance.PERCENT, {"energy_kcal": 5}), "/holds_within/percent/energy_kcal", "energy_is_counted"),
    ],
)
def test_what_cannot_be_held_is_refused(holds: Holds, pointer: str, code: str) -> None:
    assert only_problem(held(holds))[:2] == (pointer, code)


def test_too_many_ways_to_be_off_are_refused() -> None:
    many = tuple(replace(item(BREAD), name=f"bread {number}") for number in range(25))
    asked = replace(brief(*many), holds=replace(ENERGY, most_off=2))
    assert only_problem(asked)[:2] == ("/holds_within/most_items_off", "too_many_ways_off")
    with pytest.raises(UnusableBrief):
        solved(asked)
