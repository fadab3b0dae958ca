"""The words that name allergens: how a description is read, and that no phrase hides an allergen unseen."""

from pathlib import Path

import pytest

from reference_data import reference_folder
from solver.allergen_plain import load_plain_foods
from solver.allergen_words import Says, Words, load_words, words_of
from solver.allergens import load_allergens
from solver.catalogue import Catalogue
from solver.errors import ReferenceDataError

FOLDER = reference_folder()
CODES = frozenset(load_allergens(FOLDER / "allergens.csv"))
TABLE = load_words(FOLDER / "allergen_words.csv", CODES)

#: Endings and beginnings of phrases that may take an allergen's name away, read one by one.
NO_MILK = """almond butter;cashew butter;hazelnut butter;nut butter;peanut butter;pumpkin seed butter;seed butter;
soy butter;sesame butter;sesame seed butter;sunflower butter;sunflower seed butter;
apple butter;cocoa butter;coconut butter;
fruit butter;hard butter;nutmeg butter;shea butter;ucuhuba butter;butter bean;butter lettuce;butter flavor;
butter flavored;butter replacement;bread and butter pickle;without butter;without cheese;without cream;without milk;
without added milk;
almond milk;cashew milk;chocolate almond milk;coconut milk;flax milk;hazelnut milk;hemp milk;macadamia milk;nut milk;
oat milk;pea milk;rice milk;soy milk;tiger nut milk;walnut milk;for milk;milk free;milk thistle;soy cheese;soy yogurt;
coconut yogurt;liver cheese;soybean, curd cheese;coconut cream;marshmallow cream;cream of tartar;cream puff shell;
cream soda;cream style;cream style corn;cream substitute;cream type;desiccated, creamed;ice cream coating;
ice cream cone, cake;ice cream cone, sugar"""
NO_WHEAT = """soy sauce, reduced sodium, made from hydrolyzed vegetable protein;soy noodle;without wheat;wheat free;
soy sauce made from hydrolyzed vegetable protein;soy sauce made from soy, tamari;vermicelli, made from soy;not breaded;
noodle, chinese, cellophane;squash, winter, spaghetti;winter, spaghetti;spaghetti squash;bread and butter pickle;
bread, kneel down;piki bread;pumpkin pie mix;pumpkin pie spice;pie filling;crab cake;glass noodle;konjac noodle;
rice noodle;shirataki noodle;zucchini noodle;rice bread;rice cake;rice cracker;rice pasta;pancake syrup;pasta sauce;
pizza sauce;spaghetti sauce;potato pancake;sandwich spread"""
HIDDEN = {
    "milk": NO_MILK,
    "wheat": NO_WHEAT,
    "gluten cereals": NO_WHEAT + ";oat, gluten free;ginger ale;ginger beer;root beer",
    "egg": """without egg;egg free;
eggless mayonnaise;mayonnaise, made with tofu;salad dressing, mayonnaise, imitation""",
    "soybeans": "soy free;non soy;without soy",
    "peanuts": "without peanut",
    "molluscs": """squash, summer, scallop;summer, scallop;emu, oyster;ostrich, oyster;mushroom, oyster;oyster blade;
oyster mushroom;vegetable oyster;include oyster""",
    "crustaceans": "crab apple",
    "fish": "fish shaped",
    "tree nuts": "almond extract, imitation;except macadamia;water chestnut;chestnut flour;tiger nut milk",
    "sulphites": "vinegar, red wine;white wine vinegar;wine vinegar",
}


def phrases() -> dict[Words, frozenset[str]]:
    """Every phrase of the table with what it says that a food contains."""
    rows = (row for rows in TABLE.every.by_first_word.values() for row in rows)
    return {phrase: told.get(Says.CONTAINS, frozenset()) for phrase, told in rows}


def test_a_phrase_takes_an_allergens_name_away_only_where_it_was_read_and_agreed() -> None:
    rows = phrases()
    for code in CODES:
        agreed = {words_of(phrase) for phrase in HIDDEN.get(code, "").split(";")}
        for phrase, contains in rows.items():
            parts = {phrase[i:j] for i in range(len(phrase)) for j in range(i + 1, len(phrase) + 1)} - {phrase}
            inside = frozenset().union(*(rows.get(part, frozenset()) for part in parts))
            assert code not in inside - contains or phrase in agreed, (code, phrase)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("Butter, salted", ("butter", ",", "salted")),
        ("Cheeses (all), ", ("cheese", ",", "all")),
        ("Half-and-half; 2% milkfat", ("half", "and", "half", ",", "2", "milkfat")),
        ("swiss gas", ("swiss", "gas")),
        ("(, )", ()),
        ("", ()),
    ],
)
def test_a_text_is_read_as_singular_words_with_its_breaks(text: str, words: Words) -> None:
    assert words_of(text) == words


def test_no_phrase_reaches_across_a_comma_unless_it_is_written_so() -> None:
    assert TABLE.contained(words_of("peanut, butter"))[0] == {"peanuts", "milk"}
    assert TABLE.contained(words_of("peanut butter"))[0] == {"peanuts"}


def test_a_word_that_makes_a_food_doubtful_is_heard_inside_the_name_of_an_allergen() -> None:
    assert TABLE.doubtful(words_of("Nuts, almond paste")) == CODES


@pytest.mark.parametrize("row", ["milk,says nothing,milk", "milk,contains,milks", ",contains,milk"])
def test_a_damaged_row_of_words_is_refused_with_its_line(row: str, tmp_path: Path) -> None:
    path = tmp_path / "words.csv"
    path.write_text(f"words,says,allergens,source\nbutter,contains,milk,x\n{row},x\n")
    with pytest.raises(ReferenceDataError, match="line 3"):
        load_words(path, CODES)


def test_a_damaged_row_of_plain_foods_is_refused_with_its_line(tmp_path: Path) -> None:
    path = tmp_path / "plain.csv"
    path.write_text("group,begins,not for,source\nBeef Products,beef,milks,x\n")
    with pytest.raises(ReferenceDataError, match="line 2"):
        load_plain_foods(path, CODES)


def test_every_row_of_plain_foods_finds_a_food(catalogue: Catalogue) -> None:
    plain = load_plain_foods(FOLDER / "allergen_plain_foods.csv", CODES)
    names = [(catalogue.groups[row], words_of(name)) for row, name in enumerate(catalogue.names)]
    for group, rows in plain.by_group.items():
        found = [words for of, words in names if of == group]
        for begins, _ in rows:
            assert any(words[: len(begins)] == begins for words in found), (group, begins)


def test_apples_are_plain_and_apple_juice_is_not() -> None:
    plain = load_plain_foods(FOLDER / "allergen_plain_foods.csv", CODES)
    assert plain.not_for("Fruits and Fruit Juices", words_of("Apples, raw")) == frozenset()
    assert plain.not_for("Fruits and Fruit Juices", words_of("Apple juice, canned")) is None
