"""The steps of the method, as they come in and as they go out: they travel unchanged."""

from typing import Annotated

from pydantic import Field

from service.schemas.base import Incoming, Outgoing


class MethodStepBody(Incoming):
    """One thing to do, in the cook's own words."""

    text: Annotated[str, Field(min_length=1, max_length=2000, examples=["Broil until the edges are brown."])]
    """What to do."""
    component: Annotated[str | None, Field(min_length=1, max_length=100, examples=["patties"])] = None
    """The component that it is about; left out where it is about all of them."""
    minutes: Annotated[float | None, Field(gt=0, le=10_000, examples=[12])] = None
    """How long it takes, min."""
    celsius: Annotated[float | None, Field(ge=-40, le=500, examples=[220])] = None
    """How hot the oven, the pan or the water is, degrees Celsius; not the centre of the food."""
    vessel: Annotated[str | None, Field(min_length=1, max_length=200, examples=["tray with a rack"])] = None
    """What it is done in."""
    until_safe: Annotated[bool, Field(examples=[True])] = False
    """This step ends when the centre has reached its safe temperature. Where no step of a component says so, it is
    the last one that has a temperature."""


class MethodStepAnswer(Outgoing):
    """One step, as it was given."""

    dish: Annotated[str | None, Field(examples=["mayonnaise"])]
    """The dish of `dishes` that it belongs to, made beforehand; null for a step of this dish itself."""
    text: Annotated[str, Field(examples=["Broil until the edges are brown."])]
    """What to do."""
    component: Annotated[str | None, Field(examples=["patties"])]
    """The component that it is about; null where it is about all of them."""
    minutes: Annotated[float | None, Field(examples=[12])]
    """How long it takes, min; null where it was not said."""
    celsius: Annotated[float | None, Field(examples=[220])]
    """How hot the oven, the pan or the water is, degrees Celsius; null likewise."""
    vessel: Annotated[str | None, Field(examples=["tray with a rack"])]
    """What it is done in; null likewise."""
    until_safe: Annotated[bool, Field(examples=[True])]
    """It ends when the centre has reached its safe temperature."""
