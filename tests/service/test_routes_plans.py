"""POST /v1/plans against a running service: the real solver over the real table."""

import json
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import httpx2
import pytest

from tests.service.asking import Document, answer_to

#: kcal per g: Regulation (EU) No 1169/2011, Annex XIV, for protein, fat and carbohydrate.
KCAL_PER_G = {"protein_g": 4, "fat_g": 9, "total_carbohydrate_g": 4}

EXAMPLES = sorted((Path(__file__).parents[2] / "openapi" / "examples").glob("*.json"))


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_every_example_has_the_outcome_that_its_name_says(client: httpx2.Client, path: Path) -> None:
    expected = "conflict" if path.stem.startswith("conflict-") else "plan"
    assert answer_to(client, json.loads(path.read_text()))["outcome"] == expected


@pytest.mark.parametrize("path", [p for p in EXAMPLES if not p.stem.startswith("conflict-")], ids=lambda p: p.stem)
def test_a_plan_meets_every_must_by_the_amounts_it_prints(client: httpx2.Client, path: Path) -> None:
    brief = json.loads(path.read_text())
    answer = answer_to(client, brief)
    musts = [target for target in answer["targets"] if target["priority"] is None]
    assert all(target["met"] for target in musts)
    for target in musts:
        low, high = target["at_least"] or 0.0, target["at_most"] or float("inf")
        assert low - 1e-6 <= target["value"] <= high + 1e-6
    assert [target["of"] for target in answer["targets"]] == [target["of"] for target in brief["targets"]]


@pytest.mark.parametrize("name", ["patties-for-four", "salmon-for-one", "cheapest-stew", "eggs-by-the-spoon"])
def test_totals_recompute_from_the_printed_grams_and_the_food_table(
    client: httpx2.Client, examples: Path, name: str
) -> None:
    answer = answer_to(client, json.loads((examples / f"{name}.json").read_text()))
    sums = dict.fromkeys(KCAL_PER_G, 0.0)
    for quantity in answer["quantities"]:
        per_100g = client.get(f"/v1/foods/{quantity['food_id']}").json()["per_100g"]
        for nutrient in sums:
            sums[nutrient] += per_100g[nutrient] * quantity["grams"] / 100
    raw, batch, portion = answer["raw"], answer["batch"], answer["portion"]
    assert {name: raw["nutrients"][name] for name in sums} == pytest.approx(sums, abs=1e-4)
    lost = sum(component["lost_g"] for component in answer["components"])
    assert batch["nutrients"]["fat_g"] == pytest.approx(sums["fat_g"] - lost, abs=1e-4)
    kcal = {name: batch["nutrients"][name] * factor for name, factor in KCAL_PER_G.items()}
    assert batch["energy_kcal"] == pytest.approx(sum(kcal.values()), abs=1e-3)
    assert portion["energy_kcal"] * answer["portions"] == pytest.approx(batch["energy_kcal"], abs=1e-3)
    share = next(target["value"] for target in answer["targets"] if target["of"] == "fat_share_percent")
    assert share == pytest.approx(100 * kcal["fat_g"] / sum(kcal.values()), abs=1e-3)


def test_kitchen_words_are_exactly_the_grams(client: httpx2.Client, examples: Path) -> None:
    answer = answer_to(client, json.loads((examples / "patties-for-four.json").read_text()))
    found = {quantity["name"]: quantity for quantity in answer["quantities"]}
    egg, beef = found["egg"], found["ground beef"]
    # USDA SR28, WEIGHT table: 1 large egg is 50 g.
    assert egg["text"] == f"{egg['steps']} large"
    assert egg["grams"] == 50 * egg["steps"]
    assert beef["steps"] is None
    assert beef["text"] == f"{beef['grams']:.1f} g"
    assert beef["grams"] == round(beef["grams"], 1)


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_the_energy_distribution_sums_to_100(client: httpx2.Client, path: Path) -> None:
    answer = answer_to(client, json.loads(path.read_text()))
    dish = answer if answer["outcome"] == "plan" else answer["nearest"]
    assert sum(dish["energy_distribution_percent"].values()) == 100


