"""Raw and cooked rows find each other by what the food is."""

from reference_data.from_pairs.matching import Pair, find_pairs
from solver.catalogue import Catalogue


def by_cooked(catalogue: Catalogue) -> dict[str, Pair]:
    return {pair.cooked.id: pair for pair in find_pairs(catalogue)}


def test_rows_match_although_method_form_and_order_differ(catalogue: Catalogue) -> None:
    pairs = by_cooked(catalogue)
    assert pairs["sr28:23575"].raw.id == "sr28:23572"  # 80/20 crumbles
    assert pairs["sr28:10039"].raw.id == "sr28:10036"  # loin "(roasts)" of "(chops)"
    assert pairs["sr28:05098"].raw.id == "sr28:05096"  # a thigh is dark meat
    assert pairs["sr28:05064"].raw.id == "sr28:05062"  # meat only is skinless and boneless


def test_the_method_is_the_one_the_cooked_row_names(catalogue: Catalogue) -> None:
    pairs = by_cooked(catalogue)
    assert pairs["sr28:05094"].method == "roasted"  # of "broilers or fryers"
    assert pairs["sr28:23574"].method == "pan-fried"  # pan-broiled
    assert pairs["sr28:10220"].method is None  # "ground, cooked"


def test_no_row_is_paired_twice_and_none_with_itself(catalogue: Catalogue) -> None:
    pairs = find_pairs(catalogue)
    assert len({pair.cooked.id for pair in pairs}) == len(pairs)
    assert all(pair.raw.id != pair.cooked.id for pair in pairs)
