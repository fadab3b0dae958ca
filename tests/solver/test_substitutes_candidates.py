"""What is tried in place of what is left out, and in what order; and how much of it may stand in."""

from collections.abc import Callable
from dataclasses import replace

import pytest

from reference_data import reference_folder
from solver.brief import Brief
from solver.catalogue import Catalogue
from solver.closest import Base, BaseAmount
from solver.components import Placed
from solver.pantry import PantryItem, Step
from solver.practical import Eligible
from solver.rework import ReworkAsked
from solver.substitutes_candidates import Candidate, Candidates
from solver.substitutes_posed import replaced
from solver.substitutes_suited import LeftOut
from solver.substitutes_table import load_stand_ins

DISH = "the dish"

#: Numbers in USDA SR28; the dish is of the first three.
FOODS = {"mince": "23572", "egg": "01123", "butter": "01001"}
MORE = {"yolk": "01125", "flaxseed": "12220", "ghee": "01003", "oil": "04053"}
BASE = Base((BaseAmount("mince", DISH, 500.0), BaseAmount("egg", DISH, 50.0), BaseAmount("butter", DISH, 40.0)))

Tried = Callable[..., list[Candidate]]


@pytest.fixture(scope="module")
def items(catalogue: Catalogue) -> dict[str, PantryItem]:
    return {name: PantryItem(name, catalogue.food(f"sr28:{number}")) for name, number in {**FOODS, **MORE}.items()}


@pytest.fixture(scope="module")
def tried(catalogue: Catalogue, items: dict[str, PantryItem]) -> Tried:
    """What is tried for an item, with more items at home; `gone` are left out as well."""
    stand_ins = load_stand_ins(reference_folder(), catalogue)

    def found(of: str, *home: PantryItem, gone: tuple[str, ...] = (), base: Base = BASE) -> list[Candidate]:
        brief = Brief("a dish", 4, (*(items[name] for name in FOODS), *home), (), base=base)
        left = LeftOut.of(items[of], None, brief, base, stand_ins)
        eligible = Eligible((), lambda _: True)
        place = lambda _, part: Placed(part.name)  # noqa: E731
        return list(Candidates(brief, base, frozenset({of, *gone}), eligible, stand_ins, place).of(left))

    return found


def test_at_home_the_order_is_that_of_the_table_and_not_of_likeness(tried: Tried, items: dict[str, PantryItem]) -> None:
    """Yolk is more like an egg than flaxseed, which comes first since it is no egg."""
    found = tried("egg", items["yolk"], items["flaxseed"])
    assert [each.item.name for each in found[:2]] == ["flaxseed", "yolk"]


def test_what_is_in_already_is_in_and_stands_in_for_nothing(tried: Tried, items: dict[str, PantryItem]) -> None:
    oil = replace(items["oil"], on_hand_g=20.0, at_least_g=20.0, at_most_g=20.0, step=Step(20.0, "g", 20.0))
    assert "oil" in {each.item.name for each in tried("butter", items["oil"])}
    assert "oil" not in {each.item.name for each in tried("butter", oil)}


def test_no_other_form_of_what_is_left_out_too(tried: Tried, items: dict[str, PantryItem]) -> None:
    """Unsalted butter stands in for ghee, but not where butter is left out as well."""
    base = replace(BASE, amounts=(*BASE.amounts, BaseAmount("ghee", DISH, 20.0)))
    alone, both = (tried("ghee", items["ghee"], gone=gone, base=base) for gone in ((), ("butter",)))
    assert "butter" in {each.kind for each in alone}
    assert "butter" not in {each.kind for each in both}


def test_how_far_it_may_be_from_what_stands_for_the_item(
    tried: Tried, items: dict[str, PantryItem], catalogue: Catalogue
) -> None:
    """By hand: 7 g of seeds for an egg, a fifth less to a quarter more; 32.4 g of oil for butter, half to twice."""
    stand_ins = load_stand_ins(reference_folder(), catalogue)
    for of, home, limits in (("egg", "flaxseed", [5.6, 8.75]), ("butter", "oil", [16.2, 64.8])):
        brief = Brief("a dish", 4, tuple(items[name] for name in (*FOODS, home)), (), base=BASE)
        left = LeftOut.of(items[of], None, brief, BASE, stand_ins)
        candidate = next(each for each in tried(of, items[home]) if each.item.name == home)
        posed = replaced(ReworkAsked(brief), None, [(left, candidate)])
        assert posed is not None
        item = next(each for each in posed.brief.pantry if each.name == home)
        assert [item.at_least_g, item.at_most_g] == pytest.approx(limits, abs=0.06)
