from pathlib import Path

import pytest

from reference_data.from_sr28.fetch import read_members


def test_a_source_that_is_not_the_pinned_one_is_refused_before_it_is_opened(tmp_path: Path) -> None:
    other = tmp_path / "other.tar.gz"
    other.write_bytes(b"something else")
    with pytest.raises(ValueError, match="SHA-256"):
        read_members(other, ["FOOD_DES.txt"])
