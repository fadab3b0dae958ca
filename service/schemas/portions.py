"""How a dish is divided, as it comes in, and the portions, as they go out."""

from typing import Annotated, Literal, TypeAlias

from pydantic import Field

from service.schemas.amounts import Amount
from service.schemas.base import Incoming, Outgoing
from service.schemas.dish import TotalsAnswer

PortionName: TypeAlias = Annotated[str, Field(min_length=1, max_length=100, examples=["guest"])]
MOST_PORTIONS = 500


class _DivisionBody(Incoming):
    scale: Annotated[Literal["1 g", "0.1 g"], Field(examples=["1 g"])] = "1 g"
    """What the kitchen scale shows; the weights to weigh out come in steps of it."""


class EqualDivision(_DivisionBody):
    """Portions that are all alike."""

    kind: Literal["equal"]
    """Says that all portions are alike."""
    portions: Annotated[int, Field(ge=1, le=MOST_PORTIONS, examples=[4])]
    """How many."""


class WeighedPortionBody(Incoming):
    """A portion of a given weight."""

    name: PortionName
    """Whose it is, unique in the division; `leftovers` is what is left."""
    weight: Annotated[Amount, Field(examples=["250 g"])]
    """What it weighs as eaten, in a unit of mass."""


class WeightDivision(_DivisionBody):
    """Portions by weight; the rest is left."""

    kind: Literal["weight"]
    """Says that each portion has a weight."""
    portions: Annotated[list[WeighedPortionBody], Field(min_length=1, max_length=MOST_PORTIONS)]
    """The portions; together no more than the batch weighs as eaten."""


class EatsBody(Incoming):
    """How many pieces somebody eats."""

    name: PortionName
    """Whose they are, unique in the division; `leftovers` is what is left."""
    pieces: Annotated[int, Field(ge=1, le=1000, examples=[3])]
    """How many of the pieces."""


class PiecesDivision(_DivisionBody):
    """A dish cut into equal pieces; those that nobody eats are left."""

    kind: Literal["pieces"]
    """Says that the dish is cut into pieces."""
    cut_into: Annotated[int, Field(ge=1, le=1000, examples=[8])]
    """How many equal pieces the batch makes."""
    eats: Annotated[list[EatsBody], Field(min_length=1, max_length=MOST_PORTIONS)]
    """Who eats how many; together no more than there are."""


class SharePortionBody(Incoming):
    """A portion as parts of the whole."""

    name: PortionName
    """Whose it is, unique in the division; `leftovers` is what is left."""
    parts: Annotated[float, Field(ge=0.001, le=1_000_000, examples=[2])]
    """How many parts it gets."""


class SharesDivision(_DivisionBody):
    """Uneven portions, 2 to 1 to 1 or in percent. Only the proportion counts, and nothing is left."""

    kind: Literal["shares"]
    """Says that each portion gets parts of the whole."""
    portions: Annotated[list[SharePortionBody], Field(min_length=1, max_length=MOST_PORTIONS)]
    """The portions."""


class EnergyPortionBody(Incoming):
    """A portion of a given energy."""

    name: PortionName
    """Whose it is, unique in the division; `leftovers` is what is left."""
    energy_kcal: Annotated[float, Field(ge=0.001, le=1_000_000, examples=[600])]
    """Its energy on the energy basis of the dish, kcal."""


class EnergyDivision(_DivisionBody):
    """Portions by energy; the rest is left."""

    kind: Literal["energy"]
    """Says that each portion has an energy."""
    portions: Annotated[list[EnergyPortionBody], Field(min_length=1, max_length=MOST_PORTIONS)]
    """The portions; together no more than the batch has."""


DivisionBody: TypeAlias = Annotated[
    EqualDivision | WeightDivision | PiecesDivision | SharesDivision | EnergyDivision, Field(discriminator="kind")
]


class PortionComponentAnswer(Outgoing):
    """What of one component is in a portion."""

    name: Annotated[str, Field(examples=["patties"])]
    """The component."""
    grams: Annotated[float, Field(examples=[145.825])]
    """Weight as eaten, with the drippings that are eaten, g."""
    weigh_out_g: Annotated[float, Field(examples=[146])]
    """The same in steps of the scale; over all portions they sum to the component on the scale."""


class PortionAnswer(Outgoing):
    """One portion: a share of the batch, and the same share of everything in it. Its size changes no ratio."""

    name: Annotated[str, Field(examples=["guest"])]
    """As the division names it; `portion 1` and so on for equal ones, `leftovers` for what is left."""
    share: Annotated[float, Field(examples=[0.375])]
    """Part of the batch, from 0 to 1; all shares sum to 1."""
    pieces: Annotated[int | None, Field(examples=[3])]
    """How many pieces; null where the dish is not cut into pieces."""
    leftover: Annotated[bool, Field(examples=[False])]
    """It is what is left."""
    weigh_out_g: Annotated[float, Field(examples=[219])]
    """Weight as eaten, cooked, in steps of the scale, g. Over all portions they sum to the batch on the scale."""
    text: Annotated[str, Field(examples=["219 g"])]
    """The same as a text."""
    components: list[PortionComponentAnswer]
    """What of each component is in it, to weigh out one after the other; the steps of the scale may make their sum
    differ from `weigh_out_g` by as many steps as there are components."""
    totals: TotalsAnswer
    """What is in it as eaten, from its exact weight."""
