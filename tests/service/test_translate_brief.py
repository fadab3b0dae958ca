from typing import Any

import pytest

from solver.brief import EnergyBasis, Preference
from solver.errors import UnusableBrief
from solver.targets import Per, WeightBasis
from solver.targets_default import default_within
from tests.service.conftest import Refusals, Translate

Document = dict[str, Any]


def test_amounts_become_grams_of_the_food(translate: Translate, salmon: Document) -> None:
    salmon["pantry"][0] |= {"on_hand": "1 lb", "at_least": {"value": 2, "unit": "oz"}, "at_most": "1/2 lb 1 oz"}
    salmon["pantry"][1] |= {"on_hand": "1/2 cup", "least_when_used": "1 tbsp"}
    fish, butter, _ = translate(salmon).pantry
    # The avoirdupois pound and ounce (UCUM 2.2).
    assert fish.on_hand_g == pytest.approx(453.59237)
    assert fish.at_least_g == pytest.approx(2 * 28.349523125)
    assert fish.at_most_g == pytest.approx(453.59237 / 2 + 28.349523125)
    # USDA SR28, WEIGHT table: butter, 1 cup 227 g and 1 tbsp 14.2 g.
    assert butter.on_hand_g == pytest.approx(113.5)
    assert butter.least_when_used_g == pytest.approx(14.2)


def test_a_step_keeps_its_words(translate: Translate, salmon: Document) -> None:
    salmon["pantry"][1]["step"] = "1/4 tsp"
    step = translate(salmon).pantry[1].step
    assert step is not None
    assert (step.amount, step.unit) == (0.25, "tsp")
    assert step.grams == pytest.approx(14.2 / 3 / 4, rel=0.01)


def test_a_price_is_brought_to_a_gram(translate: Translate, salmon: Document) -> None:
    salmon["pantry"][0]["price"] = {"amount": 3.2, "per": "200 g"}
    assert translate(salmon).pantry[0].price_per_g == pytest.approx(0.016)


def test_an_item_without_limits_has_none(translate: Translate, salmon: Document) -> None:
    salmon["pantry"] = [{"name": " salmon ", "source": {"kind": "food", "id": "sr28:15236"}}]
    (fish,) = translate(salmon).pantry
    assert fish.name == "salmon"
    assert (fish.on_hand_g, fish.at_least_g, fish.at_most_g) == (None, 0.0, None)
    assert (fish.step, fish.least_when_used_g, fish.price_per_g) == (None, None, None)


def test_defaults_are_those_of_the_contract(translate: Translate, salmon: Document) -> None:
    brief = translate(salmon)
    assert (brief.portions, brief.prefer) == (1, (Preference.BALANCED,))
    assert (brief.energy_basis, brief.time_limit_s) == (EnergyBasis.GENERAL, 2.0)
    assert (brief.targets[0].per, brief.targets[0].basis) == (Per.PORTION, WeightBasis.AS_EATEN)
    assert (brief.components, brief.leave_out, brief.collagen_part) == ((), frozenset(), 0.2)
    assert brief.targets[0].id == "energy_kcal"


def test_an_aim_is_a_band_of_its_default_width(translate: Translate, salmon: Document) -> None:
    energy, share = translate(salmon).targets
    width = default_within("energy_kcal", 600)
    assert (energy.lower, energy.upper, energy.within) == (600 - width, 600 + width, width)
    assert (share.lower, share.upper) == (69, 71)


def test_an_aim_never_reaches_below_zero_or_above_all(translate: Translate, salmon: Document) -> None:
    salmon["targets"] = [
        {"of": "available_carbohydrate_g", "aim": 2, "within": 5},
        {"of": "fat_share_percent", "aim": 99, "within": 3},
    ]
    carbohydrate, share = translate(salmon).targets
    assert (carbohydrate.lower, carbohydrate.upper) == (0, 7)
    assert (share.lower, share.upper) == (96, 100)


def test_ends_stay_as_they_are_given(translate: Translate, salmon: Document) -> None:
    salmon["targets"].append({"of": "protein_g", "per": "batch", "at_least": 35, "priority": 2, "id": "enough"})
    target = translate(salmon).targets[2]
    assert (target.id, target.per, target.priority) == ("enough", Per.BATCH, 2)
    assert (target.lower, target.upper, target.aim, target.within) == (35, None, None, None)


