"""Components on the way in: how each is cooked, what the scale said of it, and what is refused of it."""

from typing import Any

import pytest

from solver.brief import Brief
from solver.components import Component, Drippings
from solver.errors import UnusableBrief
from tests.service.briefs import Document, brief, food, mince, tallow, two_parts
from tests.service.conftest import Read, Refusals, Translate

MINCE = food("mince", "13498", already_in="900 g")


def cooked(**fields: Any) -> Document:  # noqa: ANN401  any field of a component
    return brief(MINCE, components=[{"name": "patties", **fields}])


def only_component(translated: Brief) -> Component:
    (component,) = translated.components
    return component


def test_a_mix_has_the_curve_of_its_name_and_pieces_have_none(translate: Translate) -> None:
    patty = only_component(translate(cooked(method="broiled patty")))
    assert patty.curve is not None
    assert (patty.curve.mix, patty.method, patty.is_mix) == ("broiled patty", "broiled patty", True)
    roast = only_component(translate(cooked(method="roasted")))
    assert (roast.curve, roast.method) == (None, "roasted")


SERVED, SPOONED = {"drippings": "served"}, {"drippings": "spooned back"}


def test_drippings_are_discarded_where_nothing_is_said_of_them(translate: Translate) -> None:
    fates = [only_component(translate(cooked(method="roasted", **said))).drippings for said in ({}, SERVED, SPOONED)]
    assert fates == [Drippings.DISCARDED, Drippings.SERVED, Drippings.SPOONED_BACK]


def test_without_components_everything_is_eaten_as_it_is(translate: Translate) -> None:
    translated = translate(brief(food("mince", "13498")))
    assert translated.components == ()
    assert [each.component for each in translated.pantry[0].placed] == ["the dish"]


def test_everything_said_of_a_component_arrives(translate: Translate) -> None:
    said = {"cooked_weight": "1 lb", "drippings_weight": {"value": 140, "unit": "g"}}
    roll = only_component(translate(cooked(name=" roll ", method="baked loaf", form="rolled", minutes=45, **said)))
    assert (roll.name, roll.form, roll.minutes) == ("roll", "rolled", 45)
    # The avoirdupois pound (UCUM 2.2).
    assert roll.cooked_g == pytest.approx(453.59237)
    assert roll.drippings_g == 140


@pytest.mark.parametrize("field", ["cooked_weight", "drippings_weight"])
def test_what_was_weighed_is_finished(translate: Translate, field: str) -> None:
    assert only_component(translate(cooked(method="broiled patty", **{field: "120 g"}))).finished
    assert only_component(translate(cooked(method="broiled patty", finished=True))).finished
    assert not only_component(translate(cooked(method="broiled patty"))).finished


@pytest.mark.parametrize(
    ("fields", "pointer", "code"),
    [
        ({"method": "broiled patties"}, "method", "unknown_method"),
        ({"method": "Broiled patty"}, "method", "unknown_method"),
        ({"name": "two\nlines", "method": "roasted"}, "name", "not_printable"),
        ({"name": " "}, "name", "blank"),
        ({"drippings": "served"}, "drippings", "not_cooked"),
        ({"drippings": "discarded"}, "drippings", "not_cooked"),
        ({"minutes": 20}, "minutes", "not_cooked"),
        ({"cooked_weight": "500 g"}, "cooked_weight", "not_cooked"),
        ({"drippings_weight": "50 g"}, "drippings_weight", "not_cooked"),
        ({"method": "roasted", "cooked_weight": "0 g"}, "cooked_weight", "not_positive"),
        ({"method": "roasted", "cooked_weight": "half"}, "cooked_weight", "unreadable_amount"),
        ({"method": "roasted", "cooked_weight": "2 cups"}, "cooked_weight", "no_density"),
        ({"method": "roasted", "drippings_weight": "3 tbsp"}, "drippings_weight", "no_density"),
    ],
)
def test_each_refusal_of_a_component_has_its_place(
    refusals: Refusals, fields: Document, pointer: str, code: str
) -> None:
    assert refusals(cooked(**fields)) == [(f"/components/0/{pointer}", code)]


