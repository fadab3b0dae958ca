"""A component: what is cooked together, by which method, where its drippings go, and what the scale has said of it."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import Enum

from solver.cooking_rows import CookingRow, FatCurve


class Drippings(Enum):
    """What becomes of the fat that renders out of a component."""

    DISCARDED = "discarded"
    SERVED = "served"
    SPOONED_BACK = "spooned back"


@dataclass(frozen=True, slots=True)
class Component:
    """One component of a dish.

    method: trade name of a mix and its method together ("broiled patty"), or of a method for pieces ("roasted"); None
    for what is eaten as it is. curve: of a mix; None for pieces and for what is not cooked.
    cooked_g: what it weighed when cooked, drippings apart. drippings_g: what fat was poured off, juices apart. Each is
    None where nobody weighed it. finished: nothing more goes in; always so once something was weighed.
    form: what was done to the meat ("minced", "stuffed"), for its temperature; None where nothing was said.
    minutes: how long it simmers or bakes, for its alcohol; None where nothing was said.
    least_teaspoons, most_teaspoons: how much of its drippings is spooned back at least and at most; None for as much
    as a spoon finds.
    """

    name: str
    method: str | None = None
    drippings: Drippings = Drippings.DISCARDED
    curve: FatCurve | None = None
    cooked_g: float | None = None
    drippings_g: float | None = None
    finished: bool = False
    form: str | None = None
    minutes: float | None = None
    least_teaspoons: int = 0
    most_teaspoons: int | None = None

    @property
    def is_mix(self) -> bool:
        """Whether its items are mixed, so that fat is kept by the whole and not by each."""
        return self.curve is not None

    @property
    def is_weighed(self) -> bool:
        """Whether the scale has said something of it."""
        return self.cooked_g is not None or self.drippings_g is not None


#: The one component of a dish that names none: it is eaten as it is.
AS_IT_IS = Component("the dish")


@dataclass(frozen=True, slots=True)
class Placed:
    """An item in a component.

    row: what the cooking table says of the item there; None in a mix, where nothing is cooked, and where no row
    applies. why: the evidence, or why no row applies; "" where nothing is cooked.
    fits_curve: in a mix, whether it is such meat as its curve was fitted to.
    melts: it is a fat, which runs into the pan of pieces as a whole.
    retention: nutrient to the part that cooking leaves, for alcohol and vitamins; what is not named is kept whole.
    """

    component: str = AS_IT_IS.name
    row: CookingRow | None = None
    why: str = ""
    melts: bool = False
    fits_curve: bool = True
    retention: Mapping[str, float] = field(default_factory=dict)


#: Where an item goes in a dish that names no components.
UNCOOKED = Placed()
