"""Ten dishes that were salty, greasy, dry or bland, or lack something: the advice is such as a cook would give."""

from copy import deepcopy

import httpx2
import pytest

from tests.service.asking import Document, told
from tests.service.tasted_dishes import DISHES, band, item

REASONS = ("salty", "greasy", "dry", "bland")
SEASONINGS = {"salt", "pepper", "paprika", "mustard", "garlic"}
DAIRY = {"butter", "cream", "sour cream", "cream cheese", "cheddar", "parmesan"}


def made_anew(client: httpx2.Client, name: str, **asked: object) -> Document:
    return told(client.post("/v1/reworks", json={"brief": DISHES[name], **asked}))


def amounts(dish: Document) -> dict[tuple[str, str], float]:
    return {(each["name"], each["component"]): each["grams"] for each in dish["quantities"]}


@pytest.mark.parametrize("name", DISHES)
def test_a_dish_that_meets_its_targets_stays_as_it_is(client: httpx2.Client, name: str) -> None:
    answer = made_anew(client, name)
    assert answer["outcome"] == "plan"
    assert answer["changes"] == []


@pytest.mark.parametrize("reason", REASONS)
@pytest.mark.parametrize("name", DISHES)
def test_what_was_tasted_is_mended_by_one_or_two_changes(client: httpx2.Client, name: str, reason: str) -> None:
    """What mends it changes, and at most one amount more follows from the targets; nothing is a pinch of this and that.

    Unasked, nothing becomes more than one and a half times what it was, and no seasoning more at all.
    """
    answer = made_anew(client, name, reason=reason)
    assert answer["outcome"] == "plan"
    changes = answer["changes"]
    assert 1 <= len(changes) <= 2
    mended = [each for each in changes if each["why"][0]["because"] == "mends what was tasted"]
    assert mended
    for each in changes:
        ratio = each["after_grams"] / each["before_grams"]
        assert abs(ratio - 1) >= 0.02
        if each not in mended:
            assert ratio <= 1.5
            assert each["name"] not in SEASONINGS
    before, after = amounts(answer["before"]), amounts(answer["answer"])
    moved = {(each["name"], each["component"]) for each in changes}
    assert {use: grams for use, grams in before.items() if use not in moved} == {
        use: grams for use, grams in after.items() if use not in moved
    }


@pytest.mark.parametrize("name", DISHES)
def test_salty_makes_no_sauce_saltier_and_takes_salt_first(client: httpx2.Client, name: str) -> None:
    changes = made_anew(client, name, reason="salty")["changes"]
    salts = [each for each in changes if each["name"] == "salt"]
    assert salts
    assert all(each["after_grams"] < each["before_grams"] for each in salts)


@pytest.mark.parametrize("name", DISHES)
def test_without_dairy_nothing_of_milk_is_proposed(client: httpx2.Client, name: str) -> None:
    answer = made_anew(client, name, said=[{"says": "leave out", "exclude": {"allergen": "milk"}}])
    stand_ins = [*answer["substitutes"]]
    if answer["substitutes_together"] is not None:
        stand_ins += answer["substitutes_together"]["stand_ins"]
    for each in stand_ins:
        assert "milk" not in each["contains_too"]
        words = each["name"].casefold()
        assert not any(word in words for word in ("butter", "cheese", "yogurt", "milk")) or "coconut" in words
        assert each["in_place_of"] in DAIRY | {"lemon juice", "stock", "mustard", "vinegar"}


@pytest.mark.parametrize("name", ["leek soup", "patties", "mash"])
def test_without_dairy_the_whole_dish_is_shown_with_all_of_it_replaced(client: httpx2.Client, name: str) -> None:
    """Butter and cream are both left out, and one dish has fat and cream again, and everything else as it was."""
    answer = made_anew(client, name, said=[{"says": "leave out", "exclude": {"allergen": "milk"}}])
    together = answer["substitutes_together"]
    assert {each["in_place_of"] for each in together["stand_ins"]} >= {"butter", "cream"}
    assert all(target["met"] for target in together["dish"]["targets"])
    before, after = amounts(answer["before"]), amounts(together["dish"])
    replaced = {each["in_place_of"] for each in together["stand_ins"]}
    kept = {use: grams for use, grams in before.items() if use[0] not in replaced}
    assert {use: grams for use, grams in after.items() if use in before} == kept
    assert len(after) == len(before)


