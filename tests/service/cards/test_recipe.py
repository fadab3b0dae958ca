"""The recipe as structured data: parsed by a general JSON-LD library, its properties those of schema.org."""

import re
from typing import Any

from pyld import jsonld

from tests.npm_package import file_of_package
from tests.service.cards.conftest import Ask

#: The vocabulary of schema.org as TypeScript types, made from its own definition (npm, Apache-2.0).
PACKAGE = "schema-dts@2.1.0"
SHA256 = "120408039b33cba2e9fa4a9f85a867ab6df059240c5b7111ea480118b8ea8ebb"

VOCABULARY = "http://schema.org/"


def properties(kind: str) -> set[str]:
    """The properties of a type, with those of all that it is a kind of."""
    text = file_of_package(PACKAGE, SHA256, "dist/schema.d.ts").decode()
    return _properties(f"{kind}Base", text)


def _properties(base: str, text: str) -> set[str]:
    found = re.search(rf"^interface {base}(?: extends ([^{{]+))? {{(.*?)^}}", text, re.DOTALL | re.MULTILINE)
    assert found is not None, f"schema.org has no {base}"
    own = set(re.findall(r'^    "(\w+)"\?:', found[2], re.MULTILINE))
    above = [each.strip() for each in (found[1] or "").split(",") if each.strip().endswith("Base")]
    return own.union(*(_properties(each, text) for each in above))


def offline(url: str, _: object) -> dict[str, Any]:
    """schema.org's context maps every term to itself in its vocabulary, which is all that is needed of it here."""
    return {"contextUrl": None, "documentUrl": url, "document": {"@context": {"@vocab": VOCABULARY}}}


def expanded(ask: Ask) -> dict[str, Any]:
    document = ask("plan", format="recipe").json()
    (found,) = jsonld.expand(document, {"documentLoader": offline})
    return dict(found)


def test_every_property_is_one_of_schema_org(ask: Ask) -> None:
    recipe = expanded(ask)
    assert recipe["@type"] == [f"{VOCABULARY}Recipe"]
    used = {name.removeprefix(VOCABULARY) for name in recipe if not name.startswith("@")}
    assert used <= properties("Recipe")
    assert {"name", "recipeYield", "recipeIngredient", "recipeInstructions", "nutrition"} <= used
    (nutrition,) = recipe[f"{VOCABULARY}nutrition"]
    parts = {name.removeprefix(VOCABULARY) for name in nutrition if not name.startswith("@")}
    assert parts <= properties("NutritionInformation")
    assert {"calories", "fatContent", "proteinContent", "carbohydrateContent", "sodiumContent"} <= parts


def test_a_property_that_schema_org_lacks_would_be_found() -> None:
    assert "netCarbohydrateContent" not in properties("NutritionInformation")


def test_amounts_are_in_the_units_that_schema_org_names(ask: Ask) -> None:
    nutrition = ask("plan", format="recipe").json()["nutrition"]
    for name in ("fatContent", "proteinContent", "carbohydrateContent"):
        assert nutrition[name].endswith(" g")
    for name in ("sodiumContent", "cholesterolContent"):
        assert nutrition[name].endswith(" mg")


def test_steps_are_instructions_word_by_word(ask: Ask) -> None:
    steps = ask("plan").json()["method_steps"]
    told = ask("plan", format="recipe").json()["recipeInstructions"]
    assert [each["text"] for each in told] == [step["text"] for step in steps]
