"""What stands in the way of a wish that a plan misses, as it goes out."""

from typing import Annotated, Literal

from pydantic import Field

from service.schemas.base import Outgoing
from service.schemas.members import MemberAnswer


class InTheWayAnswer(Outgoing):
    """One wish that is missed, and why it is not served better; `miss` of the target or rule says by how much."""

    kind: Annotated[Literal["target", "rule"], Field(examples=["target"])]
    """What the wish is."""
    name: Annotated[str, Field(examples=["fibre_g"])]
    """The id of the target or rule."""
    why: Annotated[
        Literal[
            "these stand in its way",
            "no amounts of what is in the pantry come closer",
            "only that amounts are printed as a kitchen measures them",
            "not decided in time",
        ],
        Field(examples=["these stand in its way"]),
    ]
    """What is known of it."""
    closer_by_percent: Annotated[float | None, Field(examples=[1.0])]
    """Percent of its miss that it cannot be better by while the members hold; null where none was found."""
    members: list[MemberAnswer]
    """Musts, stocks, steps, and other wishes that are served before it or together with it, each as well as the plan
    serves it; empty unless these stand in its way."""
    irreducible: Annotated[bool, Field(examples=[True])]
    """True: without any one member the others would let the wish be served better; what else is asked may stand in its
    way as well. False: that is not proven."""
    text: Annotated[str, Field(examples=["fibre, at least 5 g per portion"])]
    """The wish in words."""
