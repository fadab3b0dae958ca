"""What a user would write instead: the brief as a plain PuLP model, level after level, solved by the bundled CBC.

Bands are two inequalities, a share collected into one row as a competent user would; the level before is held by a
row. No plan is checked, printed or explained.
"""

import warnings
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import pulp  # type: ignore[import-untyped]  # PuLP 3 ships no types

#: By which a later level may let an earlier one slip.
SLIP = 1e-6

#: A weighed item may have any amount; its variable is in grams.
WEIGHED_G = 1.0


@dataclass(frozen=True, slots=True)
class Offer:
    """A pantry item. per_g: what a gram holds of each nutrient. step_g: None where it is weighed."""

    per_g: Mapping[str, float]
    most_g: float
    price_per_g: float
    step_g: float | None = None

    @property
    def unit_g(self) -> float:
        """Grams in one unit of its variable."""
        return WEIGHED_G if self.step_g is None else self.step_g


@dataclass(frozen=True, slots=True)
class Band:
    """A target for the batch. share_of: the nutrient that `of` is a part of, for a share; ends are then parts of 1."""

    of: str
    lower: float | None
    upper: float | None
    share_of: str | None = None
    half: float | None = None


@dataclass(frozen=True, slots=True)
class Asked:
    """gaps: where a proof may stop, level by level; zero for a linear programme. most: of ingredients."""

    offers: Sequence[Offer]
    bands: Sequence[Band]
    gaps: tuple[float, float] = (0.0, 0.0)
    most: int | None = None


def solve_with_pulp(asked: Asked) -> dict[int, float]:
    """Grams of each item that is used, by its number: nearest to the middles of the bands, and then cheapest."""
    problem = pulp.LpProblem("plan", pulp.LpMinimize)
    amounts = [_amount(number, offer) for number, offer in enumerate(asked.offers)]
    deviation = pulp.LpVariable("deviation", lowBound=0)
    for band in asked.bands:
        _add_band(problem, band, asked.offers, amounts, deviation)
    if asked.most is not None:
        _add_most(problem, asked, amounts)
    prices = [offer.price_per_g * offer.unit_g for offer in asked.offers]
    goals = (pulp.LpAffineExpression([(deviation, 1)]), pulp.LpAffineExpression(zip(amounts, prices, strict=True)))
    for goal, gap in zip(goals, asked.gaps, strict=True):
        problem.setObjective(goal)
        if not _solved(problem, gap):
            return {}
        problem += goal <= pulp.value(goal) + SLIP
    values = enumerate(amount.varValue for amount in amounts)
    return {number: value * asked.offers[number].unit_g for number, value in values if value}


def _solved(problem: pulp.LpProblem, gap: float) -> bool:
    with warnings.catch_warnings():
        warnings.simplefilter("ignore", DeprecationWarning)
        solver = pulp.PULP_CBC_CMD(msg=False, gapAbs=gap or None)
        return bool(problem.solve(solver) == pulp.LpStatusOptimal)


def _amount(number: int, offer: Offer) -> pulp.LpVariable:
    category = "Continuous" if offer.step_g is None else "Integer"
    return pulp.LpVariable(f"x{number}", 0, offer.most_g // offer.unit_g, cat=category)


def _add_band(
    problem: pulp.LpProblem,
    band: Band,
    offers: Sequence[Offer],
    amounts: Sequence[pulp.LpVariable],
    deviation: pulp.LpVariable,
) -> None:
    def left(end: float) -> pulp.LpAffineExpression:
        share = band.share_of
        held = [
            (offer.per_g[band.of] - (end * offer.per_g[share] if share else 0.0)) * offer.unit_g for offer in offers
        ]
        return pulp.LpAffineExpression(zip(amounts, held, strict=True))

    def right(end: float) -> float:
        return 0.0 if band.share_of else end

    if band.lower is not None:
        problem += left(band.lower) >= right(band.lower)
    if band.upper is not None:
        problem += left(band.upper) <= right(band.upper)
    if band.lower is not None and band.upper is not None and band.half is not None:
        middle = (band.upper + band.lower) / 2
        problem += left(middle) - band.half * deviation <= right(middle)
        problem += left(middle) + band.half * deviation >= right(middle)


def _add_most(problem: pulp.LpProblem, asked: Asked, amounts: Sequence[pulp.LpVariable]) -> None:
    used = [pulp.LpVariable(f"used{number}", cat="Binary") for number in range(len(amounts))]
    for offer, amount, switch in zip(asked.offers, amounts, used, strict=True):
        problem += amount <= (offer.most_g // offer.unit_g) * switch
    problem += pulp.lpSum(used) <= asked.most
