"""Where an item goes: into one component or several, and what is refused of it."""

import httpx2
import pytest

from tests.service.asking import places_of, plan_for, problem_of
from tests.service.briefs import PATTIES, TABLE, Document, brief, food, mince, tallow, two_parts
from tests.service.conftest import Refusals, Translate


def test_an_item_goes_where_it_is_told_to_and_nowhere_else(translate: Translate) -> None:
    items = translate(two_parts(mince(), tallow(), food("cheese", "01009", goes_in=["at the table"]))).pantry
    assert [[placed.component for placed in item.placed] for item in items] == [
        ["patties"],
        ["patties", "at the table"],
        ["at the table"],
    ]


def test_with_one_component_nothing_needs_to_be_said(translate: Translate) -> None:
    (item,) = translate(brief(food("mince", "13498"), components=[PATTIES])).pantry
    assert [placed.component for placed in item.placed] == ["patties"]


def test_padding_of_a_component_is_no_part_of_its_name(translate: Translate) -> None:
    (item,) = translate(two_parts(tallow(goes_in=[" patties", "at the table "]))).pantry
    assert [placed.component for placed in item.placed] == ["patties", "at the table"]


@pytest.mark.parametrize(
    ("document", "pointer", "code"),
    [
        (two_parts(food("mince", "13498")), "/pantry/0/goes_in", "goes_nowhere"),
        (two_parts(mince(goes_in=["pattys"])), "/pantry/0/goes_in/0", "unknown_component"),
        (two_parts(mince(goes_in=["at the table", "Patties"])), "/pantry/0/goes_in/1", "unknown_component"),
        (two_parts(mince(), tallow(goes_in=["patties", "patties"])), "/pantry/1/goes_in/1", "repeated"),
        (two_parts(mince(), tallow(goes_in=["patties", " patties"])), "/pantry/1/goes_in/1", "repeated"),
        (brief(mince()), "/pantry/0/goes_in", "no_components"),
    ],
)
def test_each_refusal_names_the_place(refusals: Refusals, document: Document, pointer: str, code: str) -> None:
    assert refusals(document) == [(pointer, code)]


def test_an_unknown_component_is_met_with_its_neighbours(client: httpx2.Client) -> None:
    (problem,) = problem_of(client, two_parts(mince(goes_in=["pattys"])))["problems"]
    assert "Near it: patties" in problem["remedy"]


def test_an_open_amount_in_a_finished_component_is_refused_where_the_item_stands(client: httpx2.Client) -> None:
    done = {**PATTIES, "finished": True}
    for item in (mince(), mince(at_least="900 g")):
        assert places_of(problem_of(client, brief(item, components=[done, TABLE]))) == [("/pantry/0", "not_settled")]
    settled = [mince(already_in="900 g"), tallow()]
    assert places_of(problem_of(client, brief(*settled, components=[done, TABLE]))) == [("/pantry/1", "not_settled")]


@pytest.mark.parametrize(
    ("weighed", "pointer", "code"),
    [
        ({"drippings_weight": "271 g"}, "/components/0/drippings_weight", "drippings_exceed_fat"),
        ({"cooked_weight": "902 g"}, "/components/0/cooked_weight", "heavier_than_raw"),
        ({"cooked_weight": "800 g", "drippings_weight": "102 g"}, "/components/0/cooked_weight", "heavier_than_raw"),
        ({"cooked_weight": "90 g", "drippings_weight": "170 g"}, "/components/0/cooked_weight", "lighter_than_its_fat"),
    ],
)
def test_weights_that_cannot_be_are_refused_where_they_stand(
    client: httpx2.Client, weighed: Document, pointer: str, code: str
) -> None:
    # 900 g of mince with 30 % fat hold 270 g of fat, and nothing of it can weigh more than 900 g.
    document = brief(mince(already_in="900 g"), components=[{**PATTIES, **weighed}, TABLE])
    assert places_of(problem_of(client, document)) == [(pointer, code)]


ENERGY: Document = {"of": "energy_kcal", "at_least": 100}


def test_the_water_of_a_mix_is_planned_raw_or_not_at_all(client: httpx2.Client) -> None:
    water: Document = {"of": "water_g", "per": "batch", "at_most": 600}
    assert places_of(problem_of(client, two_parts(mince(), targets=[water, ENERGY]))) == [
        ("/targets/0", "water_of_mix")
    ]
    plan = plan_for(client, two_parts(mince(), targets=[{**water, "basis": "raw"}, ENERGY]))
    assert plan["raw"]["nutrients"]["water_g"] <= 600


def test_a_weight_of_nothing_is_refused(client: httpx2.Client) -> None:
    weighed = [{**PATTIES, "cooked_weight": "500 g"}, TABLE]
    document = brief(mince(goes_in=["at the table"]), components=weighed)
    assert ("/components/0", "nothing_weighed") in places_of(problem_of(client, document))
