"""What one unit more and one unit less of each limit is worth: published multipliers, and what is not said."""

import csv
from dataclasses import replace

import numpy as np
import pytest

from solver.backends import open_backend
from solver.backends.base import RawSolution, Status
from solver.backends.fake import FakeBackend
from solver.brief import Brief
from solver.catalogue import Catalogue
from solver.components import Placed
from solver.deadline import Deadline
from solver.outcome import Checked, MemberKind
from solver.pantry import PantryItem, Step
from solver.worth import Unsaid, worth
from tests.solver import larder
from tests.solver.backends.published_programmes import PUBLISHED, published
from tests.solver.worths import batch, cheapest, planned, priced, said, worths

BACKENDS = ("highs", "scipy-highs", "pulp-cbc")


#: Column of the table of 1945 to a nutrient, and what one unit of the column is in the nutrient's unit.
NUTRIENT_OF = {
    "energy_1000kcal": ("energy_kcal", 1000.0),
    "protein_g": ("protein_g", 1.0),
    "calcium_g": ("calcium_mg", 1000.0),
    "iron_mg": ("iron_mg", 1.0),
    "vitamin_a_1000iu": ("vitamin_a_rae_ug", 300.0),
    "thiamin_mg": ("thiamin_mg", 1.0),
    "riboflavin_mg": ("riboflavin_mg", 1.0),
    "niacin_mg": ("niacin_mg", 1.0),
    "vitamin_c_mg": ("vitamin_c_mg", 1.0),
}

#: Dollars in 100 g, so that what a dollar buys is no more than 100 g can hold.
DOLLARS = 0.001

#: So many days at once, that one unit is a small move: the optimum is in proportion to the allowances.
DAYS = 200


def diet_of_1945() -> Brief:
    with (PUBLISHED / "programmes" / "diet_1945.csv").open(encoding="utf-8", newline="") as file:
        *foods, least, _ = list(csv.DictReader(file))
    named = NUTRIENT_OF.items()
    items = [
        priced(row["column"], DOLLARS, **{to: float(row[of]) * unit * DOLLARS for of, (to, unit) in named})
        for row in foods
    ]
    targets = [batch(to, float(least[of]) * unit * DAYS) for of, (to, unit) in named]
    return cheapest(*items, targets=tuple(targets), portions=DAYS)


#: Source: G. J. Stigler's data as in stigler.mod of Debian's glpk-utils 5.0; multipliers computed from it by two
#: other solvers (scipy, glpsol), dollars per unit of the table's columns.
DUALS_OF_1945 = {
    "energy_1000kcal": 0.008765,
    "calcium_g": 0.031738,
    "vitamin_a_1000iu": 0.000400,
    "riboflavin_mg": 0.016358,
    "vitamin_c_mg": 0.000144,
}


@pytest.mark.parametrize("backend", BACKENDS)
def test_one_unit_of_each_allowance_of_1945_is_worth_its_published_multiplier(backend: str) -> None:
    found = worths(diet_of_1945(), backend)
    assert {name for name, _ in found} == {NUTRIENT_OF[of][0] for of in DUALS_OF_1945}
    for of, dollars in DUALS_OF_1945.items():
        name, unit = NUTRIENT_OF[of]
        one = found[name, "at_least"]
        assert (one.level, one.by, one.checked) == ("cheapest", 1.0, Checked.CERTIFICATE)
        # Half a unit of the last printed digit.
        assert [change * unit for change in said(one)] == pytest.approx([-dollars, dollars], abs=0.6e-6), of


#: Grams of sausage, so that a gram is a small part of it; "ash" stands for the mass itself.
SAUSAGE_G = 10_000.0


def sausage(**at_least_g: float) -> Brief:
    """Four materials, 1.80, 0.75, 0.40 and 0.15 a pound; here a pound is 100 g."""
    materials = {"A": (1.8, 40, 10), "B": (0.75, 20, 15), "C": (0.4, 10, 35), "D": (0.15, 5, 40)}
    items = (
        replace(priced(name, price, protein_g=protein, fat_g=fat, ash_g=100), at_least_g=at_least_g.get(name, 0.0))
        for name, (price, protein, fat) in materials.items()
    )
    mass = batch("ash_g", SAUSAGE_G, SAUSAGE_G)
    targets = (mass, batch("protein_g", 0.15 * SAUSAGE_G), batch("fat_g", None, 0.30 * SAUSAGE_G))
    return cheapest(*items, targets=targets, portions=10)


def test_a_gram_more_of_an_unused_material_costs_its_published_reduced_cost() -> None:
    # Textbook blend of four materials: reduced costs A 0.25, C 0.05 a pound (quoted, as in answers.toml).
    found = worths(sausage(A=100.0, C=100.0))
    quoted = published("sausage").reduced_costs
    for name in ("A", "C"):
        one = found[name, "at_least"]
        assert (one.kind, one.by, one.unit) == (MemberKind.LEAST_AMOUNT, 1.0, "g for the batch")
        more, less = said(one)
        assert quoted[f"material {name}"].agrees_with(100 * less)
        assert quoted[f"material {name}"].agrees_with(-100 * more)


def test_a_gram_of_the_sausages_protein_is_worth_4_cents() -> None:
    # By hand: B + D = 1 and 20 B + 5 D = p cost 0.75 B + 0.15 D, so (0.75 - 0.15) / (20 - 5) = 0.04 a percent of it.
    assert said(worths(sausage())["protein_g", "at_least"]) == pytest.approx((-0.04, 0.04))


