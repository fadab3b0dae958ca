"""Asking what limits are worth, for tests of several modules."""

from dataclasses import replace

from solver.backends import open_backend
from solver.brief import Brief, EnergyBasis, Preference
from solver.deadline import Deadline
from solver.outcome import Plan
from solver.pantry import PantryItem
from solver.solve import solve
from solver.targets import Per, Target
from solver.worth import Worth, worth
from tests.solver import larder


def planned(brief: Brief, backend: str = "highs") -> Plan:
    plan = solve(brief, open_backend(backend))
    assert isinstance(plan, Plan), plan
    return plan


def worths(brief: Brief, backend: str = "highs", *, seconds: float = 30.0) -> dict[tuple[str, str], Worth]:
    """By name and end, of the only preference."""
    return {(one.name, one.end): one for one in every(brief, backend, seconds=seconds)}


def every(brief: Brief, backend: str = "highs", *, seconds: float = 30.0) -> tuple[Worth, ...]:
    return worth(planned(brief, backend), open_backend(backend), Deadline.after(seconds))


def said(one: Worth) -> tuple[float, float]:
    """What one unit more and one unit less does, where both are said."""
    assert one.more is not None, one.more_reason
    assert one.less is not None, one.less_reason
    return one.more, one.less


def batch(of: str, lower: float | None, upper: float | None = None) -> Target:
    return Target(of, of, Per.BATCH, lower, upper)


def cheapest(*items: PantryItem, targets: tuple[Target, ...], portions: int = 1) -> Brief:
    asked = replace(larder.brief(*items, targets=targets, portions=portions), prefer=(Preference.CHEAPEST,))
    return replace(asked, energy_basis=EnergyBasis.DECLARED)


def priced(name: str, price_per_100g: float, **per_100g: float) -> PantryItem:
    """A food of what is given, and of nothing else that a target could ask for."""
    return PantryItem(name, larder.food(name, **per_100g), price_per_g=price_per_100g / 100)


def pure(*prices_per_100g: float) -> tuple[PantryItem, ...]:
    """Pure protein, fat and carbohydrate."""
    prices = prices_per_100g or (1.0, 1.0, 1.0)
    return tuple(replace(larder.item(of), price_per_g=p / 100) for of, p in zip(larder.PURE, prices, strict=True))
