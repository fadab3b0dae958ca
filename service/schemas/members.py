"""One thing that a brief asks for, as an explanation names it."""

from typing import Annotated, Literal

from pydantic import Field

from service.schemas.base import Outgoing


class MemberAnswer(Outgoing):
    """One thing that takes part in a conflict, or stands in the way of a wish."""

    kind: Annotated[
        Literal["target", "rule", "on hand", "most amount", "least amount", "steps", "printing", "tolerance"],
        Field(examples=["target"]),
    ]
    """What kind of thing it is."""
    name: Annotated[str | None, Field(examples=["protein_g"])]
    """A target's id or an item's name; null for a rule on all items."""
    text: Annotated[str, Field(examples=["at least 35 g protein a portion"])]
    """In words."""
