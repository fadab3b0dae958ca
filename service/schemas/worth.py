"""What one unit more and one unit less of each limit would do, as it goes out."""

from typing import Annotated, Literal

from pydantic import Field

from service.schemas.base import Outgoing

#: Why a change is not said.
NotSaid = Literal["no plan then", "the levels above cannot be held then", "not decided in time", "not proven"]


class WorthAnswer(Outgoing):
    """What moving one limit by one unit would do to one preference, with the levels above it held.

    Both directions are found by solving again, between the grams. Limits that the plan does not stand at are worth
    nothing and are not listed.
    """

    kind: Annotated[
        Literal["target", "rule", "on hand", "most amount", "least amount"],
        Field(examples=["target"]),
    ]
    """What kind of limit it is."""
    name: Annotated[str, Field(examples=["protein_g"])]
    """The id of the target or rule, or the name of the item."""
    end: Annotated[Literal["at_least", "at_most", "on_hand", "least_when_used"], Field(examples=["at_least"])]
    """The field of the brief that moves; of an `aim` with `within`, the end that presses."""
    by: Annotated[float, Field(examples=[1.0])]
    """How far it moves, in `unit`: 1, of a ratio 0.1; a tenth of that, and so on, where the limit or the width of its
    band is less than two of them."""
    unit: Annotated[str, Field(examples=["g a portion"])]
    """What `by` is counted in: the limit's own unit, or the item's steps."""
    level: Annotated[str, Field(examples=["cheapest"])]
    """The preference that is measured, as in `proof`. The middles of bands stay those that were asked for."""
    more: Annotated[float | None, Field(examples=[-0.012])]
    """What one unit more room changes in the optimum of that level, in its own measure: for a least amount, one unit
    less that has to be met. 0 or below, which is better; null where it is not said."""
    more_reason: Annotated[NotSaid | None, Field(examples=[None])]
    """Why `more` is not said; null where it is."""
    less: Annotated[float | None, Field(examples=[0.012])]
    """What one unit less room changes. 0 or above, which is worse; null where it is not said."""
    less_reason: Annotated[NotSaid | None, Field(examples=[None])]
    """Why `less` is not said; null where it is. `the levels above cannot be held then`: a wish or an earlier preference
    would be worse."""
    checked: Annotated[Literal["certificate checked", "solver's claim"], Field(examples=["certificate checked"])]
    """Who vouches for the values that were compared. That there is no plan then is the solver's claim."""
