"""Upper levels and recommended intakes, and what is said of a portion against them.

Upper levels of preformed vitamin A (600, 900, 1,700, 2,800, 3,000 ug a day) and of copper, and protein for each kg:
Dietary Reference Intakes, Institute of Medicine, 2001 and 2005, from memory. The liver is USDA SR28.
"""

from dataclasses import replace

import pytest

from reference_data import reference_folder
from solver.catalogue import Catalogue
from solver.cautions.caution import Caution
from solver.cautions.intakes import load_intakes
from solver.components import Component, Placed
from solver.eater import Eater
from solver.outcome import Quantity
from tests.solver.cautions.dishes import BEEF, CAUTIONS, brief_of, dish_of, item

INTAKES = load_intakes(reference_folder() / "reference_intakes.csv")


def portion_said(eater: Eater | None, energy_kcal: float = 600.0, **values: float | None) -> dict[str, Caution]:
    """Of a portion of ground beef that holds this."""
    beef = item("ground beef", BEEF)
    dish = dish_of(Quantity(beef, 100, None), values=values, energy_kcal=energy_kcal)
    return {caution.code: caution for caution in CAUTIONS(brief_of(beef), dish, eater)}


@pytest.mark.parametrize(
    ("age", "retinol_ug", "copper_mg"),
    [
        (0.5, 600, None),
        (1, 600, 1),
        (3.9, 600, 1),
        (4, 900, 3),
        (8, 900, 3),
        (9, 1700, 5),
        (13, 1700, 5),
        (14, 2800, 8),
        (18, 2800, 8),
        (19, 3000, 10),
        (90, 3000, 10),
        (None, 3000, 10),
    ],
)
def test_upper_levels_go_by_age(age: float | None, retinol_ug: float, copper_mg: float | None) -> None:
    retinol = INTAKES.of("upper level", "retinol_ug", Eater(age_years=age))
    copper = INTAKES.of("upper level", "copper_mg", Eater(age_years=age))
    assert retinol is not None
    assert retinol.amount == retinol_ug
    assert (copper.amount if copper else None) == copper_mg


def test_eighty_grams_of_braised_beef_liver_are_over_the_upper_level(catalogue: Catalogue) -> None:
    liver = catalogue.food("sr28:13326")
    assert liver.name == "Beef, variety meats and by-products, liver, cooked, braised"
    retinol = liver.value("retinol_ug") * 0.8
    assert retinol == pytest.approx(7540, abs=5)
    part = item("liver", liver, "liver")
    dish = dish_of(Quantity(part, 80, None, Placed("liver")), values={"retinol_ug": retinol, "vitamin_a_rae_ug": 9e9})
    found = CAUTIONS(brief_of(part, components=(Component("liver"),)), dish, None)
    (over,) = (caution for caution in found if caution.code == "retinol_over_upper_level")
    assert "7,540 µg" in over.text
    assert "3,000 µg" in over.text
    assert over.trigger == "liver: liver"
    # The amount at which the ceiling of 3,000 ug is met.
    assert 3000 / liver.value("retinol_ug") * 100 == pytest.approx(31.8, abs=0.05)


def test_retinol_is_counted_and_never_its_equivalents() -> None:
    assert "retinol_over_upper_level" not in portion_said(None, vitamin_a_rae_ug=9000, retinol_ug=3000)
    assert "retinol_over_upper_level" in portion_said(None, vitamin_a_rae_ug=0, retinol_ug=3001)
    assert "retinol_over_upper_level" not in portion_said(None, vitamin_a_rae_ug=9000, retinol_ug=None)


def test_a_child_has_a_lower_level() -> None:
    caution = portion_said(Eater(age_years=2), retinol_ug=700)["retinol_over_upper_level"]
    assert "children of 1 to 3 years" in caution.text
    assert " 600 µg" in caution.text
    assert "retinol_over_upper_level" not in portion_said(Eater(age_years=30), retinol_ug=700)


def test_copper_over_ten_milligrams_is_said() -> None:
    assert "10 mg" in portion_said(None, copper_mg=11.4)["copper_over_upper_level"].text
    assert "copper_over_upper_level" not in portion_said(None, copper_mg=10)


@pytest.mark.parametrize("food_id", ["sr28:13325", "sr28:05027", "sr28:07041", "sr28:04589"])
def test_liver_is_not_eaten_in_pregnancy(catalogue: Catalogue, food_id: str) -> None:
    part = item("treat", catalogue.food(food_id))
    dish = dish_of(Quantity(part, 1, None), values={"retinol_ug": 10.0})
    pregnant = {caution.code for caution in CAUTIONS(brief_of(part), dish, Eater(pregnant=True))}
    assert {"liver_in_pregnancy", "medical_pregnancy"} <= pregnant
    unknown = {caution.code: caution.text for caution in CAUTIONS(brief_of(part), dish, None)}
    assert "in pregnancy" in unknown["liver"]


@pytest.mark.parametrize(
    ("eater", "per_kg"),
    [
        (Eater(), 0.8),
        (Eater(age_years=2), 1.05),
        (Eater(age_years=10), 0.95),
        (Eater(age_years=16), 0.85),
        (Eater(age_years=16, pregnant=True), 1.1),
        (Eater(pregnant=True), 1.1),
        (Eater(lactating=True), 1.3),
    ],
)
def test_protein_is_recommended_by_age_and_state(eater: Eater, per_kg: float) -> None:
    row = INTAKES.of("recommended intake", "protein_g", eater)
    assert row is not None
    assert row.amount == per_kg


def test_too_little_protein_in_a_day_that_is_known() -> None:
    eater = Eater(weight_kg=70, meals_per_day=2)
    caution = portion_said(eater, protein_g=27.9)["low_protein_a_day"]
    assert "56 g" in caution.text
    assert {"low_protein_a_day", "protein_of_a_portion"}.isdisjoint(portion_said(eater, protein_g=28))


def test_a_day_that_is_not_known_is_not_made_up() -> None:
    caution = portion_said(Eater(weight_kg=70), protein_g=20)["protein_of_a_portion"]
    assert "A portion has 20 g" in caution.text
    assert "56 g" in caution.text
    assert {"low_protein_a_day", "very_low_energy"}.isdisjoint(portion_said(Eater(weight_kg=70), 100.0, protein_g=20))
    assert "protein_of_a_portion" not in portion_said(Eater(), protein_g=20)


def test_too_much_protein_is_said_by_the_day_or_by_the_portion() -> None:
    day = portion_said(Eater(weight_kg=70, meals_per_day=3), protein_g=39)["high_protein"]
    assert "117 g" in day.text
    assert "116 g" in day.text
    assert "high_protein" not in portion_said(Eater(weight_kg=70, meals_per_day=3), protein_g=38)
    assert "A portion" in portion_said(Eater(weight_kg=70), protein_g=117)["high_protein"].text


@pytest.mark.parametrize(
    ("meals", "kcal", "expected"), [(1, 799, True), (1, 800, False), (3, 266, True), (3, 267, False)]
)
def test_less_than_800_kcal_a_day_wants_supervision(meals: float, kcal: float, *, expected: bool) -> None:
    assert ("very_low_energy" in portion_said(Eater(meals_per_day=meals), kcal)) is expected


def test_unknown_age_is_taken_for_an_adult() -> None:
    unknown = INTAKES.of("upper level", "retinol_ug", Eater())
    assert unknown == INTAKES.of("upper level", "retinol_ug", replace(Eater(), age_years=30))