def test_an_unknown_method_is_met_with_its_neighbours(read: Read) -> None:
    with pytest.raises(UnusableBrief) as refused:
        read(cooked(method="broiled patties"))
    assert "Near it: broiled patty" in refused.value.problems[0].remedy


def test_two_components_of_one_name_are_refused(refusals: Refusals) -> None:
    twice = [{"name": "patties", "method": "broiled patty"}, {"name": " Patties"}]
    assert refusals(brief(food("mince", "13498", goes_in=["patties"]), components=twice)) == [
        ("/components/1/name", "repeated_name")
    ]


def test_an_item_in_a_refused_component_is_not_refused_as_well(refusals: Refusals) -> None:
    wrong = {"name": "patties", "method": "grilled on stones"}
    assert refusals(brief(mince(), components=[wrong])) == [("/components/0/method", "unknown_method")]


def test_an_item_has_its_row_among_pieces_and_none_in_a_mix(translate: Translate) -> None:
    thigh = food("thigh", "05091")
    (roasted,) = translate(brief(thigh, components=[{"name": "pan", "method": "roasted"}])).pantry[0].placed
    assert roasted.row is not None
    assert (roasted.row.method, roasted.row.measured, roasted.why) == ("roasted", True, roasted.row.why)
    (mixed,) = translate(cooked(method="broiled patty")).pantry[0].placed
    assert mixed.row is None
    assert "11" in mixed.why, "the curve says from how many pairs"


def test_a_fat_among_pieces_melts_and_at_the_table_it_does_not(translate: Translate) -> None:
    pan = [{"name": "pan", "method": "roasted"}, {"name": "at the table"}]
    fat = tallow(goes_in=["pan", "at the table"])
    label = {"kind": "label", "per": "100 g", "protein_g": 0, "total_carbohydrate_g": 0}
    lard = {"name": "lard", "source": {**label, "fat_g": 99}, "goes_in": ["pan"]}
    cheese = {"name": "cheese", "source": {**label, "fat_g": 33}, "goes_in": ["pan"]}
    items = translate(brief(fat, lard, cheese, components=pan)).pantry
    assert [[each.melts for each in item.placed] for item in items] == [[True, False], [True], [False]]
    assert "counted as it was raw" in items[2].placed[0].why


def test_tallow_in_a_mix_is_part_of_the_mix(translate: Translate) -> None:
    in_patties, at_table = translate(two_parts(mince(), tallow())).pantry[1].placed
    assert (in_patties.component, in_patties.melts, at_table.component) == ("patties", False, "at the table")


def test_minerals_leave_with_the_juices_and_stay_where_those_are_eaten(translate: Translate) -> None:
    # USDA Table of Nutrient Retention Factors, Release 6 (2007), row 1451, cured pork broiled (second hand).
    ham = food("ham", "10142")
    poured, served = (
        translate(brief(ham, components=[{"name": "pan", "method": "broiled", "drippings": fate}])).pantry[0].placed[0]
        for fate in ("discarded", "served")
    )
    lost = {"sodium_mg": 0.9, "potassium_mg": 0.85, "phosphorus_mg": 0.9, "thiamin_mg": 0.7}
    assert {name: poured.retention[name] for name in lost} == lost
    assert {name: served.retention.get(name) for name in lost} == {**dict.fromkeys(lost), "thiamin_mg": 0.7}


def test_alcohol_stays_by_the_minutes_that_are_given(translate: Translate) -> None:
    # The same release, alcohol rows: stirred in and simmered 15 min 40 %, 1 h 25 % (second hand).
    for minutes, left in ((15, 0.4), (60, 0.25)):
        pot = [{"name": "pot", "method": "braised", "minutes": minutes}]
        (placed,) = translate(brief(food("red wine", "14096"), components=pot)).pantry[0].placed
        assert placed.retention["alcohol_g"] == left
