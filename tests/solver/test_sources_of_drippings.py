"""Whose fat is in the drippings: what is settled has one mixture; what is open is counted by the worst, and said so."""

from dataclasses import replace

import pytest

from solver.backends import open_backend
from solver.brief import Brief, EnergyBasis
from solver.catalogue import Catalogue
from solver.components import Component, Drippings, Placed
from solver.outcome import Checked, Conflict, Outcome, Plan, Undecided
from solver.pantry import PantryItem, Step
from solver.solve import solve
from solver.targets import Target
from tests.solver.larder import CURVE, between

BUTTER, MINCE = "sr28:01001", "sr28:13498"


def in_the_mix(catalogue: Catalogue, food: str, grams: float) -> PantryItem:
    step = Step(grams, "g", grams)
    return PantryItem(food, catalogue.food(food), grams, grams, grams, step, placed=(Placed("patties"),))


def brief(catalogue: Catalogue, component: Component, *targets: Target) -> Brief:
    items = (in_the_mix(catalogue, MINCE, 500.0), in_the_mix(catalogue, BUTTER, 200.0))
    return Brief("two fats in one pan", 1, items, targets, components=(component,))


def patties(**fields: object) -> Component:
    return replace(Component("patties", "broiled patty", curve=CURVE), **fields)  # type: ignore[arg-type]


def answered(asked: Brief) -> Outcome:
    return solve(asked, open_backend("highs"))


def plan(asked: Brief) -> Plan:
    outcome = answered(asked)
    assert isinstance(outcome, Plan)
    return outcome


def saturated(of: Plan) -> float:
    value = of.dish.portion.values["saturated_fat_g"]
    assert value is not None
    return value


@pytest.mark.parametrize("settled", [{"finished": True}, {"finished": True, "cooked_g": 400.0, "drippings_g": 150.0}])
@pytest.mark.parametrize("basis", list(EnergyBasis))
def test_what_is_settled_is_exact_on_every_basis(
    catalogue: Catalogue, settled: dict[str, object], basis: EnergyBasis
) -> None:
    asked = replace(brief(catalogue, patties(**settled), between("energy_kcal", 1.0, None)), energy_basis=basis)
    dish = plan(asked).dish
    energy, fat = dish.portion.energy_kcal, saturated(plan(asked))
    narrow = (between("energy_kcal", energy - 0.01, energy + 0.01), between("saturated_fat_g", fat - 0.01, fat + 0.01))
    found = plan(replace(asked, targets=narrow))
    assert found.dish.portion.energy_kcal == pytest.approx(energy)
    assert not any("worst" in warning for warning in found.warnings)


@pytest.mark.parametrize("drippings", list(Drippings))
def test_the_water_of_what_is_settled_is_exact_whatever_becomes_of_its_drippings(
    catalogue: Catalogue, drippings: Drippings
) -> None:
    component = patties(finished=True, drippings=drippings, cooked_g=400.0, drippings_g=150.0)
    asked = brief(catalogue, component, between("energy_kcal", 1.0, None))
    water = plan(asked).dish.portion.values["water_g"]
    assert water is not None
    plan(replace(asked, targets=(between("energy_kcal", 1.0, None), between("water_g", water - 0.01, water + 0.01))))


def test_a_dish_that_meets_what_the_worst_source_would_miss_is_a_plan_without_a_proof(catalogue: Catalogue) -> None:
    asked = brief(catalogue, patties(), between("energy_kcal", 1.0, None))
    fat = saturated(plan(asked))
    found = plan(replace(asked, targets=(*asked.targets, between("saturated_fat_g", fat - 0.5, fat + 0.5))))
    assert saturated(found) == pytest.approx(fat)
    assert all(level.checked is Checked.CLAIM and level.bound is None for level in found.proof.levels)
    assert any("worst of their sources" in warning for warning in found.warnings)


def test_what_only_the_best_source_could_meet_is_neither_a_plan_nor_a_conflict(catalogue: Catalogue) -> None:
    asked = brief(catalogue, patties(), between("energy_kcal", 1.0, None))
    fat = saturated(plan(asked))
    outcome = answered(replace(asked, targets=(*asked.targets, between("saturated_fat_g", None, fat - 0.5))))
    assert isinstance(outcome, Undecided)
    assert "sources" in outcome.reason
    impossible = answered(replace(asked, targets=(*asked.targets, between("saturated_fat_g", 70.0, None))))
    assert isinstance(impossible, Conflict), "not even by the best source"
    assert impossible.checked is Checked.CERTIFICATE
    assert not impossible.irreducible, "what the rest could meet by the best source, no dish may meet"
    general = answered(replace(asked, targets=(between("fat_g", None, 20.0), between("energy_kcal", 1.0, None))))
    assert isinstance(general, Conflict)
    assert general.checked is Checked.CERTIFICATE, "of fat itself all sources hold the same"
    assert general.irreducible
