import json
from typing import Any

import pytest
from pydantic import ValidationError

from service.schemas.brief import BriefBody
from service.validation import CODES, path_of, problems_of
from solver.errors import Problem

FOOD = {"kind": "food", "id": "sr28:15236"}
TARGET = {"of": "energy_kcal", "aim": 600}
NAN = float("nan")


def problems(brief: object) -> list[Problem]:
    try:
        BriefBody.model_validate(brief)
    except ValidationError as error:
        return list(problems_of(error.errors(), brief))
    return []


def brief(**changes: Any) -> dict[str, Any]:  # noqa: ANN401  a brief that is wrong may hold anything
    return {"title": "x", "pantry": [{"name": "salmon", "source": FOOD}], "targets": [TARGET], **changes}


def item(**changes: Any) -> dict[str, Any]:  # noqa: ANN401  the same
    return brief(pantry=[{"name": "salmon", "source": FOOD, **changes}])


def label(**changes: Any) -> dict[str, Any]:  # noqa: ANN401  the same
    return item(source={"kind": "label", "per": "100 g", **changes})


def target(**changes: Any) -> dict[str, Any]:  # noqa: ANN401  the same
    return brief(targets=[{**TARGET, **changes}])


def test_a_sound_brief_has_no_problems() -> None:
    assert problems(brief()) == []


@pytest.mark.parametrize(
    ("document", "pointer", "code"),
    [
        ([], "", "wrong_type"),
        ("brief", "", "wrong_type"),
        (brief(extra=1), "/extra", "unknown_field"),
        (brief(components=[]), "/components", "wrong_length"),
        (brief(components=[{}]), "/components/0/name", "missing_field"),
        (brief(components=[{"name": "x", "drippings": "kept"}]), "/components/0/drippings", "unknown_value"),
        (brief(components=[{"name": "x", "minutes": 0}]), "/components/0/minutes", "out_of_range"),
        (brief(components=[{"name": "x", "cooked_weight": 512}]), "/components/0/cooked_weight", "wrong_type"),
        (brief(components=[{"name": "x", "finished": 1}]), "/components/0/finished", "wrong_type"),
        (brief(dishes=[{"name": "x", "ingredients": []}]), "/dishes/0/ingredients", "wrong_length"),
        (brief(exclude=["milk"]), "/exclude/0", "wrong_type"),
        (brief(exclude=[{"allergen": "milk", "unknown": 1}]), "/exclude/0/unknown", "unknown_value"),
        (brief(exclude=[{"allergen": "milk", "food": "x"}]), "/exclude/0/food", "unknown_field"),
        (brief(eater={"age_years": -1}), "/eater/age_years", "out_of_range"),
        (brief(eater={"conditions": ["flu"]}), "/eater/conditions/0", "unknown_value"),
        (brief(safe_temperatures="moon"), "/safe_temperatures", "unknown_value"),
        (brief(collagen_at_most_percent=101), "/collagen_at_most_percent", "out_of_range"),
        (brief(title=7), "/title", "wrong_type"),
        (brief(title=""), "/title", "wrong_length"),
        (brief(title="x" * 201), "/title", "wrong_length"),
        (brief(portions=True), "/portions", "wrong_type"),
        (brief(portions="4"), "/portions", "wrong_type"),
        (brief(portions=2.0), "/portions", "wrong_type"),
        (brief(portions=0), "/portions", "out_of_range"),
        (brief(portions=501), "/portions", "out_of_range"),
        (brief(pantry={}), "/pantry", "wrong_type"),
        (brief(pantry=[]), "/pantry", "wrong_length"),
        (brief(targets=[]), "/targets", "wrong_length"),
        (brief(prefer=[]), "/prefer", "wrong_length"),
        (brief(prefer=["tasty"]), "/prefer/0", "unknown_value"),
        (brief(energy_basis="mine"), "/energy_basis", "unknown_value"),
        (brief(count_missing_as=[]), "/count_missing_as", "wrong_type"),
        (brief(count_missing_as={"fibre_g": NAN}), "/count_missing_as/fibre_g", "not_finite"),
        (brief(count_missing_as={"fibre_g": True}), "/count_missing_as/fibre_g", "wrong_type"),
        (brief(time_limit_s=0), "/time_limit_s", "out_of_range"),
        (brief(time_limit_s=float("inf")), "/time_limit_s", "not_finite"),
        (item(name=None), "/pantry/0/name", "wrong_type"),
        (item(goes_in="pan"), "/pantry/0/goes_in", "wrong_type"),
        (item(goes_in=[]), "/pantry/0/goes_in", "wrong_length"),
        (item(weighed="cooked"), "/pantry/0/weighed", "unknown_value"),
        (item(on_hand=250), "/pantry/0/on_hand", "wrong_type"),
        (item(on_hand=True), "/pantry/0/on_hand", "wrong_type"),
        (item(on_hand=""), "/pantry/0/on_hand", "wrong_length"),
        (item(on_hand={"value": "1", "unit": "g"}), "/pantry/0/on_hand/value", "wrong_type"),
        (item(on_hand={"value": -1, "unit": "g"}), "/pantry/0/on_hand/value", "out_of_range"),
        (item(on_hand={"value": NAN, "unit": "g"}), "/pantry/0/on_hand/value", "not_finite"),
        (item(on_hand={"value": 1}), "/pantry/0/on_hand/unit", "missing_field"),
        (item(on_hand={"value": 1, "unit": "g", "kind": "g"}), "/pantry/0/on_hand/kind", "unknown_field"),
        (item(price={"amount": -1, "per": "1 kg"}), "/pantry/0/price/amount", "out_of_range"),
        (item(price={"amount": 1, "per": 1}), "/pantry/0/price/per", "wrong_type"),
        (item(source={}), "/pantry/0/source", "missing_field"),
        (item(source={"kind": "tin"}), "/pantry/0/source", "unknown_value"),
        (item(source={"kind": "dish"}), "/pantry/0/source/name", "missing_field"),
        (item(source={"kind": []}), "/pantry/0/source", "unknown_value"),
        (item(source={"kind": "food"}), "/pantry/0/source/id", "missing_field"),
        (item(source={"kind": "food", "id": 15236}), "/pantry/0/source/id", "wrong_type"),
        (item(source={"kind": "food", "id": "x", "food": 1}), "/pantry/0/source/food", "unknown_field"),
        (item(source="food"), "/pantry/0/source", "wrong_type"),
        (label(per=28), "/pantry/0/source/per", "wrong_type"),
        (label(fat_g=-1), "/pantry/0/source/fat_g", "out_of_range"),
        (label(fat_g="9"), "/pantry/0/source/fat_g", "wrong_type"),
        (label(fat_g=True), "/pantry/0/source/fat_g", "wrong_type"),
        (label(sodium_mg=NAN), "/pantry/0/source/sodium_mg", "not_finite"),
        (label(sodium_mg=True), "/pantry/0/source/sodium_mg", "wrong_type"),
        (target(of=1), "/targets/0/of", "wrong_type"),
        (target(per="plate"), "/targets/0/per", "unknown_value"),
        (target(aim=0), "/targets/0/aim", "out_of_range"),
        (target(aim=-3), "/targets/0/aim", "out_of_range"),
        (target(within=-1), "/targets/0/within", "out_of_range"),
        (target(priority=0), "/targets/0/priority", "out_of_range"),
        (target(priority=1.5), "/targets/0/priority", "wrong_type"),
        (target(basis="boiled"), "/targets/0/basis", "unknown_value"),
    ],
)
def test_each_problem_has_its_pointer_code_and_remedy(document: object, pointer: str, code: str) -> None:
    found = problems(document)
    assert (pointer, code) in [(problem.pointer, problem.code) for problem in found]
    assert all(problem.detail and problem.remedy for problem in found)


