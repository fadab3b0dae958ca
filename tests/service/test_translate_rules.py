"""Rules as they come in: what they name and cite, what is refused and where, and how they go out."""

from typing import Any

import pytest

from service.translate.rules import to_rule_answer
from solver.outcome import RuleResult
from solver.rules import By, Group, Rule
from tests.service.briefs import Document, brief, food, two_parts
from tests.service.conftest import Refusals, Translate

MINCE = food("mince", "23572", goes_in=["patties"])
EGG = food("egg", "01123", goes_in=["patties", "at the table"])
BUTTER = food("butter", "01145", goes_in=["at the table"])

Rules = list[dict[str, Any]]


def ruled(*rules: Document) -> Document:
    return two_parts(MINCE, EGG, BUTTER, rules=list(rules))


def names(*items: str, component: str | None = None) -> Group:
    return Group(frozenset(items), component)


def test_a_brief_without_rules_has_none(translate: Translate) -> None:
    assert translate(brief(MINCE | {"goes_in": None})).rules == ()


def test_a_rule_of_ones_own_is_read_field_by_field(translate: Translate) -> None:
    own = {"id": "tray", "of": ["mince", "egg"], "component": "patties", "at_most": 900, "priority": 3}
    (rule,) = translate(ruled(own)).rules
    assert rule == Rule("tray", names("mince", "egg", component="patties"), upper=900.0, priority=3)


def test_a_rule_without_a_name_is_called_by_its_place_and_one_that_cites_by_what_it_cites(translate: Translate) -> None:
    cited = {"cites": "binder", "of": ["egg"], "to": ["mince"]}
    rules = translate(ruled({"of": ["egg"], "at_most": 100}, cited, {**cited, "id": "mine"})).rules
    assert [rule.id for rule in rules] == ["rule 1", "binder", "mine"]


def test_a_cited_rule_brings_its_band_and_what_it_counts(translate: Translate) -> None:
    binder = {"cites": "binder", "of": ["egg"], "to": ["mince"]}
    salt = {"cites": "salt of patties", "of": ["*"], "to": ["*"], "component": "patties"}
    first, second = translate(ruled(binder, salt)).rules
    assert (first.by, first.lower, first.upper) == (By.RAW_MASS, 0.07, 0.11)
    assert first.cites == "binder: egg to mince (kitchen-rules)"
    assert (second.by, second.lower, second.upper) == (By.SALT, 0.010, 0.015)


@pytest.mark.parametrize(
    ("ends", "band"), [({"at_least": 0.1}, (0.1, None)), ({"at_most": 0.2}, (None, 0.2)), ({"at_most": 0}, (None, 0))]
)
def test_one_end_of_ones_own_replaces_both_of_the_cited_band(
    translate: Translate, ends: Document, band: tuple[float | None, float | None]
) -> None:
    (rule,) = translate(ruled({"cites": "binder", "of": ["egg"], "to": ["mince"], **ends})).rules
    assert (rule.lower, rule.upper) == band
    assert rule.cites == "binder: egg to mince (kitchen-rules; its band is the brief's own)"


def test_what_is_counted_may_be_said_beside_what_is_cited(translate: Translate) -> None:
    (rule,) = translate(ruled({"cites": "salt of patties", "by": "raw mass", "of": ["egg"], "to": ["mince"]})).rules
    assert rule.by is By.RAW_MASS
    (own,) = translate(ruled({"by": "salt", "of": ["egg"], "at_most": 1})).rules
    assert own.by is By.SALT


def test_a_star_is_every_item_and_a_name_may_stand_twice_and_padded(translate: Translate) -> None:
    star, twice = translate(
        ruled({"of": ["*"], "at_most": 900}, {"of": ["egg", " egg ", "egg"], "to": ["butter", "*"], "at_most": 1})
    ).rules
    assert star.of == names("mince", "egg", "butter")
    assert twice.of == names("egg")
    assert twice.to == names("mince", "egg", "butter")


def test_the_component_holds_for_both_groups(translate: Translate) -> None:
    (rule,) = translate(ruled({"of": ["egg"], "to": ["*"], "component": "patties", "at_most": 0.1})).rules
    assert rule.of.component == "patties"
    assert rule.to is not None
    assert rule.to.component == "patties"


@pytest.mark.parametrize(
    ("rule", "refused"),
    [
        ({"of": ["lard"], "at_most": 1}, [("/rules/0/of/0", "unknown_item")]),
        ({"of": ["egg", "Egg"], "at_most": 1}, [("/rules/0/of/1", "unknown_item")]),
        ({"of": ["egg"], "to": ["mince", "lard"], "at_most": 1}, [("/rules/0/to/1", "unknown_item")]),
        ({"of": ["egg"], "component": "pan", "at_most": 1}, [("/rules/0/component", "unknown_component")]),
        ({"of": ["egg"], "to": ["mince"], "cites": "bindr"}, [("/rules/0/cites", "unknown_trade_rule")]),
        ({"of": ["egg"], "cites": "binder"}, [("/rules/0/to", "cites_a_ratio")]),
        ({"of": ["egg"], "cites": "binder", "at_most": 50}, [("/rules/0/to", "cites_a_ratio")]),
        ({"of": ["egg"], "id": " ", "at_most": 1}, [("/rules/0/id", "blank")]),
        ({"of": ["egg"], "id": "a\nb", "at_most": 1}, [("/rules/0/id", "not_printable")]),
    ],
)
def test_what_a_rule_must_not_name_is_refused_where_it_stands(
    refusals: Refusals, rule: Document, refused: list[tuple[str, str]]
) -> None:
    assert refusals(ruled(rule)) == refused


def test_all_that_is_wrong_with_all_rules_is_refused_at_once(refusals: Refusals) -> None:
    found = refusals(ruled({"of": ["lard", "egg", "ham"], "cites": "x"}, {"of": ["egg"], "cites": "binder"}))
    assert sorted(found) == [
        ("/rules/0/cites", "unknown_trade_rule"),
        ("/rules/0/of/0", "unknown_item"),
        ("/rules/0/of/2", "unknown_item"),
        ("/rules/1/to", "cites_a_ratio"),
    ]


def test_a_rule_goes_out_as_it_was_counted() -> None:
    rule = Rule("salt", names("egg"), By.SALT, names("mince"), 0.01, None, 2, "salt: of all (here)")
    missed = RuleResult(rule, 0.0012345678, None, met=False, binding=False, miss=0.0087654322)
    assert to_rule_answer(missed).model_dump() == {
        "id": "salt",
        "by": "salt",
        "of": ["egg"],
        "to": ["mince"],
        "unit": "g/g",
        "at_least": 0.01,
        "at_most": None,
        "priority": 2,
        "cites": "salt: of all (here)",
        "value": 0.001235,
        "reason": None,
        "met": False,
        "binding": False,
        "miss": 0.008765,
    }


def test_an_undefined_ratio_goes_out_with_its_reason() -> None:
    rule = Rule("binder", names("egg"), to=names("mince"), upper=0.1)
    answer = to_rule_answer(RuleResult(rule, None, "nothing is there", met=True, binding=False, miss=None))
    assert (answer.value, answer.reason, answer.miss, answer.met) == (None, "nothing is there", None, True)
    assert (answer.by, answer.cites) == ("raw mass", None)


def test_padding_of_what_a_rule_cites_is_no_part_of_its_name(translate: Translate) -> None:
    (rule,) = translate(ruled({"cites": " binder ", "of": ["egg"], "to": ["mince"]})).rules
    assert (rule.id, rule.cites) == ("binder", "binder: egg to mince (kitchen-rules)")
