"""Documents that hold everything the contract knows, and the examples: what the fuzzers change things in."""

import json
from collections.abc import Iterator
from pathlib import Path

from tests.service.briefs import Document, food, from_dish, tallow

_EXAMPLES = Path(__file__).parents[2] / "openapi" / "examples"

DISHES: list[Document] = [
    {
        "name": "mayonnaise",
        "ingredients": [
            food("oil", "04053", amount="240 g"),
            food("yolk", "01125", amount="2 large"),
            from_dish("rub", "red rub", amount="5 g"),
        ],
        "method_steps": [{"text": "Whisk the oil into the yolks drop by drop.", "minutes": 10, "vessel": "bowl"}],
        "makes": "1 1/2 cups",
        "weighs": "270 g",
    },
    {
        "name": "red rub",
        "ingredients": [food("paprika", "02028", amount="2 tbsp"), food("salt", "02047", amount="12 g")],
        "discarded": [{"name": "salt", "amount": "1 g"}],
    },
    {
        "name": "stock",
        "ingredients": [
            food("bones", "10978", amount="1 kg", goes_in="pot"),
            food("water", "14411", amount="2 kg", goes_in="pot"),
            food("bacon", "10123", amount="200 g", goes_in="pan"),
        ],
        "components": [
            {"name": "pot", "method": "simmered", "drippings": "served", "minutes": 90},
            {"name": "pan", "method": "pan-fried", "drippings": "spooned back", "teaspoons": 2},
        ],
        "makes": "800 g",
        "strained_out": ["bones"],
        "skimmed_fat": "5 g",
    },
]

STEPS: list[Document] = [
    {"text": "Shape patties.", "component": "patties", "vessel": "tray"},
    {"text": "Broil them.", "component": "patties", "celsius": 240, "minutes": 12, "until_safe": True},
]

EATER: Document = {
    "age_years": 42,
    "weight_kg": 68,
    "pregnant": False,
    "lactating": False,
    "meals_per_day": 3,
    "conditions": ["insulin"],
    "prescribed": False,
}

FULL_BRIEF: Document = {
    "title": "Everything at once",
    "portions": 3,
    "components": [
        {"name": "patties", "method": "broiled patty", "drippings": "spooned back", "form": "minced"},
        {"name": "roast", "method": "roasted", "drippings": "served", "minutes": 60, "cooked_weight": "290 g"},
        {"name": "at the table"},
    ],
    "dishes": DISHES,
    "pantry": [
        food("mince", "23572", goes_in=["patties"], on_hand="2 lb", at_least="200 g", use_by="2026-11-28"),
        food("egg", "01123", goes_in=["patties"], step="1 large", at_most="2 large", use_up_order=2),
        tallow(step="1 tsp"),
        food("thigh", "05091", goes_in=["roast"], already_in="400 g", weighed="as purchased"),
        from_dish("mayonnaise", "mayonnaise", goes_in=["at the table"], on_hand="1 cup", least_when_used="20 g"),
        from_dish("stock", "stock", goes_in=["at the table"], at_most="100 g"),
        food("butter", "01001", goes_in=["at the table"], price={"amount": 3.2, "per": "200 g"}, to_buy=True),
        food("lard", "04002", goes_in=["at the table"], only_if_needed=True),
    ],
    "targets": [
        {"of": "energy_kcal", "aim": 700, "within": 60},
        {"of": "fat_share_percent", "aim": 75, "within": 3},
        {"of": "fat_g", "id": "board", "basis": "raw", "per": "batch", "at_most": 400, "priority": 1},
        {"of": "protein_g", "at_least": 30},
    ],
    "rules": [
        {"cites": "binder", "of": ["egg"], "to": ["mince"], "priority": 2},
        {"id": "the tray", "of": ["*"], "component": "patties", "at_least": 100, "at_most": 900},
        {"id": "salt", "by": "salt", "of": ["mince", "egg"], "to": ["*"], "at_most": 0.02},
        {
            "id": "dairy to eggs",
            "of_food_groups": ["Fats and Oils"],
            "of_allergens": ["milk"],
            "to_food_groups": ["Dairy and Egg Products"],
            "to_allergens": ["egg"],
            "at_most": 1000,
        },
    ],
    "exclude": [
        {"allergen": "milk", "unknown": "allowed"},
        {"food_group": "Cereal Grains and Pasta"},
        {"food": "paprika flakes"},
    ],
    "method_steps": STEPS,
    "nutrition_as": "US",
    "holds_within": {
        "tolerance": None,
        "percent": {"fat_g": 1, "protein_g": 0.5},
        "most_items_off": 2,
        "with_cooking": False,
    },
    "eater": EATER,
    "safe_temperatures": "us retail",
    "say_worth": True,
    "alternatives": 1,
    "base": [
        {"item": "mince", "amount": "520 g", "known": "tasted"},
        {"item": "egg", "amount": "1 large"},
        {"item": "tallow", "goes_in": "at the table", "amount": "2 tsp"},
        {"item": "butter", "amount": {"value": 40, "unit": "g"}},
        {"drippings_of": "patties", "teaspoons": 2},
    ],
    "prefer": ["balanced"],
    "energy_basis": "specific",
    "count_missing_as": {"fibre_g": 0},
    "collagen_at_most_percent": 30,
    "time_limit_s": 2,
}

