"""Who brings what to the plate, as it goes out."""

from service.schemas.brings import BringsAnswer
from service.translate.numbers import maybe_rounded, rounded
from solver.breakdown import Brings


def to_brings(found: Brings) -> BringsAnswer:
    """What one item brings, of the batch."""
    return BringsAnswer(
        name=found.name,
        component=found.component,
        amounts={name: maybe_rounded(amount) for name, amount in found.amounts.items()},
        percent={name: maybe_rounded(percent) for name, percent in found.percent.items()},
        seasoning_carbohydrate_g=rounded(found.seasoning_carbohydrate_g),
    )
