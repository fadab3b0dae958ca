"""Names that are not known are answered with the names that may have been meant."""

import pytest

from service.translate.names import refuse_unknown
from service.translate.place import Place
from solver.quantities import QUANTITY


@pytest.mark.parametrize(
    ("said", "near"),
    [
        ("carbs_g", "available_carbohydrate_g, total_carbohydrate_g"),
        ("net_carbs_g", "available_carbohydrate_g, total_carbohydrate_g"),
        ("calories", "energy_kcal"),
        ("kcal", "energy_kcal"),
        ("salt_g", "sodium_mg"),
        ("vitamin_a", "vitamin_a_rae_ug"),
        ("b12", "vitamin_b12_ug"),
        ("fiber_g", "fibre_g"),
        ("keto_ratio", "ketogenic_ratio"),
    ],
)
def test_a_quantity_by_another_name_is_met_with_the_one_that_is_meant(said: str, near: str) -> None:
    place = Place()
    assert refuse_unknown(said, QUANTITY, "unknown_quantity", place / "of")
    (problem,) = place.problems
    assert problem.remedy.startswith(f"Near it: {near}")


@pytest.mark.parametrize("said", ["", "g", "zzzz", "\ud800", "x" * 100])
def test_what_is_like_nothing_is_met_with_the_list(said: str) -> None:
    place = Place()
    assert refuse_unknown(said, QUANTITY, "unknown_quantity", place / "of")
    assert place.problems[0].remedy == "The API's description lists all names."
