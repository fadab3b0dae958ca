"""What quantities are called on a card, in the reader's language."""

from service.cards.reader import Reader


def title_of(name: str, reader: Reader) -> str:
    """The title of a quantity; of one that cards seldom show, its name without the unit."""
    titles = {
        "energy_kcal": reader.say("energy"),
        "fat_g": reader.say("fat"),
        "protein_g": reader.say("protein"),
        "available_carbohydrate_g": reader.say("available carbohydrate"),
        "total_carbohydrate_g": reader.say("total carbohydrate"),
        "fibre_g": reader.say("fibre"),
        "sugars_g": reader.say("sugars"),
        "saturated_fat_g": reader.say("saturated fat"),
        "sodium_mg": reader.say("sodium"),
        "cholesterol_mg": reader.say("cholesterol"),
        "fat_share_percent": reader.say("fat share"),
        "protein_share_percent": reader.say("protein share"),
        "carbohydrate_share_percent": reader.say("carbohydrate share"),
        "ketogenic_ratio": reader.say("ketogenic ratio"),
    }
    return titles.get(name) or name.rpartition("_")[0].replace("_", " ")


def unit_of(name: str) -> str:
    """The unit that ends a nutrient's name."""
    unit = name.rpartition("_")[2]
    return {"ug": "µg"}.get(unit, unit)


def shortened(text: str, most: int) -> str:
    """A text that fits into a drawing; what is left out is in the alternative text."""
    return text if len(text) <= most else f"{text[: most - 1].rstrip()}…"
