"""The ways out of a conflict as they go out."""

import pytest

from reference_data import reference_folder
from service.schemas.ways_out import WaysOutAnswer
from service.translate.reference import Reference, open_reference
from service.translate.ways_out import allowed_by, to_ways_out
from solver.backends import open_backend
from solver.brief import Brief
from solver.catalogue import Catalogue
from solver.cautions.caution import Caution
from solver.deadline import Deadline
from solver.exclusions import Exclusion, ExclusionKind
from solver.outcome import Conflict
from solver.pantry import PantryItem
from solver.practical import Eligible, load_practical, practical_foods
from solver.solve import solve
from solver.targets import Target
from solver.ways_out import ways_out

CAUTION = Caution("raw_egg", "The egg stays raw.", "egg", "kitchen-safety-practice")
MILK = Exclusion(ExclusionKind.ALLERGEN, "milk")


@pytest.fixture(scope="module")
def reference(catalogue: Catalogue) -> Reference:
    return open_reference(reference_folder(), catalogue)


def answered(reference: Reference, *targets: Target, on_hand_g: float | None = None) -> WaysOutAnswer:
    """The ways out of a brief of chicken breast, whoever eats it without milk."""
    chicken = PantryItem("chicken", reference.catalogue.food("sr28:05062"), on_hand_g=on_hand_g)
    highs = open_backend("highs")
    outcome = solve(Brief("Chicken", 1, (chicken,), targets, time_limit_s=10.0), highs)
    assert isinstance(outcome, Conflict)
    foods = practical_foods(reference.catalogue, load_practical(reference_folder() / "additions.csv"))
    eligible = Eligible(foods, allowed_by((MILK,), reference.allergens))
    return to_ways_out(ways_out(outcome, eligible, highs, Deadline.after(10)), lambda _: (CAUTION,))


PROTEIN = Target("protein_g", "protein_g", lower=30.0)


def test_an_addition_says_what_how_much_and_where_and_leads_to_a_dish(reference: Reference) -> None:
    answer = answered(reference, PROTEIN, Target("share", "fat_share_percent", lower=70.0))
    first = answer.additions[0]
    assert (first.food_id, first.kind, first.component) == ("sr28:04053", "oil", "the dish")
    assert first.about is not None
    assert first.text == f"Oil, olive, salad or cooking: {first.grams:.1f} g, {first.about}, into the dish"
    assert first.grams >= first.least_g
    assert all(target.met for target in first.dish.targets)
    assert [caution.code for caution in first.cautions] == ["raw_egg"]
    assert answer.together is None
    assert answer.no_food_helps is None


def test_nothing_that_is_excluded_is_proposed_and_nothing_of_which_nobody_knows(reference: Reference) -> None:
    answer = answered(reference, PROTEIN, Target("share", "fat_share_percent", lower=70.0))
    assert answer.additions
    assert not {each.kind for each in answer.additions} & {"butter", "ghee", "cream", "cheese", "milk", "yogurt"}


def test_a_change_of_a_target_says_its_end_before_and_after(reference: Reference) -> None:
    share = Target("share", "fat_share_percent", lower=80.0)
    answer = answered(reference, PROTEIN, share, Target("energy_kcal", "energy_kcal", upper=350.0))
    change = next(each for each in answer.changes if each.name == "share")
    assert (change.kind, change.field, change.unit, change.asked) == ("target", "at_least", "%", 80.0)
    assert change.to <= change.limit < change.asked
    expected = f"energy from fat: at least {change.to:g} % instead of 80 %"
    assert change.text == expected


def test_a_change_of_a_stock_says_how_much_has_to_be_there(reference: Reference) -> None:
    answer = answered(reference, PROTEIN, on_hand_g=50.0)
    assert {change.text.split(" instead")[0] for change in answer.changes if change.kind == "on hand"} == {
        f"{each.to:g} g of chicken on hand" for each in answer.changes if each.kind == "on hand"
    }
    per_portion = next(each for each in answer.changes if each.kind == "target")
    assert per_portion.text == f"protein: at least {per_portion.to:g} g per portion instead of 30 g"


def test_what_no_food_can_help_is_said(reference: Reference) -> None:
    asked = (
        Target("energy_kcal", "energy_kcal", upper=450.0),
        Target("protein_g", "protein_g", lower=35.0),
        Target("share", "fat_share_percent", lower=80.0),
    )
    answer = answered(reference, *asked)
    assert answer.additions == []
    assert answer.no_food_helps is not None
    assert answer.no_food_helps.text == "450 kcal with 35 g protein cannot exceed 68.9 % fat, whatever is added"


def test_several_changes_that_only_together_are_enough_are_named_one_by_one(reference: Reference) -> None:
    asked = (PROTEIN, Target("fibre_g", "fibre_g", lower=10.0), Target("vitamin_c_mg", "vitamin_c_mg", lower=60.0))
    answer = answered(reference, *asked)
    assert answer.changes == []
    assert answer.together is not None
    assert {move.name for move in answer.together.moves} == {"fibre_g", "vitamin_c_mg"}
    assert "; " in answer.together.text
    assert all(target.met for target in answer.together.dish.targets)
