"""The ranking, over the real table. food_queries.csv was written before it; a tenth, drawn by lot, is held out."""

import csv
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from reference_data import reference_folder
from service.search.index import FoodSearch
from service.search.nearest import nearest_foods
from service.search.words import load_words, singular, split
from solver.catalogue import Catalogue
from solver.errors import ReferenceDataError

QUERIES = Path(__file__).with_name("food_queries.csv")
AMONG_FIRST = 3


def queries(use: str) -> list[tuple[str, frozenset[str]]]:
    with QUERIES.open(encoding="utf-8", newline="") as stream:
        rows = [row for row in csv.DictReader(stream) if row["use"] == use]
    return [(row["query"], frozenset(row["food ids"].split())) for row in rows]


@pytest.fixture(scope="module")
def search(catalogue: Catalogue) -> FoodSearch:
    return FoodSearch(catalogue, load_words(reference_folder() / "words.csv"))


def first(search: FoodSearch, query: str) -> set[str]:
    return set(search.find(query, AMONG_FIRST).ids)


def test_most_of_the_held_out_queries_find_their_food_too(search: FoodSearch) -> None:
    """Six of eight was asked for before the first look at them, and the ranking was not changed for them.

    They are not quite unseen: whoever wrote the kitchen words had written these queries before.
    """
    hits = [query for query, ids in queries("held out") if first(search, query) & ids]
    assert len(hits) >= 6, hits


def test_a_tenth_of_the_eighty_queries_is_held_out() -> None:
    assert (len(queries("tuning")), len(queries("held out"))) == (72, 8)


def test_every_food_of_the_queries_is_in_the_table(catalogue: Catalogue) -> None:
    for _, ids in queries("tuning") + queries("held out"):
        assert ids
        assert all(food_id in catalogue for food_id in ids)


@pytest.mark.parametrize(("query", "ids"), [pytest.param(*row, id=row[0]) for row in queries("tuning")])
def test_the_food_meant_is_among_the_first_three(search: FoodSearch, query: str, ids: frozenset[str]) -> None:
    assert first(search, query) & ids


@pytest.mark.parametrize(
    ("query", "same_as"),
    [
        ("ground beef 80/20", "80/20 beef ground"),
        ("ground beef 80/20", "GROUND  BEEF, 80 / 20"),
        ("mince 20%", "mince 20 % fat"),
        ("courgette", "courgettes"),
        ("courgette", "zuchini"),
        ("double cream", "cream double"),
        ("parmesan", "parmezan"),
        ("jalapeno", "jalapeño"),
    ],
)
def test_writing_it_another_way_finds_the_same_first(search: FoodSearch, query: str, same_as: str) -> None:
    assert search.find(query, 1).ids
    assert search.find(query, 1).ids == search.find(same_as, 1).ids


@pytest.mark.parametrize(
    ("query", "name"),
    [
        ("streaky bacon", "Pork, cured, bacon, unprepared"),
        ("bacon", "Pork, cured, bacon, unprepared"),
        ("turkey bacon", "Turkey bacon, unprepared"),
        ("back bacon", "Canadian bacon, unprepared"),
        ("red wine", "Alcoholic beverage, wine, table, red"),
        ("red wine vinegar", "Vinegar, red wine"),
        ("hazelnuts", "Nuts, hazelnuts or filberts"),
        ("walnuts", "Nuts, walnuts, english"),
        ("walnut oil", "Oil, walnut"),
        ("almonds", "Nuts, almonds"),
        ("gherkins", "Pickles, cucumber, dill or kosher dill"),
        ("nutmeg", "Spices, nutmeg, ground"),
        ("omelettes", "Egg, whole, cooked, omelet"),
    ],
)
def test_the_best_match_comes_first(search: FoodSearch, catalogue: Catalogue, query: str, name: str) -> None:
    assert [catalogue.food(food_id).name for food_id in search.find(query, 1).ids] == [name]


@pytest.mark.parametrize("query", ["xanthan", "porcini", "mascarpone", "halloumi"])
def test_what_the_table_does_not_have_is_not_taken_for_something_else(search: FoodSearch, query: str) -> None:
    assert search.find(query, 1).total == 0


def test_a_percentage_that_the_table_lacks_is_passed_over(search: FoodSearch, catalogue: Catalogue) -> None:
    assert all("ground" in catalogue.food(food_id).name for food_id in search.find("beef mince 19%", 3).ids)


def test_pages_put_together_are_the_whole_list(search: FoodSearch) -> None:
    whole = search.find("salmon", 1000)
    pages = [search.find("salmon", 7, offset).ids for offset in range(0, whole.total + 7, 7)]
    assert tuple(food_id for page in pages for food_id in page) == whole.ids
    assert len(whole.ids) == len(set(whole.ids)) == whole.total


def test_nothing_is_found_for_what_is_no_food(search: FoodSearch) -> None:
    assert search.find("qqqqqqqq", 3).total == 0


def test_no_text_is_too_strange_to_search_for(search: FoodSearch) -> None:
    @given(st.text(max_size=300))
    def holds(query: str) -> None:
        found = search.find(query, 5)
        assert len(found.ids) == min(5, found.total)

    holds()


def test_every_kitchen_word_leads_to_a_food(catalogue: Catalogue) -> None:
    bare = FoodSearch(catalogue, ())
    with (reference_folder() / "words.csv").open(encoding="utf-8", newline="") as stream:
        rows = list(csv.DictReader(stream))
    assert len({frozenset(map(singular, split(row["words"]))) for row in rows}) == len(rows), "each once, in any order"
    for row in rows:
        wanted = set(map(singular, split(row["means"])))
        names = [catalogue.food(food_id).name for food_id in bare.find(row["means"], 3).ids]
        assert not wanted or any(wanted <= set(map(singular, split(name))) for name in names), row["words"]


def test_a_damaged_table_of_words_is_named(tmp_path: Path) -> None:
    (tmp_path / "words.csv").write_text("word\nmince\n")
    with pytest.raises(ReferenceDataError, match=r"words\.csv"):
        load_words(tmp_path / "words.csv")


@pytest.mark.parametrize(
    ("food_id", "name", "near"),
    [
        ("sr28:1123", "", "Egg, whole, raw, fresh (sr28:01123)"),
        ("23572", "", "Beef, ground, 80% lean meat / 20% fat, raw (sr28:23572)"),
        ("sr28:23752", "", "(sr28:23572)"),
        ("tallow", "", "Fat, beef tallow (sr28:04001)"),
        ("sr28:99999", "beef tallow", "Fat, beef tallow (sr28:04001)"),
    ],
)
def test_the_nearest_foods_are_named_with_their_ids(
    search: FoodSearch, catalogue: Catalogue, food_id: str, name: str, near: str
) -> None:
    assert near in nearest_foods(food_id, catalogue, search, name)


def test_where_nothing_is_near_the_remedy_says_where_to_look(search: FoodSearch, catalogue: Catalogue) -> None:
    assert nearest_foods("x" * 5000, catalogue, search) == "GET /v1/foods?query= finds a food and its id."
