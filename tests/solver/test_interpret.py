from dataclasses import replace

import numpy as np
import pytest

from solver.formulate import Formulation
from solver.interpret import amounts_of
from solver.outcome import Quantity
from solver.pantry import Step
from tests.solver.larder import BREAD, BUTTER, CHICKEN, between, brief, food, item, posed

EGG = replace(item(CHICKEN), name="egg", step=Step(1, "large", 50.0))


def quantities(formulation: Formulation, *amounts: float) -> tuple[Quantity, ...]:
    return amounts_of(formulation, np.array(amounts)).quantities


def test_amounts_come_back_in_the_order_of_the_brief_and_not_of_the_columns() -> None:
    formulation = posed(brief(EGG, item(BUTTER), item(BREAD)))
    assert [one.name for one in formulation.layout.items] == ["bread", "butter", "egg"]
    found = quantities(formulation, 0.305, 0.25, 2.0)
    assert [(one.item.name, one.grams, one.steps) for one in found] == [
        ("egg", 100.0, 2),
        ("butter", 25.0, None),
        ("bread", 30.5, None),
    ]


def test_what_is_not_used_is_not_listed() -> None:
    found = quantities(posed(brief(EGG, item(BUTTER), item(BREAD))), 0.0, 0.25, 0.0)
    assert [one.item.name for one in found] == ["butter"]


@pytest.mark.parametrize("tenths", [1, 3, 7, 12, 1234, 99999])
def test_weighed_grams_are_the_printed_number_itself(tenths: int) -> None:
    (found,) = quantities(posed(brief(item(BUTTER))), tenths * 0.1 / 100)
    assert found.grams == float(f"{tenths // 10}.{tenths % 10}")


def test_a_count_is_a_whole_number_even_after_a_solver() -> None:
    (found,) = quantities(posed(brief(EGG)), 2.9999999)
    assert (found.steps, found.grams) == (3, 150)
    assert isinstance(found.steps, int)


def test_on_the_grid_a_unit_is_a_tenth_of_a_gram() -> None:
    (found,) = quantities(posed(brief(item(BUTTER)), grid=True), 123.0)
    assert (found.grams, found.steps) == (12.3, None)


def test_items_are_those_of_the_brief_without_what_was_counted_for_them() -> None:
    butter, stock = item(BUTTER), item(food("stock"))
    asked = replace(
        brief(butter, stock, targets=(between("sodium_mg", 1.0, None),)), count_missing_as={"sodium_mg": 250.0}
    )
    found = quantities(posed(asked), 1.0, 1.0)
    assert [one.item for one in found] == [butter, stock]
    assert found[0].item.food.is_missing("sodium_mg")
