"""A dish of dishes is what is in them, on a plate as in the pot."""

from dataclasses import replace
from typing import TypeAlias

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from solver.brief import EnergyBasis
from solver.energy_eaten import macro_energy_kcal, macro_energy_kj
from solver.foods import Food, Polyols, SpecificFactors
from solver.used import Used
from tests.solver.dish_making import SALT, WATER, made, of
from tests.solver.larder import BREAD, BUTTER, CHICKEN, food

#: A food, or the parts of a dish with their grams and how much of its water evaporates, 0 to 1.
Tree: TypeAlias = "int | tuple[list[tuple[Tree, float]], float]"

LEAVES = (
    *(BUTTER, CHICKEN, BREAD, WATER, SALT),
    food("gap", protein_g=3.0, water_g=50.0, sodium_mg=7.0),
    replace(BREAD, id="x:1", factors=SpecificFactors(3.5, None, 3.9), polyols=Polyols(5, 3, 2, 4)),
    replace(CHICKEN, id="x:2", factors=SpecificFactors(4.27, 9.02, None)),
)

_GRAMS = st.floats(1.0, 500.0)


def _dishes_of(inside: st.SearchStrategy[Tree]) -> st.SearchStrategy[Tree]:
    return st.tuples(st.lists(st.tuples(inside, _GRAMS), min_size=1, max_size=3), st.sampled_from([0.0, 0.5, 0.99]))


def trees(depth: int) -> st.SearchStrategy[Tree]:
    leaf: st.SearchStrategy[Tree] = st.integers(0, len(LEAVES) - 1)
    inside = leaf if depth == 1 else leaf | trees(depth - 1)
    return _dishes_of(inside)


def grown(tree: Tree) -> tuple[Food, list[tuple[Food, float]], float]:
    """The dish nested as the tree says, the foods in all of it, and what it weighs."""
    if isinstance(tree, int):
        return LEAVES[tree], [(LEAVES[tree], 1.0)], 1.0
    parts, dried = tree
    leaves: list[tuple[Food, float]] = []
    quantities = []
    for number, (inside, grams) in enumerate(parts):
        part, own, weight = grown(inside)
        quantities.append(of(part, grams, f"part {number}"))
        leaves += [(leaf, amount * grams / weight) for leaf, amount in own]
    raw = sum(quantity.grams for quantity in quantities)
    water = sum(each.grams * np.nan_to_num(each.item.food.value("water_g")) / 100 for each in quantities)
    weight = max(raw - dried * water, 1.0)
    return made(*quantities, yield_g=float(weight)), leaves, float(weight)


@settings(max_examples=150)
@given(st.integers(1, 4).flatmap(trees))
def test_a_dish_flattened_equals_the_dish_nested(tree: Tree) -> None:
    nested, leaves, weight = grown(tree)
    flat = made(*(of(leaf, grams, str(number)) for number, (leaf, grams) in enumerate(leaves)), yield_g=weight)
    np.testing.assert_allclose(nested.per_100g, flat.per_100g, rtol=1e-9, atol=1e-9)
    assert nested.made is not None
    assert flat.made is not None
    for basis in EnergyBasis:
        for energy in ("kcal", "kj"):
            ours, theirs = getattr(nested.made, energy)[basis.value], getattr(flat.made, energy)[basis.value]
            np.testing.assert_allclose(ours, theirs, rtol=1e-9, atol=1e-9)
    assert [part.food.id for part in nested.made.ingredients] == [part.food.id for part in flat.made.ingredients]
    for ours, theirs in zip(nested.made.ingredients, flat.made.ingredients, strict=True):
        assert ours.grams == pytest.approx(theirs.grams, rel=1e-9)


@settings(max_examples=50)
@given(st.integers(1, 4).flatmap(trees), _GRAMS)
def test_a_dish_on_a_plate_has_the_energy_of_what_is_in_it(tree: Tree, grams: float) -> None:
    nested, leaves, weight = grown(tree)
    if any(leaf.name == "gap" for leaf, _ in leaves):
        return
    whole = [Used(of(nested, grams), {})]
    apart = [Used(of(leaf, amount * grams / weight), {}) for leaf, amount in leaves]
    for basis in EnergyBasis:
        assert macro_energy_kcal(whole, basis).total == pytest.approx(macro_energy_kcal(apart, basis).total, rel=1e-9)
        kj = macro_energy_kj(apart, basis)
        if kj is not None:
            found = macro_energy_kj(whole, basis)
            assert found is not None
            assert found.total == pytest.approx(kj.total, rel=1e-9)


def test_a_dish_that_doubles_through_two_hundred_others_is_made_at_once() -> None:
    dish = made(of(BUTTER, 10.0), of(WATER, 90.0))
    for _ in range(200):
        dish = made(of(dish, 10.0, "one"), of(dish, 10.0, "other"))
    assert dish.value("fat_g") == pytest.approx(8)
    assert dish.made is not None
    assert len(dish.made.ingredients) == 2