def test_a_target_that_does_not_bind_is_worth_nothing_and_has_no_entry() -> None:
    # The fat of the sausage is 23.3 %, of 30 % that it may be; the mass is both ends of one band.
    assert set(worths(sausage())) == {("protein_g", "at_least"), ("ash_g", "at_least"), ("ash_g", "at_most")}


def winston() -> Brief:
    items = (
        priced("brownie", 50, energy_kcal=400, calcium_mg=3, sugars_g=2, fat_g=2),
        priced("ice cream", 20, energy_kcal=200, calcium_mg=2, sugars_g=2, fat_g=4),
        priced("cola", 30, energy_kcal=150, calcium_mg=0, sugars_g=4, fat_g=1),
        priced("cheesecake", 80, energy_kcal=500, calcium_mg=0, sugars_g=4, fat_g=5),
    )
    asked = (batch("energy_kcal", 500), batch("calcium_mg", 6), batch("sugars_g", 10), batch("fat_g", 8))
    return cheapest(*items, targets=asked)


def test_the_chocolate_and_the_sugar_of_a_textbook_diet_have_the_textbooks_prices() -> None:
    # W. L. Winston, Operations Research, 4th ed., p. 68; calcium stands for chocolate. Multipliers 2.5 and 7.5 cents
    # an ounce from memory, and by hand: ice cream 2 y + 2 z = 20 and cola 4 z = 30.
    found = worths(winston())
    assert set(found) == {("calcium_mg", "at_least"), ("sugars_g", "at_least")}
    for name, cents in (("calcium_mg", 2.5), ("sugars_g", 7.5)):
        assert said(found[name, "at_least"]) == pytest.approx((-cents, cents))


@pytest.mark.parametrize(("food", "cents"), [("brownie", 27.5), ("cheesecake", 50.0)])
def test_what_the_textbook_diet_leaves_out_costs_its_reduced_cost(food: str, cents: float) -> None:
    # By hand from the same multipliers: 50 - 3 * 2.5 - 2 * 7.5, and 80 - 4 * 7.5; in cents for 100 g.
    asked = winston()
    pantry = tuple(replace(one, at_least_g=10.0 if one.name == food else 0.0) for one in asked.pantry)
    one = worths(replace(asked, pantry=pantry))[food, "at_least"]
    assert said(one) == pytest.approx((-cents / 100, cents / 100))


def test_tightening_past_what_is_possible_says_that_there_is_no_plan_then() -> None:
    # 80 g of butter at 80 % hold 64 g of fat and no more.
    butter = replace(priced("butter", 1.0, fat_g=80), on_hand_g=80.0)
    found = worths(cheapest(butter, targets=(batch("fat_g", 64.0),)))
    for key in (("fat_g", "at_least"), ("butter", "on_hand")):
        assert (found[key].less, found[key].less_reason) == (None, Unsaid.NO_PLAN)
        assert found[key].more_reason is None
    assert found["fat_g", "at_least"].more == pytest.approx(-0.01 / 0.8)
    assert found["butter", "on_hand"].more == 0.0


def test_what_is_not_reached_in_time_is_said() -> None:
    plan = planned(winston())
    found = worth(plan, open_backend("highs"), Deadline.after(0))
    assert {(one.name, one.level) for one in found} == {("calcium_mg", "cheapest"), ("sugars_g", "cheapest")}
    assert {(one.more, one.more_reason, one.less_reason) for one in found} == {(None, Unsaid.LATE, Unsaid.LATE)}


def test_what_a_solver_lies_about_is_not_said() -> None:
    plan = planned(winston())
    liar = FakeBackend(lambda program: RawSolution(Status.OPTIMAL, "a lie", x=np.full(len(program.cost), -1.0)))
    found = worth(plan, liar, Deadline.after(10))
    assert {(one.more, one.more_reason, one.less_reason) for one in found} == {(None, Unsaid.UNPROVEN, Unsaid.UNPROVEN)}


def test_a_plan_that_only_its_own_mixture_of_drippings_allows_is_compared_with_nothing(catalogue: Catalogue) -> None:
    # Two fats in one pan: by the worse of them no plan exists, so that there is no optimum to compare.
    placed = (Placed("patties"),)
    items = tuple(
        PantryItem(id_, catalogue.food(id_), grams, grams, grams, Step(grams, "g", grams), placed=placed)
        for id_, grams in (("sr28:13498", 500.0), ("sr28:01001", 200.0))
    )
    energy = larder.between("energy_kcal", 1.0, None)
    asked = larder.kitchen(*items, targets=(energy,), parts=(larder.PATTIES,))
    fat = planned(asked).dish.portion.values["saturated_fat_g"]
    assert fat is not None
    plan = planned(replace(asked, targets=(energy, larder.between("saturated_fat_g", fat - 0.5, fat + 0.5))))
    at_its_end = replace(plan.dish, targets=tuple(replace(each, binding=True) for each in plan.dish.targets))
    found = worth(replace(plan, dish=at_its_end), open_backend("highs"), Deadline.after(10))
    assert {one.level for one in found} == {"balanced"}
    assert {(one.more_reason, one.less_reason) for one in found} == {(Unsaid.UNPROVEN, Unsaid.UNPROVEN)}