FULL_REACH: Document = {
    "brief": {**FULL_BRIEF, "say_worth": False, "alternatives": 0},
    "of": ["protein_g", "fat_share_percent"],
    "frontier": {"x": "energy_kcal", "y": "protein_g"},
}

FULL_REWORK: Document = {
    "brief": {**FULL_BRIEF, "say_worth": False, "alternatives": 0},
    "base_portions": 4,
    "said": [
        {"says": "more", "of": ["butter"], "component": "at the table"},
        {"says": "about", "factor": 1.5, "of": ["mince"]},
        {"says": "keep", "of": ["egg"]},
        {"says": "use instead", "of": ["tallow"], "one_of": ["butter", "mayonnaise"]},
        {"says": "leave out", "exclude": {"food": "crab"}},
    ],
    "reason": "dry",
}

DIVISIONS: list[Document] = [
    {"kind": "equal", "portions": 7, "scale": "0.1 g"},
    {"kind": "weight", "portions": [{"name": "a", "weight": "200 g"}]},
    {"kind": "pieces", "cut_into": 8, "eats": [{"name": "a", "pieces": 3}]},
    {"kind": "shares", "portions": [{"name": "a", "parts": 2}, {"name": "b", "parts": 0.5}]},
    {"kind": "energy", "portions": [{"name": "a", "energy_kcal": 300}]},
]

DECLARED: Document = {
    "per": "portion",
    "layout": "US",
    "energy_kcal": 650,
    "energy_kj": "2700",
    "energy_from_fat_kcal": 490,
    "energy_from_protein_kcal": 140,
    "energy_from_carbohydrate_kcal": 20,
    "protein_g": 35,
    "fat_g": "54.0 g",
    "saturated_fat_g": 22,
    "trans_fat_g": 0,
    "available_carbohydrate_g": 4,
    "fibre_g": 2,
    "sugars_g": "less than 1 g",
    "polyols_g": 1,
    "erythritol_g": 1,
    "allulose_g": 1,
    "alcohol_g": 0,
    "salt_g": 1.8,
    "sodium_mg": 720,
    "potassium_mg": 480,
    "cholesterol_mg": 120,
    "fat_share_percent": 75,
    "ketogenic_ratio": 1.4,
    "energy_distribution_percent": {"fat": 75, "protein": 20, "carbohydrate": "5 %", "alcohol": 0},
    "factors_kcal_per_g": {"protein": 4.27, "fat": 9.02, "carbohydrate": 3.87, "alcohol": 6.93},
}

ROLLED = {"form": "rolled", "cooked_weight": "200 g"}

FULL_BREAKDOWNS: list[Document] = [
    {
        "title": "Everything of a dish at once",
        "portions": 3,
        "scale_to": 4,
        "components": [
            {"name": "patties", "method": "broiled patty", "drippings": "spooned back", "teaspoons": 4},
            {"name": "roast", "method": "roasted", "drippings": "served", "drippings_weight": "20 g", **ROLLED},
            {"name": "at the table"},
        ],
        "dishes": DISHES,
        "ingredients": [
            food("mince", "23572", goes_in="patties", amount="400 g"),
            food("thigh", "05091", goes_in="roast", amount="300 g"),
            from_dish("mayonnaise", "mayonnaise", goes_in="at the table", amount="3 tbsp"),
            from_dish("stock", "stock", goes_in="at the table", amount="100 g"),
        ],
        "division": division,
        "declared": DECLARED,
        "nutrition_as": "EU",
        "method_steps": STEPS,
        "eater": EATER,
        "safe_temperatures": "uk",
        "energy_basis": "regulation",
        "count_missing_as": {"fibre_g": 0},
    }
    for division in DIVISIONS
]


def _read(folder: Path) -> list[Document]:
    return [json.loads(path.read_text()) for path in sorted(folder.glob("*.json"))]


#: Where a document is sent to, and those that may be sent there.
DOCUMENTS: dict[str, list[Document]] = {
    "/v1/plans": [*_read(_EXAMPLES), FULL_BRIEF],
    "/v1/reach": [*_read(_EXAMPLES / "reach"), FULL_REACH],
    "/v1/reworks": [
        *({"said": [], "reason": None, "base_portions": None, **each} for each in _read(_EXAMPLES / "reworks")),
        FULL_REWORK,
    ],
    "/v1/breakdowns": [*_read(_EXAMPLES / "breakdowns"), *FULL_BREAKDOWNS],
}


def places(value: object, path: tuple[str | int, ...] = ()) -> Iterator[tuple[str | int, ...]]:
    """Every place in a document where a value stands."""
    parts = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    for part, inner in parts:
        yield (*path, part)
        yield from places(inner, (*path, part))
