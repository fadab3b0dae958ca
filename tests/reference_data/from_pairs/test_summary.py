"""The page beside the tables counts what they hold."""

import csv
import re

from reference_data import reference_folder

FOLDER = reference_folder() / "cooking"


def test_the_page_counts_the_pairs_of_the_table() -> None:
    page = (FOLDER / "README.md").read_text(encoding="utf-8")
    with (FOLDER / "pairs.csv").open(encoding="utf-8", newline="") as stream:
        rows = list(csv.DictReader(stream))
    excluded = [row["reason"] for row in rows if row["status"] == "excluded"]
    assert f"{len(rows) - len(excluded)} of {len(rows)} pairs" in page
    assert {why: int(count) for why, count in re.findall(r"\| (.+) \| (\d+) \|", page)} == {
        why: excluded.count(why) for why in excluded
    }
