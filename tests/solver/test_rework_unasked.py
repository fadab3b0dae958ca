"""What nobody asks for more of stays in proportion, unless the cook, a target or a rule is about it."""

from dataclasses import replace

import pytest

from solver.backends import open_backend
from solver.brief import Brief
from solver.catalogue import Catalogue
from solver.closest import Base, BaseAmount
from solver.outcome import Conflict, Plan
from solver.pantry import PantryItem, Step
from solver.rework import ReworkAsked, rework
from solver.rework_said import Said, Says
from solver.rework_unasked import MOST_NEW_G, MOST_TIMES, unasked, with_unasked_kept
from solver.rules import By, Group, Rule
from solver.targets import Target

DISH = "the dish"
CREAM, PEPPER, SALT, CURRY = "sr28:01053", "sr28:02030", "sr28:02047", "sr28:02015"


@pytest.fixture(scope="module")
def sauce(catalogue: Catalogue) -> Brief:
    """300 g of cream, 6 g of pepper, 3 g of salt, and curry powder that the dish has none of; for two."""
    names = {"cream": CREAM, "pepper": PEPPER, "salt": SALT, "curry": CURRY}
    pantry = tuple(PantryItem(name, catalogue.food(number)) for name, number in names.items())
    base = Base(
        tuple(BaseAmount(name, DISH, grams) for name, grams in (("cream", 300.0), ("pepper", 6.0), ("salt", 3.0)))
    )
    target = Target("energy", "energy_kcal", lower=100.0)
    return Brief("a sauce", 2, pantry, (target,), base=base, time_limit_s=10.0)


def most(brief: Brief, *said: Said) -> dict[str, float | None]:
    assert brief.base is not None
    return {item.name: item.at_most_g for item in with_unasked_kept(brief, brief.base, said).pantry}


def test_at_most_twice_as_much_or_a_gram_a_portion(sauce: Brief) -> None:
    assert most(sauce) == {
        "cream": 4 * 300.0,
        "pepper": MOST_TIMES * 6.0,
        "salt": MOST_TIMES * 3.0,
        "curry": MOST_NEW_G * 2,
    }


@pytest.mark.parametrize(
    "said",
    [
        Said("s", Says.MORE, frozenset({"pepper"})),
        Said("s", Says.ABOUT, frozenset({"pepper"}), factor=5.0),
        Said("s", Says.INSTEAD, frozenset({"salt"}), instead=frozenset({"pepper"})),
    ],
)
def test_what_the_cook_asks_for_is_free(sauce: Brief, said: Said) -> None:
    assert most(sauce, said)["pepper"] is None
    assert most(sauce, replace(said, says=Says.LESS, instead=frozenset()))["pepper"] is not None


def test_salt_is_free_where_a_target_or_a_rule_is_about_it(sauce: Brief) -> None:
    every = Group(frozenset(item.name for item in sauce.pantry))
    of_salt = replace(sauce, rules=(Rule("salty enough", every, By.SALT, every, lower=0.01),))
    of_sodium = replace(sauce, targets=(Target("na", "sodium_mg", lower=900.0),))
    for asked in (of_salt, of_sodium):
        assert most(asked)["salt"] is None
        assert most(asked)["pepper"] == 12.0


def test_a_rule_that_asks_for_a_seasoning_has_it(sauce: Brief) -> None:
    rule = Rule("hot", Group(frozenset({"pepper"})), lower=20.0)
    assert most(replace(sauce, rules=(rule,)))["pepper"] is None
    assert most(replace(sauce, rules=(replace(rule, lower=None, upper=20.0),)))["pepper"] == 12.0


def test_its_own_limits_and_steps_stay(sauce: Brief) -> None:
    def with_pepper(**fields: object) -> Brief:
        pantry = tuple(replace(each, **fields) if each.name == "pepper" else each for each in sauce.pantry)  # type: ignore[arg-type]
        return replace(sauce, pantry=pantry)

    assert most(with_pepper(at_most_g=5.0))["pepper"] == 5.0
    assert most(with_pepper(at_most_g=50.0))["pepper"] == 12.0
    assert most(with_pepper(at_least_g=15.0))["pepper"] == 15.0
    assert most(with_pepper(least_when_used_g=14.0))["pepper"] == 14.0
    assert most(with_pepper(step=Step(1.0, "jar", 30.0)))["pepper"] == 30.0
    settled = with_pepper(at_least_g=6.0, at_most_g=6.0, step=Step(6.0, "g", 6.0))
    assert most(settled)["pepper"] == 6.0


def test_food_becomes_four_times_as_much_or_ten_grams_a_portion_and_new_food_is_free(
    sauce: Brief, catalogue: Catalogue
) -> None:
    """By hand, for two: 4 x 300 g; 4 x 3 g of butter are less than 20 g; 4 x 0.2 g of gelatine less than 2 g."""
    numbers = {"butter": "sr28:01001", "gelatine": "sr28:19177", "egg": "sr28:01123", "oil": "sr28:04053"}
    more = tuple(PantryItem(name, catalogue.food(number)) for name, number in numbers.items())
    assert sauce.base is not None
    there = (("butter", 3.0), ("gelatine", 0.2), ("egg", 100.0))
    base = Base((*sauce.base.amounts, *(BaseAmount(name, DISH, grams) for name, grams in there)))
    found = most(replace(sauce, pantry=(*sauce.pantry, *more), base=base))
    assert [found[name] for name in ("cream", "butter", "gelatine", "egg", "oil")] == [1200.0, 20.0, 2.0, 400.0, None]


def test_whose_most_amount_nobody_set_is_known(sauce: Brief) -> None:
    pantry = tuple(replace(each, at_most_g=5.0) if each.name == "pepper" else each for each in sauce.pantry)
    asked = replace(sauce, pantry=pantry)
    assert asked.base is not None
    assert unasked(asked, with_unasked_kept(asked, asked.base, ())) == {"cream", "salt", "curry"}
    more = Said("more cream", Says.MORE, frozenset({"cream"}))
    assert unasked(asked, with_unasked_kept(asked, asked.base, (more,))) == {"salt", "curry"}


def test_protein_is_not_sought_in_pepper(sauce: Brief) -> None:
    """By hand, SR28: 400 g of cream bring 11.4 g of protein, and 12 g of pepper 1.2 g; 20 g take 70 g of it more."""
    wanted = replace(sauce, targets=(Target("protein", "protein_g", lower=10.0),))
    pantry = tuple(replace(each, on_hand_g=400.0) if each.name == "cream" else each for each in wanted.pantry)
    wanted = replace(wanted, pantry=pantry)
    done = rework(ReworkAsked(wanted), open_backend("highs"))
    assert isinstance(done.outcome, Conflict)
    asked = Said("more pepper", Says.MORE, frozenset({"pepper"}))
    assert isinstance(rework(ReworkAsked(wanted, (asked,)), open_backend("highs")).outcome, Plan)
