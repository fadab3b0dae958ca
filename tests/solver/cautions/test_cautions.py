"""The table of cautions as a whole."""

import csv
import re
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from reference_data import reference_folder
from solver.catalogue import Catalogue
from solver.cautions.caution import load_wordings
from solver.cautions.facts import facts_of
from solver.components import Component, Drippings, Placed
from solver.eater import CONDITIONS, Eater
from solver.errors import ReferenceDataError
from solver.foods import Food
from solver.outcome import Quantity
from solver.pantry import PantryItem
from tests.solver.cautions.dishes import BEEF, BUTTER, CAUTIONS, EGG, OLIVE_OIL, brief_of, dish_of, item, said
from tests.solver.larder import food

SOURCE = Path(__file__).parents[3] / "solver"
ROWS = list(csv.DictReader((reference_folder() / "cautions.csv").read_text(encoding="utf-8").splitlines()))


def test_every_caution_of_the_table_is_said_somewhere_and_none_else() -> None:
    code = "".join(path.read_text() for path in (SOURCE / "cautions").glob("*.py"))
    said_in_code = set(re.findall(r'"([a-z0-9]+(?:_[a-z0-9]+)*)"', code)) | {f"medical_{each}" for each in CONDITIONS}
    assert {row["code"] for row in ROWS} <= said_in_code
    called = set(re.findall(r'book\.caution\("(\w+)"', code))
    assert called <= {row["code"] for row in ROWS}
    assert {f"medical_{each}" for each in CONDITIONS} <= {row["code"] for row in ROWS}


@pytest.mark.parametrize("row", ROWS, ids=lambda row: str(row["code"]))
def test_a_text_is_a_few_sentences_and_never_suggests_potassium_chloride(row: dict[str, str]) -> None:
    assert row["text"].endswith(".")
    assert len(row["text"]) < 420
    assert re.search(r"potassium chloride|salt substitute|\bKCl\b", row["text"]) is None
    assert re.fullmatch(r"[a-z]+(_[a-z0-9]+)*", row["code"])


def test_a_code_that_stands_twice_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "cautions.csv"
    path.write_text("code,text,source,beside_a_step\na,One.,sr28,\na,Two.,sr28,\n")
    with pytest.raises(ReferenceDataError, match="line 3"):
        load_wordings(path)


def test_without_a_plan_only_what_has_to_go_in_is_looked_at() -> None:
    pan = Component("pan", "pan-fried")
    may = item("ground beef", BEEF, "pan")
    must = PantryItem("ground beef", BEEF, at_least_g=300, placed=(Placed("pan"),))
    either = PantryItem("ground beef", BEEF, at_least_g=300, placed=(Placed("pan"), Placed("table")))
    found = {
        name: {c.code for c in CAUTIONS(brief_of(each, components=(pan, Component("table"))), None, None)}
        for name, each in (("may", may), ("must", must), ("either", either))
    }
    assert found["may"] == found["either"] == set()
    assert "safe_temperature" in found["must"]


def test_what_is_in_the_pantry_and_not_in_the_dish_sets_nothing_off() -> None:
    beef, egg = item("ground beef", BEEF), item("egg", EGG)
    dish = dish_of(Quantity(beef, 100, None), Quantity(egg, 0, 0))
    assert [part.contents for part in facts_of(brief_of(beef, egg), dish, None).parts if len(part.contents) != 1] == []
    assert "raw_egg" not in {c.code for c in CAUTIONS(brief_of(beef, egg), dish, None)}


def test_a_caution_is_said_once_for_one_trigger() -> None:
    twice = [("garlic oil", OLIVE_OIL, 50.0), ("egg", EGG, 50.0), ("egg", EGG, 50.0)]
    assert said(Component("sauce"), *twice)["raw_egg"].trigger == "sauce: egg, not cooked"


foods = st.sampled_from([BEEF, BUTTER, EGG, OLIVE_OIL, food("pink salt {0}"), food("liver sausage"), food("collagen")])
words = st.text("aeglnoprst {}%<>é ", min_size=1, max_size=12)


@given(
    contents=st.lists(st.tuples(words, foods, st.floats(0.1, 5000)), min_size=1, max_size=5),
    name=words,
    method=st.sampled_from([None, "roasted", "braised", "broiled patty"]),
    form=st.sampled_from([None, "minced", "stuffed", "whole cut", "reheated", "casserole"]),
    drippings=st.sampled_from(list(Drippings)),
    eater=st.builds(
        Eater,
        age_years=st.none() | st.floats(0, 130),
        weight_kg=st.none() | st.floats(0.1, 700),
        meals_per_day=st.none() | st.floats(0.1, 24),
        pregnant=st.booleans(),
        conditions=st.lists(st.sampled_from(CONDITIONS), unique=True).map(tuple),
    ),
)
def test_no_dish_and_no_name_breaks_a_text(
    *,
    contents: list[tuple[str, Food, float]],
    name: str,
    method: str | None,
    form: str | None,
    drippings: Drippings,
    eater: Eater,
) -> None:
    cautions = said(Component(name, method, drippings, form=form), *contents, eater=eater)
    assert all(caution.trigger and caution.source for caution in cautions.values())


def test_every_food_of_the_table_can_be_looked_at_raw_and_cooked(catalogue: Catalogue) -> None:
    for method in (None, "roasted"):
        for food_id in catalogue.ids[::7]:
            said(Component("pan", method), ("it", catalogue.food(food_id), 100.0))
