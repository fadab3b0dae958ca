"""Rules of the dish, as they come in and as they go out."""

from typing import Annotated, Literal, TypeAlias

from pydantic import Field

from service.schemas.base import Incoming, Outgoing

Names: TypeAlias = Annotated[list[str], Field(min_length=1, max_length=500, examples=[["egg"]])]
Titles: TypeAlias = Annotated[
    list[Annotated[str, Field(max_length=100)]],
    Field(min_length=1, max_length=50, examples=[["Dairy and Egg Products"]]),
]
Allergens: TypeAlias = Annotated[
    list[Annotated[str, Field(max_length=40)]], Field(min_length=1, max_length=20, examples=[["milk"]])
]
Counting: TypeAlias = Literal["raw mass", "salt", "as-eaten mass", "pieces", "share of energy"]
End: TypeAlias = Annotated[float, Field(ge=0, le=10_000_000)]


class RuleBody(Incoming):
    """A band on how much of a group of items goes in; or, with `to`, on how much of it to another group.

    A group is what `of` names, what is of the food groups and what has the allergens beside it, together. By allergen,
    what nobody has spoken of counts against the cook: it belongs to the group for `at_most`, and not for `at_least`.
    """

    id: Annotated[str | None, Field(min_length=1, max_length=100, examples=["binder"])] = None
    """Name of the rule in the answer, unique among rules and targets; what it cites, or `rule 1` when left out."""
    of: Names | None = None
    """The items that are counted, by name; `*` counts all."""
    of_food_groups: Titles | None = None
    """Counts what is of these food groups too. A label and a dish have none."""
    of_allergens: Allergens | None = None
    """Counts what contains these allergens too, as `exclude` reads them."""
    to: Names | None = None
    """The items whose weight they are related to; without a second group the band is for the batch."""
    to_food_groups: Titles | None = None
    """The second group: what is of these food groups too."""
    to_allergens: Allergens | None = None
    """The second group: what contains these allergens too."""
    component: Annotated[str | None, Field(min_length=1, max_length=100, examples=["patties"])] = None
    """Counts only what goes into this component; left out, all of them."""
    by: Annotated[Counting | None, Field(examples=["raw mass"])] = None
    """What of the first group counts: its raw weight (so when left out); its salt, from the sodium of all its items;
    its weight as eaten, drippings apart, and then that of `to` as well; how many pieces, of items whose
    `step` counts them; or the percent of the dish's macro energy that it brings, as eaten."""
    cites: Annotated[str | None, Field(min_length=1, max_length=60, examples=["binder"])] = None
    """A rule of the trade, whose band holds where no end is given: `binder`, `salt of patties`, `mayonnaise` ..."""
    at_least: Annotated[End | None, Field(examples=[0.07])] = None
    """Lower end, g per g of `to`, or for the batch: g, pieces, or percent of the energy."""
    at_most: Annotated[End | None, Field(examples=[0.11])] = None
    """Upper end, g per g of `to`, or for the batch: g, pieces, or percent of the energy."""
    priority: Annotated[int | None, Field(ge=1, le=1000, examples=[1])] = None
    """Left out for a must; otherwise a wish, as of targets."""


class RuleAnswer(Outgoing):
    """One rule, recomputed from the printed amounts."""

    id: Annotated[str, Field(examples=["binder"])]
    """The rule's id."""
    by: Annotated[Counting, Field(examples=["raw mass"])]
    """What of the first group counts."""
    of: Annotated[list[str], Field(examples=[["egg"]])]
    """The items of the first group, by name."""
    to: Annotated[list[str] | None, Field(examples=[["mince"]])]
    """The items of the second group, by name; null without one."""
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
