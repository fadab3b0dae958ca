"""The quantities of an answer as comma-separated values (RFC 4180): what a scale and a shopping list need."""

import csv
import io
from collections.abc import Sequence

from service.schemas.dish import QuantityAnswer

COLUMNS = ("component", "name", "food_id", "grams", "as_purchased_grams", "text", "about", "steps")


def quantities_csv(quantities: Sequence[QuantityAnswer]) -> str:
    """One line an ingredient, under a line of titles; an empty cell where the JSON has null."""
    text = io.StringIO(newline="")
    writer = csv.DictWriter(text, COLUMNS, extrasaction="ignore")
    writer.writeheader()
    for each in quantities:
        writer.writerow(each.model_dump())
    return text.getvalue()