def test_all_problems_are_found_at_once() -> None:
    found = problems({"portions": NAN, "pantry": [{"name": 1, "source": {"kind": "food"}}], "targets": [{"x": 1}]})
    assert [problem.pointer for problem in found] == [
        "/title",
        "/portions",
        "/pantry/0/name",
        "/pantry/0/source/id",
        "/targets/0/of",
        "/targets/0/x",
    ]


def test_an_unknown_field_is_met_with_the_nearest_that_is_known_there() -> None:
    (problem,) = problems(item(on_hnad="200 g"))
    assert problem.remedy.endswith("The nearest is on_hand.")
    (problem,) = problems(target(at_lest=3))
    assert problem.remedy.endswith("The nearest is at_least.")


@pytest.mark.parametrize("poison", ["\x1b[31mred", "<script>", "9" * 1000])
def test_no_problem_repeats_the_value_that_was_sent(poison: str) -> None:
    document = brief(
        portions=poison,
        prefer=[poison],
        energy_basis=poison,
        pantry=[{"name": [poison], "source": {"kind": poison}, "on_hand": [poison]}],
    )
    found = problems(document)
    assert len(found) == 6
    assert poison not in json.dumps([(problem.detail, problem.remedy) for problem in found])


def test_no_error_of_the_schema_is_without_a_code() -> None:
    assert all(code != "invalid" for code, _ in CODES.values())
    kinds = {
        "missing",
        "extra_forbidden",
        "finite_number",
        "literal_error",
        "union_tag_invalid",
        "amount_type",
        "bool_type",
    }
    assert kinds <= CODES.keys()


def test_a_field_that_is_called_like_its_kind_is_still_found() -> None:
    document = item(source={"kind": "food", "food": {"kind": 1}})
    loc = ("pantry", 0, "source", "food", "food", "kind")
    assert path_of(loc, document) == ("pantry", 0, "source", "food", "kind")