FOOD = {"kind": "food", "id": "sr28:15236"}


def item(**fields: Any) -> Document:  # noqa: ANN401  a wrong item may hold anything
    return {"pantry": [{"name": "salmon", "source": FOOD, **fields}]}


def target(**fields: Any) -> Document:  # noqa: ANN401  the same
    return {"targets": [fields]}


ENERGY = {"of": "energy_kcal", "aim": 600}


@pytest.mark.parametrize(
    ("changes", "pointer", "code"),
    [
        ({"title": "two\nlines"}, "/title", "not_printable"),
        ({"title": "  "}, "/title", "blank"),
        (item(name="\x1b[2J"), "/pantry/0/name", "not_printable"),
        (item(name=" \t "), "/pantry/0/name", "blank"),
        (item(source={"kind": "food", "id": "sr28:00000"}), "/pantry/0/source/id", "unknown_food"),
        (item(on_hand="a handful"), "/pantry/0/on_hand", "unreadable_amount"),
        (item(on_hand="1,5 kg"), "/pantry/0/on_hand", "unreadable_amount"),
        (item(on_hand="2 bottles"), "/pantry/0/on_hand", "unknown_measure"),
        (item(on_hand={"value": 2, "unit": "bottles"}), "/pantry/0/on_hand", "unknown_measure"),
        (item(at_least={"value": 1e7, "unit": "g"}), "/pantry/0/at_least", "unreadable_amount"),
        (item(step="0 g"), "/pantry/0/step", "not_positive"),
        (item(step="1 lb 4 oz"), "/pantry/0/step", "several_parts"),
        (item(least_when_used="0 g"), "/pantry/0/least_when_used", "not_positive"),
        (item(price={"amount": 1, "per": "0 kg"}), "/pantry/0/price/per", "not_positive"),
        (target(of="fat_share", aim=70), "/targets/0/of", "unknown_quantity"),
        (target(of="energy_kcal", aim=600, at_most=700), "/targets/0", "two_bands"),
        (target(of="energy_kcal", within=5), "/targets/0/within", "within_without_aim"),
        (target(of="energy_kcal", within=5, at_most=700), "/targets/0/within", "within_without_aim"),
        (target(of="energy_kcal"), "/targets/0", "no_band"),
        ({"targets": [ENERGY, ENERGY]}, "/targets/1", "repeated_id"),
        ({"targets": [ENERGY, {**ENERGY, "of": "fat_g", "id": "energy_kcal"}]}, "/targets/1/id", "repeated_id"),
        ({"prefer": ["balanced", "balanced"]}, "/prefer/1", "repeated"),
        ({"count_missing_as": {"fiber_g": 0}}, "/count_missing_as/fiber_g", "unknown_nutrient"),
        ({"time_limit_s": 31}, "/time_limit_s", "time_limit_too_long"),
        ({"pantry": [{"name": f"item {n}", "source": FOOD} for n in range(201)]}, "/pantry", "too_many"),
        ({"targets": [{**ENERGY, "id": f"{n}"} for n in range(101)]}, "/targets", "too_many"),
        (
            {"pantry": [{"name": "Egg", "source": FOOD}, {"name": " egg", "source": FOOD}]},
            "/pantry/1/name",
            "repeated_name",
        ),
    ],
)
def test_each_rule_refuses_with_its_pointer_and_code(
    refusals: Refusals, salmon: Document, changes: Document, pointer: str, code: str
) -> None:
    assert refusals({**salmon, **changes}) == [(pointer, code)]


def test_all_rules_speak_at_once(refusals: Refusals, salmon: Document) -> None:
    wrong = {**salmon, **item(name=" ", on_hand="some", step="0 g"), **target(of="fat", aim=1), "time_limit_s": 99}
    assert [pointer for pointer, _ in refusals(wrong)] == [
        "/time_limit_s",
        "/pantry/0/name",
        "/pantry/0/on_hand",
        "/pantry/0/step",
        "/targets/0/of",
    ]


def test_an_unknown_quantity_is_met_with_its_neighbours(translate: Translate, salmon: Document) -> None:
    with pytest.raises(UnusableBrief) as refused:
        translate({**salmon, **target(of="fat_share_percnt", aim=70)})
    assert "fat_share_percent" in refused.value.problems[0].remedy
