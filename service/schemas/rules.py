"""Rules of the dish, as they come in and as they go out."""

from typing import Annotated, Literal, TypeAlias

from pydantic import Field

from service.schemas.base import Incoming, Outgoing

Names: TypeAlias = Annotated[list[str], Field(min_length=1, max_length=500, examples=[["egg"]])]
End: TypeAlias = Annotated[float, Field(ge=0, le=10_000_000)]


class RuleBody(Incoming):
    """A band on how much of a group of items goes in, raw; or, with `to`, on how much of it to another group."""

    id: Annotated[str | None, Field(min_length=1, max_length=100, examples=["binder"])] = None
    """Name of the rule in the answer, unique among rules and targets; what it cites, or `rule 1` when left out."""
    of: Names
    """The items that are counted, by name; `*` counts all."""
    to: Names | None = None
    """The items whose raw weight they are related to; left out, the band is of grams for the batch."""
    component: Annotated[str | None, Field(min_length=1, max_length=100, examples=["patties"])] = None
    """Counts only what goes into this component; left out, all of them."""
    by: Annotated[Literal["raw mass", "salt"] | None, Field(examples=["raw mass"])] = None
    """What of the first group counts: its weight (so when left out), or its salt, from the sodium of all its items."""
    cites: Annotated[str | None, Field(min_length=1, max_length=60, examples=["binder"])] = None
    """A rule of the trade, whose band holds where no end is given: `binder`, `salt of patties`, `mayonnaise` ..."""
    at_least: Annotated[End | None, Field(examples=[0.07])] = None
    """Lower end, g per g of `to`, or g for the batch."""
    at_most: Annotated[End | None, Field(examples=[0.11])] = None
    """Upper end, g per g of `to`, or g for the batch."""
    priority: Annotated[int | None, Field(ge=1, le=1000, examples=[1])] = None
    """Left out for a must; otherwise a wish, as of targets."""


class RuleAnswer(Outgoing):
    """One rule, recomputed from the printed amounts."""

    id: Annotated[str, Field(examples=["binder"])]
    """The rule's id."""
    by: Annotated[Literal["raw mass", "salt"], Field(examples=["raw mass"])]
    """What of the first group counts."""
    unit: Annotated[str, Field(examples=["g/g"])]
    """UCUM unit of the numbers here."""
    at_least: Annotated[float | None, Field(examples=[0.07])]
    """Lower end, in `unit`; null when open."""
    at_most: Annotated[float | None, Field(examples=[0.11])]
    """Upper end, in `unit`; null when open."""
    priority: Annotated[int | None, Field(examples=[1])]
    """Null for a must; otherwise the priority of the wish."""
    cites: Annotated[str | None, Field(examples=["binder: egg to mince (kitchen-rules)"])]
    """The rule of the trade that it comes from, with its source; null for a rule of the brief's own."""
    value: Annotated[float | None, Field(examples=[0.085])]
    """What the dish has, in `unit`; null when undefined."""
    reason: Annotated[str | None, Field(examples=["there is nothing of the second group"])]
    """Why `value` is undefined; null when it is not."""
    met: Annotated[bool, Field(examples=[True])]
    """Inside the band."""
    binding: Annotated[bool, Field(examples=[False])]
    """Met, and at an end of the band: the rule decides."""
    miss: Annotated[float | None, Field(examples=[0])]
    """How far outside the band, in `unit`; 0 when met, null when undefined."""
