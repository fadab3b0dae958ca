"""What leads out of a conflict: a small change, a small addition, or that no food can help."""

from typing import Annotated, Literal

from pydantic import Field

from service.schemas.base import Outgoing
from service.schemas.cautions import CautionAnswer
from service.schemas.dish import DishAnswer


class Leads(Outgoing):
    """What every way out ends with."""

    text: Annotated[str, Field(examples=["protein: at least 22.5 g per portion instead of 35 g"])]
    """In words."""
    dish: DishAnswer
    """The plan that it leads to: every must of the brief so changed is met by the printed amounts."""
    cautions: list[CautionAnswer]
    """What may hurt somebody in that plan; never complete."""
    warnings: Annotated[
        list[str], Field(examples=[["Fibre is unknown, so all carbohydrate counts as available: kale."]])
    ]
    """What to mind before cooking it."""


class ChangeAnswer(Leads):
    """One end of a target or rule, or the limit of one item, that has to move, with everything else as asked."""

    kind: Annotated[Literal["target", "rule", "on hand", "most amount", "least amount"], Field(examples=["target"])]
    """What kind of thing is changed."""
    name: Annotated[str, Field(examples=["energy_kcal"])]
    """A target's or rule's id, or an item's name."""
    field: Annotated[Literal["at_least", "at_most", "on_hand"], Field(examples=["at_most"])]
    """The field to change."""
    unit: Annotated[str, Field(examples=["kcal"])]
    """UCUM unit of the numbers here: the target's or rule's, or g for the batch."""
    asked: Annotated[float, Field(examples=[450])]
    """As the brief has it, in `unit`."""
    to: Annotated[float, Field(examples=[701])]
    """What leads to the plan, in `unit`."""
    limit: Annotated[float, Field(examples=[700])]
    """The exact number that `to` was moved outward from, in `unit`: nothing nearer to `asked` will do."""


class MoveAnswer(Outgoing):
    """One end of a target or rule that moves together with others."""

    kind: Annotated[Literal["target", "rule"], Field(examples=["target"])]
    """What kind of thing is changed."""
    name: Annotated[str, Field(examples=["sodium_mg"])]
    """A target's or rule's id."""
    field: Annotated[Literal["at_least", "at_most"], Field(examples=["at_most"])]
    """The field to change."""
    unit: Annotated[str, Field(examples=["mg"])]
    """UCUM unit of the numbers here."""
    asked: Annotated[float, Field(examples=[500])]
    """As the brief has it, in `unit`."""
    to: Annotated[float, Field(examples=[620])]
    """What leads to the plan, in `unit`."""


class TogetherAnswer(Leads):
    """Several ends that have to move together, where no single change is enough: what the nearest plan asks for."""

    moves: list[MoveAnswer]
    """The ends, in the brief's order."""


class AdditionAnswer(Leads):
    """One food that makes the brief possible: an item with `only_if_needed`, or one of the food table.

    An item goes into a component of its own. A food of the table is eaten as it is, in a component that is not cooked.
    """

    food_id: Annotated[str, Field(examples=["sr28:04053"])]
    """The food, as in the amounts of a dish."""
    name: Annotated[str, Field(examples=["Oil, olive, salad or cooking"])]
    """The item, as the brief names it, or the food's name in the food table."""
    at_home: Annotated[bool, Field(examples=[False])]
    """True: an item of the pantry with `only_if_needed`. False: it has to be fetched."""
    kind: Annotated[str, Field(examples=["oil"])]
    """What it is to a cook; the other additions of the table are of other kinds. Of an item its name."""
    component: Annotated[str, Field(examples=["at the table"])]
    """Where it goes; `the dish` where the brief names no components."""
    grams: Annotated[float, Field(examples=[40.6])]
    """How much of it the plan takes, g for the batch."""
    about: Annotated[str | None, Field(examples=["about 3 tbsp"])]
    """The nearest kitchen measure; null when none fits."""
    least_g: Annotated[float, Field(examples=[40.1])]
    """No less of it will do, g for the batch."""
    proven: Annotated[bool, Field(examples=[True])]
    """Whether less of no other food will do that may be proposed, of kinds that are not named before it. Of an item:
    whether `least_g` is proven."""


class BoundAnswer(Outgoing):
    """What no dish can reach, whatever is added, while the other targets of the conflict hold."""

    target: Annotated[str, Field(examples=["fat_share_percent"])]
    """The target's id."""
    value: Annotated[float, Field(examples=[68.888889])]
    """The bound, in the target's unit."""
    is_ceiling: Annotated[bool, Field(examples=[True])]
    """True: no dish is above it. False: none is below it."""
    text: Annotated[str, Field(examples=["450 kcal with 35 g protein cannot exceed 68.9 % fat, whatever is added"])]
    """In words."""


class WaysOutAnswer(Outgoing):
    """What leads out of the conflict. Everything here is confirmed by a plan; what was not found in time is missing."""

    changes: list[ChangeAnswer]
    """The smallest change of each target and item of the conflict that alone resolves it, the smallest part first."""
    together: TogetherAnswer | None
    """Changes that only together resolve it; null where a single one was found, or none at all."""
    additions: list[AdditionAnswer]
    """The smallest additions of one food: what is at home first, then foods of different kinds, the smallest first."""
    no_food_helps: BoundAnswer | None
    """The bound that no addition can move; null when there is none, or none is known."""
