import math

import pytest

from solver.catalogue import Catalogue
from solver.rules import By, Group, Rule, counted_g
from tests.solver.larder import food


def test_a_group_without_a_component_holds_its_items_wherever_they_go() -> None:
    group = Group(frozenset({"egg", "mince"}))
    assert group.holds("egg", "patties")
    assert group.holds("egg", "at the table")
    assert not group.holds("butter", "patties")


def test_a_group_of_a_component_holds_only_what_goes_in_there() -> None:
    group = Group(frozenset({"egg"}), "patties")
    assert group.holds("egg", "patties")
    assert not group.holds("egg", "at the table")
    assert not group.holds("mince", "patties")


def test_an_amount_is_in_grams_and_a_ratio_in_grams_per_gram() -> None:
    group = Group(frozenset({"egg"}))
    assert Rule("eggs", group, lower=1.0).unit == "g"
    assert Rule("binder", group, to=Group(frozenset({"mince"})), lower=0.07).unit == "g/g"


def test_a_gram_weighs_a_gram_whatever_it_is() -> None:
    assert counted_g(food("stock"), By.RAW_MASS) == 1
    assert counted_g(food("salt", sodium_mg=38758.0), By.RAW_MASS, 500.0) == 1


@pytest.mark.parametrize(("sodium_mg", "salt_g"), [(0, 0), (400, 0.01), (1000, 0.025), (40000, 1)])
def test_salt_is_two_and_a_half_times_sodium(sodium_mg: float, salt_g: float) -> None:
    # Regulation (EU) No 1169/2011, Annex I: salt = sodium x 2.5. Sodium is in mg per 100 g.
    assert counted_g(food("brine", sodium_mg=sodium_mg), By.SALT) == pytest.approx(salt_g, abs=1e-15)


def test_table_salt_is_nearly_all_salt(catalogue: Catalogue) -> None:
    # USDA SR28 02047: 38,758 mg sodium in 100 g.
    assert counted_g(catalogue.food("sr28:02047"), By.SALT) == pytest.approx(0.96895, abs=1e-9)


def test_unknown_sodium_counts_as_the_brief_says_and_known_sodium_as_it_is() -> None:
    assert counted_g(food("stock"), By.SALT, 800.0) == pytest.approx(0.02)
    assert counted_g(food("stock", sodium_mg=400.0), By.SALT, 800.0) == pytest.approx(0.01)
    assert not math.isnan(counted_g(food("stock"), By.SALT))
