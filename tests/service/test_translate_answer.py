"""Outcomes that a running service cannot be made to give on demand."""

from collections.abc import Callable
from typing import Any

import pytest
from pydantic import ValidationError

from service.schemas.answer import Answer, ConflictAnswer, PlanAnswer
from service.translate.asked import Asked
from service.translate.beside import Beside
from service.translate.members import to_member
from service.translate.reference import Reference
from service.translate.to_answer import to_answer
from service.translate.to_dish import to_dish
from solver.brief import Brief
from solver.catalogue import Catalogue
from solver.nutrients import COLUMN
from solver.outcome import (
    Checked,
    Conflict,
    Dish,
    LevelProof,
    Member,
    MemberKind,
    Outcome,
    Plan,
    Proof,
    ProofStatus,
    Quantity,
    TargetResult,
    Totals,
)
from solver.pantry import PantryItem, Step
from solver.targets import Target

LEVEL = LevelProof("balanced", ProofStatus.BEST_FOUND, Checked.CLAIM, 1 / 3, None, None, 0.1)
PROOF = Proof((LEVEL,), "highs", "1.16.0", 0.1)
SHARE = Target("share", "fat_share_percent", lower=80.0)


@pytest.fixture
def item(catalogue: Catalogue) -> PantryItem:
    return PantryItem("egg", catalogue.food("sr28:01123"), on_hand_g=300, at_most_g=200, step=Step(1, "large", 50))


@pytest.fixture
def brief(item: PantryItem, catalogue: Catalogue) -> Brief:
    butter = PantryItem("butter", catalogue.food("sr28:01001"), at_least_g=20, least_when_used_g=10)
    salt = PantryItem("cream", catalogue.food("sr28:01053"), least_when_used_g=12.5)
    return Brief("Dish", 1, (item, butter, salt), (SHARE,))


def dish(quantity: Quantity, **changes: Any) -> Dish:  # noqa: ANN401  any field of a dish
    values = {**dict.fromkeys(COLUMN), "fat_g": 2 / 3}
    totals = Totals(quantity.grams, 1 / 3, 4 / 3, values, {"fibre_g": ("egg",)})
    result = TargetResult(SHARE, None, "no macro energy", met=False, binding=False, miss=None)
    parts: dict[str, Any] = {"distribution": None, "ketogenic_ratio": None, "cost": None, **changes}
    return Dish((quantity,), totals, totals, totals, (), targets=(result,), **parts)


@pytest.fixture
def answer_of(brief: Brief, reference: Reference) -> Callable[[Outcome], Answer]:
    asked = Asked(brief, None, "us consumer", (), ("said of the brief",))
    return lambda outcome: to_answer(asked, outcome, reference, Beside())


def test_a_plan_found_before_the_clock_ended_is_marked_as_best_found(
    answer_of: Callable[[Outcome], Answer], brief: Brief, item: PantryItem
) -> None:
    answer = answer_of(Plan(brief, dish(Quantity(item, 150.0, 3)), PROOF, (), ("mind",)))
    assert isinstance(answer, PlanAnswer)
    level = answer.proof.levels[0]
    assert (level.status, level.checked, level.bound, level.gap) == ("best_found", "solver's claim", None, None)
    assert answer.warnings == ["said of the brief", "mind"]


def test_numbers_have_six_decimals_at_most(
    answer_of: Callable[[Outcome], Answer], brief: Brief, item: PantryItem
) -> None:
    answer = answer_of(Plan(brief, dish(Quantity(item, 150.0, 3)), PROOF, (), ()))
    assert isinstance(answer, PlanAnswer)
    assert answer.batch.energy_kcal == 0.333333
    assert answer.batch.nutrients == {**dict.fromkeys(COLUMN), "fat_g": 0.666667}
    assert answer.batch.lacking == {"fibre_g": ["egg"]}


def test_an_undefined_value_keeps_its_reason(item: PantryItem) -> None:
    (target,) = to_dish(dish(Quantity(item, 150.0, 3))).targets
    assert (target.value, target.reason, target.miss) == (None, "no macro energy", None)


