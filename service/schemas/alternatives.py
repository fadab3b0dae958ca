"""Other good plans, as they go out."""

from typing import Annotated, Literal

from pydantic import Field

from service.schemas.base import Outgoing
from service.schemas.cautions import CautionAnswer
from service.schemas.dish import DishAnswer


class AlternativeAnswer(Outgoing):
    """Another plan that meets every must, of really different items, and nearly as good."""

    differs_by: Annotated[list[str], Field(examples=[["butter", "tallow"]])]
    """The items that it uses and the plan does not, or the other way round. Items of one food, or of one composition,
    count as one; an item counts from a twentieth of the plan's raw weight on, where there is as much of it."""
    mass_share_percent: Annotated[float, Field(examples=[38.5])]
    """How much of the raw mass differs, %: 0 for the same amounts, 100 where nothing is in both."""
    loss: Annotated[float, Field(examples=[0.12])]
    """By how much the first preference is worse than in the plan, in the measure of its level; below 0 where it is
    better, within what the proof of the plan leaves open."""
    dish: DishAnswer
    """What to weigh out, and what it comes to."""
    cautions: list[CautionAnswer]
    """What may hurt somebody, each with its trigger and its source; never complete."""
    warnings: Annotated[list[str], Field(examples=[["Fibre is unknown, so all carbohydrate counts: kale."]])]
    """What to mind before cooking it."""


class AlternativesAnswer(Outgoing):
    """Other good plans, the most different first."""

    plans: list[AlternativeAnswer]
    """No more than were asked for; each has the least loss of the first preference that its items allow."""
    level: Annotated[str, Field(examples=["balanced"])]
    """The preference that they may lose of, as in `proof`; empty where the plan has no proven value of it."""
    most_loss: Annotated[float, Field(examples=[0.25])]
    """What each may lose at most: 0.25 half-bands of `balanced`, one item of `fewest ingredients` or `fewest new
    purchases`, one change of `closest to`, and 5 % of any other, such as the cost. Wishes are missed no further than
    in the plan, but for a thousandth of what they are of."""
    ended: Annotated[
        Literal[
            "as many as asked",
            "no others within the loss",
            "not decided in time",
            "no others found, and not proven that there are none",
        ],
        Field(examples=["as many as asked"]),
    ]
    """Why there are no more."""