@pytest.mark.parametrize(
    ("name", "seasoning"),
    [("leek soup", "pepper"), ("patties", "paprika"), ("mayonnaise", "mustard"), ("mash", "garlic"), ("loaf", "salt")],
)
def test_nothing_is_proposed_for_a_seasoning(client: httpx2.Client, name: str, seasoning: str) -> None:
    answer = made_anew(client, name, said=[{"says": "leave out", "of": [seasoning]}])
    assert answer["substitutes"] == []


@pytest.mark.parametrize(
    ("name", "gone", "first", "grams"),
    [
        # By hand from the table: two yolks are an egg, 7 g of seeds bind for one, broth is water, half as much vinegar.
        ("mayonnaise", "yolk", "Egg, whole, raw, fresh", 50.0),
        ("patties", "egg", "Seeds, flaxseed", 7.0),
        ("mash", "butter", "Oil, olive, salad or cooking", 40.6),
        ("mash", "cream", "Nuts, coconut cream, raw (liquid expressed from grated meat)", 60.0),
        ("terrine", "gelatine", "Seaweed, agar, dried", 2.3),
        ("terrine", "stock", "Soup, stock, beef, home-prepared", 300.0),
        ("mayonnaise", "lemon juice", "Lime juice, raw", 15.2),
        ("salad", "lettuce", "Endive, raw", 200.0),
        ("loaf", "beef mince", "Pork, fresh, ground, raw", 600.0),
        ("salad", "parmesan", "Cheese, romano", 30.0),
    ],
)
def test_what_stands_in_is_what_a_cook_would_take(
    client: httpx2.Client, name: str, gone: str, first: str, grams: float
) -> None:
    answer = made_anew(client, name, said=[{"says": "leave out", "of": [gone]}])
    found = answer["substitutes"][0]
    assert (found["name"], found["grams"]) == (first, pytest.approx(grams, abs=0.1))


def test_a_raw_egg_that_stands_in_is_cautioned(client: httpx2.Client) -> None:
    answer = made_anew(client, "mayonnaise", said=[{"says": "leave out", "of": ["yolk"]}])
    (egg,) = answer["substitutes"]
    assert egg["contains_too"] == ["egg"]
    assert "It contains egg as well" in egg["text"]
    assert "raw_egg" in {each["code"] for each in egg["cautions"]}


def test_without_egg_a_mayonnaise_has_no_binder_and_a_patty_has(client: httpx2.Client) -> None:
    """Nothing else holds an emulsion; seeds and gelatine hold a patty together."""
    without = [{"says": "leave out", "exclude": {"allergen": "egg"}}]
    assert "yolk" not in {each["in_place_of"] for each in made_anew(client, "mayonnaise", said=without)["substitutes"]}
    patties = made_anew(client, "patties", said=without)["substitutes"]
    found = {each["name"]: each for each in patties if each["in_place_of"] == "egg"}
    assert set(found) == {"Seeds, flaxseed", "Seeds, chia seeds, dried", "Gelatins, dry powder, unsweetened"}
    assert all((each["role"], each["source"]) == ("binder", "stand-ins-practice") for each in found.values())
    assert all("not counted here" in each["how"] for each in found.values())


def test_what_is_in_two_places_is_replaced_in_both(client: httpx2.Client) -> None:
    """By hand: 1 tbsp of oil is 13.5 g, and 1 tsp 4.5 g (SR28)."""
    answer = made_anew(client, "salmon", said=[{"says": "leave out", "of": ["olive oil"]}])
    (oil,) = answer["substitutes"]
    assert oil["goes_in"] == [{"component": "sauce", "grams": 4.5}, {"component": "greens", "grams": 13.5}]
    assert (oil["component"], oil["grams"]) == ("greens", 18.0)
    assert "4.5 g into sauce, 13.5 g into greens" in oil["text"]
    used = {(each["component"], each["grams"]) for each in oil["dish"]["quantities"] if each["name"] == oil["name"]}
    assert used == {("sauce", 4.5), ("greens", 13.5)}
    said = [{"says": "leave out", "of": ["olive oil"], "component": "sauce"}]
    (alone,) = made_anew(client, "salmon", said=said)["substitutes"]
    assert alone["goes_in"] == [{"component": "sauce", "grams": 4.5}]
    assert amounts(alone["dish"])["olive oil", "greens"] == 13.5