def test_steps_are_said_in_the_words_of_the_step(item: PantryItem, catalogue: Catalogue) -> None:
    (egg,) = to_dish(dish(Quantity(item, 150.0, 3))).quantities
    assert (egg.text, egg.steps, egg.about) == ("3 large", 3, None)
    butter = PantryItem("butter", catalogue.food("sr28:01001"), step=Step(0.25, "tsp", 14.2 / 12))
    (spoons,) = to_dish(dish(Quantity(butter, 6 * 14.2 / 12, 6))).quantities
    assert (spoons.text, spoons.about) == ("1 1/2 tsp", None)


@pytest.mark.parametrize(("steps", "text", "about"), [(7, "7 tsp", None), (18, "18 tsp", "about 6 tbsp")])
def test_more_spoons_than_one_counts_have_a_measure_beside_them(
    catalogue: Catalogue, steps: int, text: str, about: str | None
) -> None:
    # USDA SR28, WEIGHT table: 1 tbsp tallow is 12.8 g; 7 tsp are nearest to 2 1/2 tbsp, but 7 % less.
    tallow = PantryItem("tallow", catalogue.food("sr28:04001"), step=Step(1, "tsp", 12.8 / 3))
    (spoons,) = to_dish(dish(Quantity(tallow, steps * 12.8 / 3, steps))).quantities
    assert (spoons.text, spoons.about) == (text, about)


def test_weighed_amounts_have_a_kitchen_measure_beside_them(catalogue: Catalogue) -> None:
    # USDA SR28, WEIGHT table: 1 tbsp butter is 14.2 g.
    butter = catalogue.food("sr28:01001")
    for step in (None, Step(0.1, "g", 0.1)):
        quantity = Quantity(PantryItem("butter", butter, step=step), 28.4, None if step is None else 284)
        (shown,) = to_dish(dish(quantity)).quantities
        assert (shown.text.removesuffix(" g"), shown.about) == ("28.4", "about 2 tbsp")


def test_a_ratio_without_a_denominator_says_so(item: PantryItem) -> None:
    assert "neither protein" in (to_dish(dish(Quantity(item, 150.0, 3))).ketogenic_ratio_reason or "")
    assert to_dish(dish(Quantity(item, 150.0, 3), ketogenic_ratio=2.0)).ketogenic_ratio_reason is None


def test_a_nan_from_the_solver_never_leaves(item: PantryItem) -> None:
    with pytest.raises(ValidationError):
        to_dish(dish(Quantity(item, 150.0, 3), cost=float("nan")))


def test_a_conflict_without_a_nearest_dish_says_so(answer_of: Callable[[Outcome], Answer], brief: Brief) -> None:
    members = (Member(MemberKind.TARGET, "share"), Member(MemberKind.ON_HAND, "egg"))
    answer = answer_of(Conflict(brief, members, False, Checked.CLAIM, None, PROOF, (), ()))  # noqa: FBT003  a field
    assert isinstance(answer, ConflictAnswer)
    assert (answer.nearest, answer.irreducible) == (None, False)
    assert [member.name for member in answer.members] == ["share", "egg"]


@pytest.mark.parametrize(
    ("kind", "name", "sentence"),
    [
        (MemberKind.TARGET, "share", "share: energy from fat, at least 80 %"),
        (MemberKind.ON_HAND, "egg", "egg, 300 g on hand"),
        (MemberKind.MOST_AMOUNT, "egg", "egg, at most 200 g for the batch"),
        (MemberKind.LEAST_AMOUNT, "butter", "butter, at least 20 g for the batch"),
        (MemberKind.LEAST_AMOUNT, "cream", "cream, none or at least 12.5 g for the batch"),
        (MemberKind.STEPS, "egg", "egg, in whole multiples of 1 large"),
        (MemberKind.STEPS, "butter", "butter, in whole multiples of its step"),
        (MemberKind.PRINTING, "butter", "butter, weighed to 0.1 g"),
    ],
)
def test_each_member_is_a_sentence_in_the_brief_s_own_names(
    brief: Brief, kind: MemberKind, name: str, sentence: str
) -> None:
    assert to_member(brief, Member(kind, name)).text == sentence


@pytest.mark.parametrize("kind", MemberKind)
def test_a_rule_on_all_items_is_a_sentence_too(brief: Brief, kind: MemberKind) -> None:
    member = to_member(brief, Member(kind, None))
    assert member.name is None
    assert member.text
