"""What the cook names in place of something: as much as does the same, where that was."""

from dataclasses import replace

import pytest

from reference_data import reference_folder
from solver.backends import open_backend
from solver.brief import Brief
from solver.catalogue import Catalogue
from solver.closest import Base, BaseAmount
from solver.components import Component, Placed
from solver.outcome import Plan
from solver.pantry import PantryItem
from solver.rework import ReworkAsked, rework
from solver.rework_said import Said, Says
from solver.substitutes_named import named_of, with_named
from solver.substitutes_table import StandIns, load_stand_ins
from solver.targets import Target

#: Numbers in USDA SR28, and the components that each may go into.
PANTRY = {
    "butter": ("01001", ("sauce",)),
    "oil": ("04053", ("sauce", "greens")),
    "lard": ("04002", ("sauce",)),
    "spinach": ("11457", ("greens",)),
    "egg": ("01123", ("sauce",)),
    "flaxseed": ("12220", ("greens",)),
}
BASE = Base(
    (
        BaseAmount("butter", "sauce", 50.0),
        BaseAmount("oil", "sauce", 5.0),
        BaseAmount("egg", "sauce", 50.0),
        BaseAmount("oil", "greens", 10.0),
        BaseAmount("spinach", "greens", 200.0),
    )
)


@pytest.fixture(scope="module")
def stand_ins(catalogue: Catalogue) -> StandIns:
    return load_stand_ins(reference_folder(), catalogue)


@pytest.fixture(scope="module")
def asked(catalogue: Catalogue) -> Brief:
    pantry = tuple(
        PantryItem(name, catalogue.food(f"sr28:{number}"), placed=tuple(map(Placed, places)))
        for name, (number, places) in PANTRY.items()
    )
    parts = (Component("sauce"), Component("greens"))
    target = Target("energy", "energy_kcal", lower=50.0)
    return Brief("a dish", 2, pantry, (target,), components=parts, base=BASE, time_limit_s=10.0)


def instead(gone: str, *named: str) -> Said:
    return Said("said", Says.INSTEAD, frozenset({gone}), instead=frozenset(named))


def test_as_much_as_brings_the_same_fat_with_what_is_there(asked: Brief, stand_ins: StandIns) -> None:
    """By hand, SR28: 50 g of butter have 40.6 g of fat; 15 g of oil are in already."""
    found = {each.item: each for each in named_of([instead("butter", "oil", "lard")], asked, BASE, stand_ins)}
    assert {name: each.grams for name, each in found.items()} == pytest.approx({"oil": 55.6, "lard": 40.6}, abs=0.05)
    assert {each.components for each in found.values()} == {frozenset({"sauce"})}


def test_of_what_nobody_knows_the_same_weight(asked: Brief, stand_ins: StandIns) -> None:
    """Seven grams of flaxseed bind as an egg does, wherever the cook wants it; spinach for egg is as much."""
    found = named_of([instead("egg", "flaxseed", "spinach")], asked, BASE, stand_ins)
    assert [each.grams for each in found] == pytest.approx([7.0, 250.0], abs=0.05)


def test_all_there_is_where_there_is_less(asked: Brief, stand_ins: StandIns) -> None:
    pantry = tuple(replace(each, on_hand_g=20.0) if each.name == "lard" else each for each in asked.pantry)
    named = named_of([instead("butter", "lard")], asked, BASE, stand_ins)
    found = {item.name: item for item in with_named(replace(asked, pantry=pantry), BASE, named).pantry}
    assert (found["lard"].least_when_used_g, found["oil"].least_when_used_g) == (20.0, None)


def test_it_goes_where_the_other_was(asked: Brief, stand_ins: StandIns) -> None:
    """The oil of the sauce rises by what the butter brought, and that of the greens stays."""
    said = instead("butter", "oil")
    done = rework(ReworkAsked(asked, (said,), named=named_of([said], asked, BASE, stand_ins)), open_backend("highs"))
    assert isinstance(done.outcome, Plan)
    used = {(each.item.name, each.placed.component): each.grams for each in done.outcome.dish.quantities}
    assert used["oil", "sauce"] == pytest.approx(45.6, abs=0.1)
    assert used["oil", "greens"] == 10.0


def test_what_can_go_nowhere_there_may_go_where_it_can(asked: Brief, stand_ins: StandIns) -> None:
    named = named_of([instead("egg", "flaxseed")], asked, BASE, stand_ins)
    assert with_named(asked, BASE, named).rules == ()


def test_where_so_much_of_it_leads_to_no_dish_less_is_taken(asked: Brief, stand_ins: StandIns) -> None:
    """By hand: 40.6 g of lard are 366 kcal; 220 kcal a portion leave 440 for all, of which 264 go to the rest."""
    said = instead("butter", "lard")
    keep = tuple(Said(name, Says.KEEP, frozenset({name})) for name in ("oil", "egg", "spinach"))
    tight = replace(asked, targets=(Target("energy", "energy_kcal", upper=220.0),))
    named = named_of([said], asked, BASE, stand_ins)
    done = rework(ReworkAsked(tight, (said, *keep), named=named), open_backend("highs"))
    assert isinstance(done.outcome, Plan)
    assert 0 < {each.item.name: each.grams for each in done.outcome.dish.quantities}["lard"] < 40.0
