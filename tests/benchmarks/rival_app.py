"""The rival over HTTP: a minimal FastAPI application around the plain PuLP model. No check but the types."""

from typing import Any

from fastapi import FastAPI
from pydantic import BaseModel

from reference_data import reference_folder
from solver.catalogue import load_catalogue
from tests.benchmarks.rival_brief import per_gram
from tests.benchmarks.rivals import Asked, Band, Offer, solve_with_pulp


class Source(BaseModel):
    """A food of the table."""

    id: str


class Price(BaseModel):
    """Of 100 g."""

    amount: float


class Item(BaseModel):
    """on_hand: as in "500 g"."""

    name: str
    source: Source
    price: Price
    on_hand: str | None = None


class Wanted(BaseModel):
    """A band of a portion."""

    of: str
    at_least: float | None = None
    at_most: float | None = None


class Posted(BaseModel):
    """A brief."""

    portions: int
    pantry: list[Item]
    targets: list[Wanted]


def create_app() -> FastAPI:
    """The application, with the same food table."""
    app, catalogue = FastAPI(), load_catalogue(reference_folder() / "sr28")

    @app.post("/plans")
    def plan(posted: Posted) -> dict[str, Any]:
        offers = []
        for item in posted.pantry:
            most_g = 10_000.0 * posted.portions if item.on_hand is None else float(item.on_hand.split()[0])
            offers.append(Offer(per_gram(catalogue.food(item.source.id)), most_g, item.price.amount / 100))
        grams = solve_with_pulp(Asked(offers, [_band(each, posted) for each in posted.targets]))
        return {"grams": {posted.pantry[number].name: round(value, 1) for number, value in grams.items()}}

    return app


def _band(wanted: Wanted, posted: Posted) -> Band:
    is_share = wanted.of == "fat_share_percent"
    scale = 0.01 if is_share else float(posted.portions)
    lower, upper = (None if end is None else end * scale for end in (wanted.at_least, wanted.at_most))
    half = None
    if lower is not None and upper is not None:
        energy = next(each for each in posted.targets if each.of == "energy_kcal")
        aim = ((energy.at_least or 0.0) + (energy.at_most or 0.0)) / 2 * posted.portions
        half = (upper - lower) / 2 * (aim if is_share else 1.0)
    return (
        Band("fat_kcal", lower, upper, "energy_kcal", half) if is_share else Band(wanted.of, lower, upper, None, half)
    )
