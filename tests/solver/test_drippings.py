"""What rendered fat holds."""

from solver.catalogue import Catalogue
from solver.drippings import CHOLESTEROL_MG_PER_G_FAT, FATTY_ACIDS
from solver.nutrients import COLUMN


def test_drippings_hold_at_most_the_cholesterol_of_tallow(catalogue: Catalogue) -> None:
    # USDA SR28, 04001: 109 mg in 100 g; lard (04002) 95 mg, chicken fat (04542) 85 mg.
    assert catalogue.food("sr28:04001").value("cholesterol_mg") / 100 == CHOLESTEROL_MG_PER_G_FAT
    for other in ("sr28:04002", "sr28:04542"):
        assert catalogue.food(other).value("cholesterol_mg") / 100 < CHOLESTEROL_MG_PER_G_FAT


def test_what_leaves_in_proportion_are_nutrients_of_the_table() -> None:
    assert set(FATTY_ACIDS) <= set(COLUMN)
