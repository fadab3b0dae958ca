"""Cautions and safe temperatures as they go out."""

from typing import Annotated, Literal

from pydantic import Field

from service.schemas.base import Outgoing


class CautionAnswer(Outgoing):
    """Something that may hurt somebody. That there is none never means that a dish is safe."""

    code: Annotated[str, Field(examples=["safe_temperature"])]
    """Stable code, for programs."""
    text: Annotated[str, Field(examples=["The centre has to reach 71.2 °C (160 °F); local codes come first."])]
    """What to do, for a cook."""
    trigger: Annotated[str, Field(examples=["patties: ground beef, minced"])]
    """What set it off, in the brief's own names."""
    source: Annotated[str, Field(examples=["foodsafety-gov-chart"])]
    """Id of the source in the list of sources."""
    beside_a_step: Annotated[str | None, Field(examples=["The centre of patties has to reach 71.2 °C (160 °F)."])]
    """The same in a few words, for beside a step of the method; null where it is about none."""


class SafeTemperatureAnswer(Outgoing):
    """Least temperature in the centre of the food."""

    kind: Annotated[str, Field(examples=["minced"])]
    """The class: a form (`minced`, `stuffed`), or a kind of food (`poultry`)."""
    foods: Annotated[str, Field(examples=["Minced or ground meat and sausage of beef, pork, veal, lamb, goat, bison"])]
    """What it covers."""
    fahrenheit: Annotated[float | None, Field(examples=[160])]
    """Degrees Fahrenheit; null where the chart goes by `sign` alone."""
    celsius: Annotated[float | None, Field(examples=[71.2])]
    """Degrees Celsius, rounded up to 0.1 so that they are never below a source in Fahrenheit; null likewise."""
    held_s: Annotated[float | None, Field(examples=[None])]
    """How long it is held, s; null where the chart names no time."""
    rest_min: Annotated[float | None, Field(examples=[None])]
    """How long the food rests after it leaves the heat, min; null where the chart names no time."""
    sign: Annotated[str | None, Field(examples=[None])]
    """What is seen when it is done; null where the chart names nothing."""
    note: Annotated[str | None, Field(examples=[None])]
    """What else the chart says, or which row a form without one was given; null when nothing."""
    edition: Annotated[str, Field(examples=["FoodSafety.gov: Cook to a Safe Minimum Internal Temperature (2026)"])]
    """Publisher, title and edition of the chart."""
    source: Annotated[str, Field(examples=["foodsafety-gov-chart"])]
    """Id of the source in the list of sources."""


class SafeTemperatures(Outgoing):
    """The chart of one profile. Charts of different profiles are never mixed."""

    profile: Annotated[Literal["us consumer", "us retail", "uk"], Field(examples=["us consumer"])]
    """`us consumer`: kitchens at home. `us retail`: whoever sells food in the United States. `uk`: United Kingdom."""
    local_codes: Annotated[str, Field(examples=["Local codes come first."])]
    """What comes before this chart."""
    temperatures: list[SafeTemperatureAnswer]
    """The rows, in the chart's order."""
