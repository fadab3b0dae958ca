"""A dish divided over HTTP: the portions are the batch, and a kitchen scale can follow them."""

import httpx2
import pytest

from tests.service.asking import Document, breakdown_of
from tests.service.briefs import TABLE, food

#: 900 g of mince become 506.4 g of patties; 40 g of butter stand beside them.
DISH: Document = {
    "title": "patties",
    "portions": 4,
    "components": [{"name": "patties", "method": "broiled patty", "drippings": "discarded"}, TABLE],
    "ingredients": [
        food("mince", "13498", amount="900 g", goes_in="patties"),
        food("butter", "01001", amount="40 g", goes_in="at the table"),
    ],
}

DIVISIONS: dict[str, Document] = {
    "equal": {"kind": "equal", "portions": 7},
    "weight": {"kind": "weight", "portions": [{"name": "a", "weight": "200 g"}, {"name": "b", "weight": "120.5 g"}]},
    "pieces": {
        "kind": "pieces",
        "cut_into": 8,
        "eats": [{"name": "guide", "pieces": 3}, {"name": "cook", "pieces": 2}],
    },
    "shares": {"kind": "shares", "portions": [{"name": n, "parts": p} for n, p in (("a", 2), ("b", 1), ("c", 0.5))]},
    "energy": {"kind": "energy", "portions": [{"name": "a", "energy_kcal": 700}, {"name": "b", "energy_kcal": 433}]},
}


def divided(client: httpx2.Client, division: Document, **changes: object) -> tuple[Document, list[Document]]:
    told = breakdown_of(client, {**DISH, **changes, "division": division})
    return told, told["divided"]


@pytest.mark.parametrize("scale", ["1 g", "0.1 g"])
@pytest.mark.parametrize("kind", DIVISIONS)
def test_the_portions_are_the_batch(client: httpx2.Client, kind: str, scale: str) -> None:
    told, portions = divided(client, {**DIVISIONS[kind], "scale": scale})
    step = float(scale.removesuffix(" g"))
    assert sum(each["share"] for each in portions) == pytest.approx(1, abs=1e-5)
    for total in ("grams", "energy_kcal", "energy_kj"):
        whole = sum(each["totals"][total] for each in portions)
        assert whole == pytest.approx(told["batch"][total], abs=1e-4)
    for nutrient, amount in told["batch"]["nutrients"].items():
        assert sum(each["totals"]["nutrients"][nutrient] for each in portions) == pytest.approx(amount, abs=1e-4)
    on_the_scale = sum(each["weigh_out_g"] for each in portions)
    assert on_the_scale == pytest.approx(round(told["batch"]["grams"] / step) * step)
    assert all(each["weigh_out_g"] / step == pytest.approx(round(each["weigh_out_g"] / step)) for each in portions)


@pytest.mark.parametrize("kind", DIVISIONS)
def test_each_component_is_all_given_out(client: httpx2.Client, kind: str) -> None:
    told, portions = divided(client, DIVISIONS[kind])
    for number, component in enumerate(told["components"]):
        parts = [each["components"][number] for each in portions]
        assert {part["name"] for part in parts} == {component["name"]}
        assert sum(part["grams"] for part in parts) == pytest.approx(component["eaten_g"], abs=1e-4)
        assert sum(part["weigh_out_g"] for part in parts) == pytest.approx(round(component["eaten_g"]))


def test_equal_portions_are_alike_and_are_those_of_the_dish(client: httpx2.Client) -> None:
    told, portions = divided(client, {"kind": "equal", "portions": 4})
    assert [each["name"] for each in portions] == [f"portion {n}" for n in (1, 2, 3, 4)]
    for each in portions:
        assert each["totals"]["energy_kcal"] == pytest.approx(told["portion"]["energy_kcal"], abs=1e-5)
        assert not each["leftover"]


def test_what_nobody_eats_is_left(client: httpx2.Client) -> None:
    _, portions = divided(client, DIVISIONS["pieces"])
    shown = {each["name"]: (each["pieces"], each["leftover"], each["share"]) for each in portions}
    assert shown == {"guide": (3, False, 0.375), "cook": (2, False, 0.25), "leftovers": (3, True, 0.375)}
    _, portions = divided(client, DIVISIONS["weight"])
    assert [each["totals"]["grams"] for each in portions][:2] == pytest.approx([200, 120.5])
    assert portions[2]["leftover"]


def test_a_portion_by_energy_has_its_energy(client: httpx2.Client) -> None:
    _, portions = divided(client, DIVISIONS["energy"], energy_basis="specific")
    assert [each["totals"]["energy_kcal"] for each in portions][:2] == pytest.approx([700, 433], abs=1e-4)


def test_shares_are_in_proportion_and_nothing_is_left(client: httpx2.Client) -> None:
    _, portions = divided(client, DIVISIONS["shares"])
    assert [each["share"] for each in portions] == pytest.approx([4 / 7, 2 / 7, 1 / 7], abs=1e-6)
    assert not any(each["leftover"] for each in portions)


def test_the_size_of_a_portion_changes_no_ratio(client: httpx2.Client) -> None:
    told, portions = divided(client, DIVISIONS["shares"])
    for each in portions:
        nutrients = each["totals"]["nutrients"]
        others = nutrients["protein_g"] + nutrients["available_carbohydrate_g"]
        assert nutrients["fat_g"] / others == pytest.approx(told["ketogenic_ratio"], abs=1e-4)


def test_without_a_division_nothing_is_divided(client: httpx2.Client) -> None:
    assert breakdown_of(client, DISH)["divided"] == []