def test_the_clinic_s_numbers_come_out_as_it_gave_them(client: httpx2.Client, examples: Path) -> None:
    answer = answer_to(client, json.loads((examples / "clinic-meal.json").read_text()))
    nutrients = answer["portion"]["nutrients"]
    others = nutrients["protein_g"] + nutrients["available_carbohydrate_g"]
    assert answer["ketogenic_ratio"] == pytest.approx(nutrients["fat_g"] / others, abs=1e-5)
    # A 4:1 unit has 4 g fat and 1 g of the others, 40 kcal (clinical nutrition manual of 2013, p. E-15).
    assert nutrients["fat_g"] == pytest.approx(300 / 40 * 4, rel=0.03)


def test_the_cheapest_plan_costs_what_its_amounts_cost(client: httpx2.Client, examples: Path) -> None:
    brief = json.loads((examples / "cheapest-stew.json").read_text())
    answer = answer_to(client, brief)
    price_per_g = {"pork shoulder": 0.0074, "lean mince": 0.0119, "lard": 0.0064, "cauliflower": 0.0028}
    cost = sum(price_per_g[quantity["name"]] * quantity["grams"] for quantity in answer["quantities"])
    assert answer["cost"] == pytest.approx(cost, abs=1e-5)


def test_without_prices_there_is_no_cost(client: httpx2.Client, salmon: Document) -> None:
    assert answer_to(client, salmon)["cost"] is None


def test_a_conflict_speaks_in_the_brief_s_own_names(client: httpx2.Client, examples: Path) -> None:
    answer = answer_to(client, json.loads((examples / "conflict-too-little-energy.json").read_text()))
    assert {(member["kind"], member["name"]) for member in answer["members"]} == {
        ("target", "energy_kcal"),
        ("target", "fat_share_percent"),
        ("target", "protein_g"),
    }
    assert answer["irreducible"]
    assert "protein, at least 35 g per portion" in [member["text"] for member in answer["members"]]
    # By arithmetic no more than (455 - 140) / 455 of the energy can come from fat.
    share = next(target for target in answer["nearest"]["targets"] if target["of"] == "fat_share_percent")
    assert share["value"] <= 100 * (455 - 140) / 455 + 1e-6


def test_every_answer_reminds_of_professional_oversight(client: httpx2.Client, examples: Path) -> None:
    for name in ("salmon-for-one", "conflict-too-little-energy"):
        reminder = answer_to(client, json.loads((examples / f"{name}.json").read_text()))["reminder"]
        for condition in ("ketogenic therapy", "kidney disease", "diabetes medicines", "pregnancy", "child"):
            assert condition in reminder


def test_a_plan_says_what_it_is_exact_for_and_that_the_scale_goes_first(
    client: httpx2.Client, salmon: Document
) -> None:
    answer = answer_to(client, salmon)
    assert "xact for these inputs" in answer["exactness"]
    assert "your own scale outranks every table" in answer["exactness"]
    assert "xact for these inputs" in answer["plate_may_be_off"]["text"]


def test_an_item_without_a_needed_value_is_left_out_and_reported(client: httpx2.Client, salmon: Document) -> None:
    salmon["pantry"].append({"name": "tin", "source": {"kind": "label", "per": "100 g", "fat_g": 30, "protein_g": 15}})
    answer = answer_to(client, salmon)
    assert [left["name"] for left in answer["left_out"]] == ["tin"]
    assert "tin" not in [quantity["name"] for quantity in answer["quantities"]]


def test_the_energy_basis_that_was_chosen_is_stated(client: httpx2.Client, salmon: Document) -> None:
    for basis in ("general", "regulation", "specific", "declared"):
        assert answer_to(client, {**salmon, "energy_basis": basis})["energy_basis"] == basis


def test_the_same_brief_has_the_same_plan(client: httpx2.Client, salmon: Document) -> None:
    first, second = (answer_to(client, salmon) for _ in range(2))
    assert first["quantities"] == second["quantities"]


def test_the_order_of_the_pantry_changes_nothing_but_the_order(client: httpx2.Client, salmon: Document) -> None:
    answer = answer_to(client, salmon)
    turned = answer_to(client, {**salmon, "pantry": salmon["pantry"][::-1]})
    assert turned["quantities"] == answer["quantities"][::-1]


def test_several_briefs_are_answered_at_once(client: httpx2.Client, server: str, salmon: Document) -> None:
    expected = answer_to(client, salmon)["quantities"]
    with ThreadPoolExecutor(8) as pool:
        responses = list(pool.map(lambda _: httpx2.post(f"{server}/v1/plans", json=salmon, timeout=20), range(16)))
    assert [response.json()["quantities"] for response in responses] == [expected] * 16
