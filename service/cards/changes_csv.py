"""What a rework changes, as comma-separated values (RFC 4180)."""

import csv
import io
from collections.abc import Sequence

from service.schemas.rework import AmountChangeAnswer

COLUMNS = ("component", "name", "known", "before", "after", "before_grams", "after_grams")


def changes_csv(changes: Sequence[AmountChangeAnswer]) -> str:
    """One line a changed amount, under a line of titles."""
    text = io.StringIO(newline="")
    writer = csv.DictWriter(text, COLUMNS, extrasaction="ignore")
    writer.writeheader()
    for each in changes:
        writer.writerow(each.model_dump())
    return text.getvalue()
