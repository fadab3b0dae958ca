"""What a dish comes to on its card."""

from typing import Any

from service.cards.card import Table
from service.cards.dish_sections import numbers
from service.cards.reader import Reader
from service.schemas.dish import TotalsAnswer
from service.schemas.plate_off import PlateOffAnswer
from tests.service.handmade import OFF, OFF_TOTALS, TOTALS, off_by


def table(batch_g: float, portion_off: dict[str, Any] | None) -> Table:
    portion, batch = (TotalsAnswer.model_validate({**TOTALS, "grams": grams}) for grams in (400.0, batch_g))
    off = None if portion_off is None else PlateOffAnswer.model_validate({**OFF, "portion": portion_off})
    found = numbers(portion, batch, off, Reader())
    assert isinstance(found, Table)
    return found


def test_the_batch_has_a_column_where_it_is_more_than_a_portion() -> None:
    assert table(800.0, OFF_TOTALS).titles == ("", "a portion", "may be off", "the batch")
    assert table(800.0, None).titles == ("", "a portion", "the batch")
    assert table(400.0, OFF_TOTALS).titles == ("", "a portion", "may be off")
    one = table(400.0, None)
    assert (one.titles, one.numeric, one.rows[0]) == (("", "a portion"), 1, ("weight", "400.0 g"))


def test_a_number_that_no_source_doubts_is_not_said_to_be_certain() -> None:
    nothing = {"grams": off_by(0, 0), "energy_kcal": off_by(0, 0), "nutrients": {"fat_g": off_by(0, 0)}}
    rows = {row[0]: row[2] for row in table(800.0, OFF_TOTALS | nothing).rows}
    assert (rows["energy"], rows["fat"]) == ("not stated", "not stated")
    assert rows["weight"] == "exact"  # as it is weighed out
    stated = {row[0]: row[2] for row in table(800.0, OFF_TOTALS).rows}
    assert (stated["energy"], stated["fat"]) == ("±40", "\u22124.1 / +5.2")
