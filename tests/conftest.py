"""What several tests share."""

import pytest

from reference_data import reference_folder
from solver.catalogue import Catalogue, load_catalogue


@pytest.fixture(scope="session")
def catalogue() -> Catalogue:
    """The SR28 food table, loaded once."""
    return load_catalogue(reference_folder() / "sr28")