def test_what_is_at_home_comes_first_and_only_where_it_may_go(client: httpx2.Client) -> None:
    brief = deepcopy(DISHES["patties"])
    brief["pantry"] += [
        item("ground flaxseed", "flaxseed", goes_in=["patties"], only_if_needed=True),
        item("lard of the house", "lard", goes_in=["patties"]),
        item("oil to buy", "olive oil", goes_in=["pan sauce"], to_buy=True),
    ]
    said = [{"says": "leave out", "of": ["egg"]}, {"says": "leave out", "of": ["butter"]}]
    answer = told(client.post("/v1/reworks", json={"brief": brief, "said": said}))
    egg, butter = (
        [(each["name"], each["at_home"]) for each in answer["substitutes"] if each["in_place_of"] == gone]
        for gone in ("egg", "butter")
    )
    assert egg[0] == ("ground flaxseed", True)
    assert butter[0] == ("oil to buy", False)
    assert "lard of the house" not in {name for name, _ in butter}
    first = answer["substitutes"][0]
    assert first["text"].startswith("ground flaxseed (at home) for egg: 7.0 g")


def test_what_is_named_instead_does_as_much_where_the_other_was(client: httpx2.Client) -> None:
    """By hand, SR28: 20 g of butter have 16.2 g of fat, 60 g of cream 21.6 g."""
    brief = deepcopy(DISHES["patties"])
    brief["pantry"].append(item("olive oil", goes_in=["patties", "pan sauce"]))
    said = [{"says": "use instead", "of": ["butter", "cream"], "one_of": ["olive oil"]}]
    answer = told(client.post("/v1/reworks", json={"brief": brief, "said": said}))
    new = [(each["component"], each["after_grams"]) for each in answer["changes"] if each["before"] == "none"]
    assert new == [("pan sauce", pytest.approx(37.9, abs=0.11))]


@pytest.mark.parametrize(("name", "gone"), [("patties", "beef mince"), ("terrine", "chicken")])
def test_without_its_meat_there_is_what_stands_in_and_no_dish_of_the_rest(
    client: httpx2.Client, name: str, gone: str
) -> None:
    """A dozen eggs are no patty, and two litres of stock no terrine: nobody asks for them, as the conflict says."""
    answer = made_anew(client, name, said=[{"says": "leave out", "of": [gone]}])
    assert answer["outcome"] == "conflict"
    assert {each["role"] for each in answer["substitutes"]} == {"protein"}
    ours = [each for each in answer["answer"]["members"] if each["kind"] == "most amount"]
    assert ours
    assert all(each["text"].endswith(", as nobody asks for more of it") for each in ours)
    ways = answer["answer"]["ways_out"]
    assert ways["changes"]
    assert not any(each["kind"] == "most amount" for each in ways["changes"])


def test_a_limit_that_the_cook_set_is_told_as_it_is_and_may_be_changed(client: httpx2.Client) -> None:
    brief = deepcopy(DISHES["patties"])
    next(each for each in brief["pantry"] if each["name"] == "beef mince")["at_most"] = "550 g"
    brief["targets"] = [band("protein_g", 30, 60)]
    answer = told(client.post("/v1/reworks", json={"brief": brief, "said": [{"says": "keep", "of": ["egg"]}]}))
    assert answer["outcome"] == "conflict"
    told_of = {each["name"]: each["text"] for each in answer["answer"]["members"] if each["kind"] == "most amount"}
    assert told_of["beef mince"] == "beef mince, at most 550 g for the batch"
    assert "beef mince" in {each["name"] for each in answer["answer"]["ways_out"]["changes"]}
