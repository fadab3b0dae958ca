"""A dish as a schema.org Recipe with NutritionInformation, in JSON-LD 1.1.

The names and units are those of schema.org: fat, protein, carbohydrate, fibre and sugar in g, sodium and cholesterol in
mg, energy in kcal. What is not wholly known is left out: a reader would take a part for the whole.
"""

from collections.abc import Iterator, Mapping
from types import MappingProxyType
from typing import Any

from service.cards.reader import Reader
from service.schemas.answer import PlanAnswer
from service.schemas.breakdown import BreakdownAnswer
from service.schemas.dish import QuantityAnswer, TotalsAnswer

CONTEXT = "https://schema.org"

#: Property of NutritionInformation to nutrient. Carbohydrate is the total, fibre included.
_PROPERTIES: Mapping[str, str] = MappingProxyType(
    {
        "fatContent": "fat_g",
        "saturatedFatContent": "saturated_fat_g",
        "proteinContent": "protein_g",
        "carbohydrateContent": "total_carbohydrate_g",
        "fiberContent": "fibre_g",
        "sugarContent": "sugars_g",
        "sodiumContent": "sodium_mg",
        "cholesterolContent": "cholesterol_mg",
    }
)


def recipe(answer: PlanAnswer | BreakdownAnswer, reader: Reader) -> dict[str, Any]:
    """The document. Ingredients are texts; instructions are there when steps were given."""
    document: dict[str, Any] = {
        "@context": CONTEXT,
        "@type": "Recipe",
        "name": answer.title,
        "recipeYield": reader.count("{n} portion", "{n} portions", answer.portions),
        "recipeIngredient": [_ingredient(each, reader) for each in answer.quantities],
        "nutrition": {"@type": "NutritionInformation", **dict(_nutrition(answer.portion, reader))},
        "comment": [{"@type": "Comment", "text": text} for text in (answer.exactness, answer.reminder)],
    }
    if answer.method_steps:
        document["recipeInstructions"] = [{"@type": "HowToStep", "text": step.text} for step in answer.method_steps]
    return document


def _ingredient(each: QuantityAnswer, reader: Reader) -> str:
    weight = reader.weight(each.grams)
    amount = weight if each.text.endswith(" g") else f"{each.text} ({weight})"
    return f"{amount} {each.name}"


def _nutrition(portion: TotalsAnswer, reader: Reader) -> Iterator[tuple[str, str]]:
    yield "servingSize", reader.say("1 portion ({weight})", weight=f"{portion.grams:.1f} g")
    if not {"fat_g", "protein_g", "total_carbohydrate_g"} & portion.lacking.keys():
        yield "calories", f"{portion.energy_kcal:.0f} kcal"
    for name, nutrient in _PROPERTIES.items():
        value = portion.nutrients.get(nutrient)
        if value is not None and nutrient not in portion.lacking:
            yield name, f"{value:.1f} {nutrient.rpartition('_')[2]}"
