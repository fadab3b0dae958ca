"""Ten dishes of an invented inn, as they came to the table, each with the targets that it has to meet again."""

from collections.abc import Mapping

from tests.service.asking import Document

#: Foods by their numbers in USDA SR28.
FOODS = {
    "beef mince": "23572",
    "bacon": "10123",
    "chicken": "05011",
    "salmon": "15236",
    "egg": "01123",
    "yolk": "01125",
    "butter": "01001",
    "cream": "01053",
    "sour cream": "01056",
    "cream cheese": "01017",
    "cheddar": "01009",
    "parmesan": "01033",
    "olive oil": "04053",
    "lard": "04002",
    "stock": "06172",
    "water": "14411",
    "gelatine": "19177",
    "leek": "11246",
    "onion": "11282",
    "garlic": "11215",
    "cauliflower": "11135",
    "lettuce": "11251",
    "spinach": "11457",
    "almonds": "12061",
    "flaxseed": "12220",
    "lemon juice": "09152",
    "vinegar": "02048",
    "mustard": "02046",
    "salt": "02047",
    "pepper": "02030",
    "paprika": "02028",
}


def item(name: str, food: str | None = None, **fields: object) -> Document:
    """An item of the pantry."""
    return {"name": name, "source": {"kind": "food", "id": f"sr28:{FOODS[food or name]}"}, **fields}


def band(of: str, at_least: float, at_most: float) -> Document:
    """A target, per portion."""
    return {"of": of, "at_least": at_least, "at_most": at_most}


def dish(title: str, portions: int, targets: list[Document], amounts: Mapping[str, Mapping[str, str]]) -> Document:
    """A brief with a base dish of one component, or of several. amounts: component to item to amount.

    A component is named with its method, as "loaf: baked loaf"; "" is a dish without components.
    """
    parts = [name.partition(": ") for name in amounts if name]
    components = [
        {"name": name, **({"method": method, "drippings": "discarded"} if method else {})} for name, _, method in parts
    ]
    places: dict[str, list[str]] = {}
    base: list[Document] = []
    for part, inside in amounts.items():
        for name, amount in inside.items():
            where = {"goes_in": part.partition(": ")[0]} if part else {}
            places.setdefault(name, []).extend(where.values())
            base.append({"item": name, "amount": amount, **where})
    pantry = [item(name) | ({"goes_in": inside} if inside else {}) for name, inside in places.items()]
    brief: Document = {"title": title, "portions": portions, "pantry": pantry, "base": base, "targets": targets}
    return brief | ({"components": components} if components else {})


DISHES: dict[str, Document] = {
    "leek soup": dish(
        "Leek soup", 2, [band("fat_share_percent", 62, 90), band("energy_kcal", 250, 600)],
        {"": {"leek": "300 g", "stock": "600 g", "butter": "40 g", "cream": "100 g", "yolk": "2 large",
              "salt": "1 tsp", "lemon juice": "1 tbsp", "pepper": "1 g"}},
    ),
    "patties": dish(
        "Patties", 4, [band("fat_share_percent", 62, 85), band("protein_g", 20, 60)],
        {"patties: broiled patty": {"beef mince": "500 g", "egg": "1 large", "onion": "60 g", "salt": "6 g",
                                    "paprika": "2 g"},
         "pan sauce": {"butter": "20 g", "cream": "60 g", "lemon juice": "1 tsp"}},
    ),
    "mayonnaise": dish(
        "Mayonnaise", 10, [band("fat_share_percent", 95, 100), band("energy_kcal", 200, 400)],
        {"": {"yolk": "2 large", "olive oil": "300 g", "lemon juice": "1 tbsp", "mustard": "1 tsp", "salt": "3 g"}},
    ),
    "salad": dish(
        "Dressed salad", 2, [band("fat_share_percent", 75, 95), band("energy_kcal", 200, 450)],
        {"bowl": {"lettuce": "200 g", "olive oil": "4 tbsp", "vinegar": "1 tbsp", "mustard": "1 tsp", "salt": "2 g",
                  "parmesan": "30 g"}},
    ),
    "loaf": dish(
        "Loaf", 5, [band("fat_share_percent", 55, 85), band("protein_g", 20, 60)],
        {"loaf: baked loaf": {"beef mince": "600 g", "bacon": "150 g", "egg": "1 large", "onion": "80 g",
                              "salt": "7 g", "cheddar": "80 g", "pepper": "1 g"},
         "sauce": {"sour cream": "120 g"}},
    ),
    "custard": dish(
        "Savoury custard", 3, [band("fat_share_percent", 75, 90), band("protein_g", 8, 40)],
        {"": {"cream": "300 g", "egg": "3 large", "parmesan": "40 g", "salt": "2 g", "pepper": "0.5 g"}},
    ),
    "mash": dish(
        "Cauliflower mash", 3, [band("fat_share_percent", 70, 95), band("energy_kcal", 150, 400)],
        {"": {"cauliflower": "500 g", "butter": "50 g", "cream": "60 g", "salt": "4 g", "garlic": "6 g"}},
    ),
    "salmon": dish(
        "Salmon, its sauce and greens", 2, [band("fat_share_percent", 65, 90), band("energy_kcal", 400, 900)],
        {"fish: roasted": {"salmon": "300 g", "salt": "2 g"},
         "sauce": {"butter": "50 g", "yolk": "2 large", "lemon juice": "1 tbsp", "salt": "1 g", "olive oil": "1 tsp"},
         "greens": {"spinach": "200 g", "olive oil": "1 tbsp"}},
    ),
    "terrine": dish(
        "Cold terrine", 4, [band("fat_share_percent", 40, 80), band("protein_g", 15, 60)],
        {"terrine: roasted": {"chicken": "400 g"},
         "jelly": {"cream": "150 g", "stock": "300 g", "gelatine": "7 g", "salt": "5 g"}},
    ),
    "cheese bake": dish(
        "Cheese bake", 4, [band("fat_share_percent", 75, 92), band("energy_kcal", 300, 600)],
        {"": {"cheddar": "200 g", "cream cheese": "150 g", "egg": "2 large", "almonds": "60 g", "salt": "1 g"}},
    ),
}  # fmt: skip
