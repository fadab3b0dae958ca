"""Each form of mince has its rows and its curve."""

import pytest

from reference_data.from_pairs.exclusions import why_excluded
from reference_data.from_pairs.matching import Pair, find_pairs
from reference_data.from_pairs.mixes import WIDENED, FittedMix, fit_mixes, mix_row
from solver.catalogue import Catalogue
from solver.cooking_curves import fat_kept_g


@pytest.fixture(scope="module")
def mixes(catalogue: Catalogue) -> dict[str, FittedMix]:
    usable: list[Pair] = [pair for pair in find_pairs(catalogue) if not why_excluded(pair)]
    return {mix.form.name: mix for mix in fit_mixes(usable)}


def test_the_eight_fat_contents_of_ground_beef_stand_in_each_of_its_forms(mixes: dict[str, FittedMix]) -> None:
    for name in ("broiled patty", "pan-fried patty", "pan-fried crumbles", "baked loaf"):
        beef = [pair for pair in mixes[name].pairs if pair.raw.name.startswith("Beef, ground")]
        assert len(beef) == 8, name


def test_every_row_lies_within_the_stated_interval_but_one_in_ten(mixes: dict[str, FittedMix]) -> None:
    for mix in mixes.values():
        rows = [mix_row(pair) for pair in mix.pairs]
        missed = [abs(row.fat_kept - fat_kept_g(mix.segments, 1.0, row.fat)) for row in rows]
        assert sum(miss > mix.fat_kept_half for miss in missed) <= len(rows) / 10 + 1


def test_hot_air_stands_on_the_broiled_patty_and_is_wider(mixes: dict[str, FittedMix]) -> None:
    hot_air, broiled = mixes["hot air patty"], mixes["broiled patty"]
    assert hot_air.segments == broiled.segments
    assert hot_air.fat_kept_half == pytest.approx(WIDENED * broiled.fat_kept_half)


def test_where_all_rows_are_of_one_animal_the_weight_is_as_open_as_where_they_are_of_several(
    mixes: dict[str, FittedMix],
) -> None:
    """Turkey and beef in patties differ by 8 g in 100 g; 8 rows of one study of beef by 0.8 g, and pork is neither."""
    several = [mixes[name] for name in ("broiled patty", "pan-fried crumbles")]
    assert all(len(mix.animals) > 1 and not mix.yield_as for mix in several)
    widest = max(mix.yield_half for mix in several)
    for name in ("pan-fried patty", "baked loaf"):
        assert len(mixes[name].animals) == 1
        assert (mixes[name].yield_half, mixes[name].yield_as) == (widest, "broiled patty")
    assert mixes["pan-fried sausage"].yield_as == "", "no other form of sausage has rows"
