"""Volumes weighed by the measures of a food; the weights are those of USDA SR28 (WEIGHT file)."""

import pytest

from solver.catalogue import Catalogue
from tests.solver.weighing import BUTTER, CHEDDAR, EGG, HEAVY_CREAM, OLIVE_OIL, TALLOW, measured, refusal, weigh


@pytest.mark.parametrize(
    ("food_id", "text", "weight_g"),
    [
        (BUTTER, "1 tsp", 14.2 / 3),  # by the tablespoon, not 227 / 48 of the cup
        (BUTTER, "1 pint", 2 * 227),
        (TALLOW, "1 tsp", 12.8 / 3),
        (EGG, "1 tbsp", 243 / 16),
        (CHEDDAR, "1 tbsp, shredded", 113 / 16),
        (HEAVY_CREAM, "1 pint", 2 * 238),
        (HEAVY_CREAM, "1 tsp", 5),
        (OLIVE_OIL, "1 l", 216 / 0.2365882365),
        (OLIVE_OIL, "1 fl oz", 27),
        (BUTTER, "100 ml", 100 * 14.2 / 14.78676478125),  # 1 ml is nearer to a tablespoon than to a cup
    ],
)
def test_a_food_that_has_one_volume_has_every_other_by_the_nearest(
    catalogue: Catalogue, food_id: str, text: str, weight_g: float
) -> None:
    assert weigh(text, catalogue.food(food_id)) == pytest.approx(weight_g, rel=1e-12)


def test_a_cup_of_several_densities_is_ambiguous_and_the_remedy_lists_them(catalogue: Catalogue) -> None:
    refused = refusal("2 cups", catalogue.food(CHEDDAR))
    assert refused.code == "ambiguous_measure"
    for measure in ("cup, diced", "cup, melted", "cup, shredded", "slice (1 oz)"):
        assert measure in refused.remedy


def test_kinds_that_agree_within_one_percent_are_not_ambiguous() -> None:
    assert weigh("1 cup", measured((1, "cup, halves", 100), (1, "cup, slices", 100.9))) == 100
    assert refusal("1 cup", measured((1, "cup, halves", 100), (1, "cup, slices", 101.1))).code == "ambiguous_measure"


def test_a_plain_spoon_does_not_say_which_cup_is_meant() -> None:
    # As green peppers are listed: the tablespoon is of chopped ones, and a cup of slices weighs a third less.
    pepper = measured((1, "cup, chopped", 149), (1, "cup, sliced", 92), (1, "tbsp", 9.3))
    assert refusal("1 cup", pepper).code == "ambiguous_measure"
    assert weigh("1 tbsp", pepper) == 9.3


def test_an_only_cup_is_plain_unless_a_plain_spoon_contradicts_it() -> None:
    assert weigh("1 cup", measured((1, "cup, chopped", 140), (1, "tbsp", 8.7))) == 140
    assert refusal("1 cup", measured((1, "cup, chopped", 140), (1, "tbsp", 5))).code == "ambiguous_measure"


def test_a_volume_without_density_is_refused_with_the_measures_the_food_has() -> None:
    refused = refusal("1 cup", measured((1, "link", 48), name="farm sausage"))
    assert refused.code == "no_density"
    assert "farm sausage" in refused.remedy
    assert "link; g; kg; oz; lb" in refused.remedy


def test_a_plain_cup_comes_before_the_cup_of_a_label() -> None:
    cereal = measured((0.75, "cup (1 NLEA serving)", 27), (1, "cup", 37))
    assert weigh("2 cups", cereal) == 74
    assert weigh("3/4 cup (1 NLEA serving)", cereal) == 27


def test_of_rows_that_agree_the_heaviest_counts_as_it_is_rounded_least() -> None:
    assert weigh("1 tsp", measured((0.25, "tsp", 1.2), (1, "tsp", 4.7))) == 4.7
