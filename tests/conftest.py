"""What several tests share."""

import pytest
from hypothesis import settings

from reference_data import reference_folder
from solver.catalogue import Catalogue, load_catalogue

# The same examples each time, so that a red run means that the code changed; `--hypothesis-profile=default` explores.
# No example is timed: how long one takes says more of the machine than of the code.
settings.register_profile("steady", derandomize=True, deadline=None)
settings.load_profile("steady")


@pytest.fixture(scope="session")
def catalogue() -> Catalogue:
    """The SR28 food table, loaded once."""
    return load_catalogue(reference_folder() / "sr28")
