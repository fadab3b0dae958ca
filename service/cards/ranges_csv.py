"""The ranges of what a pantry can do, as comma-separated values (RFC 4180)."""

import csv
import io
from collections.abc import Sequence

from service.schemas.reach import RangeAnswer

COLUMNS = ("id", "of", "per", "basis", "unit", "least", "most", "at_least", "at_most")


def ranges_csv(ranges: Sequence[RangeAnswer]) -> str:
    """One line a range, under a line of titles; an empty cell where the JSON has null."""
    text = io.StringIO(newline="")
    writer = csv.DictWriter(text, COLUMNS, extrasaction="ignore")
    writer.writeheader()
    for each in ranges:
        writer.writerow({**each.model_dump(), "least": each.least.value, "most": each.most.value})
    return text.getvalue()
