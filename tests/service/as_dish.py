"""A plan as the dish that it is, to be broken down; and random briefs of what is cooked."""

import random

from tests.service.briefs import Document, food


def as_dish(brief: Document, plan: Document, **fields: object) -> Document:
    """The body of a breakdown: the amounts and spoons of a plan, and all else as its brief has it."""
    sources = {item["name"]: item["source"] for item in brief["pantry"]}
    spoons = {part["name"]: part["spoon_back"] for part in plan["components"]}
    kept = ("title", "portions", "dishes", "energy_basis", "count_missing_as", "eater", "safe_temperatures")
    dish = {field: brief[field] for field in kept if field in brief}
    if "components" in brief:
        dish["components"] = [_with_spoons(part, spoons.get(part["name"])) for part in brief["components"]]
    dish["ingredients"] = [
        {
            "name": f"{number} {each['name']}",  # tallow in two places is two ingredients
            "source": sources[each["name"]],
            "amount": {"value": each["grams"], "unit": "g"},
            **({"goes_in": each["component"]} if "components" in brief else {}),
        }
        for number, each in enumerate(plan["quantities"])
    ]
    return {**dish, **fields}


def _with_spoons(part: Document, spoons: str | None) -> Document:
    if part.get("drippings") != "spooned back":
        return part
    return {**part, "teaspoons": int((spoons or "0 tsp").removesuffix(" tsp"))}


#: USDA SR28: mince of 30, 20 and 10 % fat; cuts; fats; what goes beside.
MINCES = ("13498", "23572", "23562")
CUTS = ("05091", "05057", "10036")
FATS = ("04001", "04002", "01001")
BESIDE = ("11090", "09037", "01009", "04053")


def random_cooked_brief(seed: int) -> Document:
    """A brief of patties, a roast and what is at the table, with targets so wide that it has a plan."""
    chance = random.Random(seed)  # noqa: S311  chance, not secrecy
    fates = [chance.choice(["discarded", "served", "spooned back"]) for _ in range(2)]
    fat = chance.choice([["patties", "at the table"], ["at the table"], ["roast", "patties"]])
    return {
        "title": f"random {seed}",
        "portions": chance.randint(1, 5),
        "energy_basis": chance.choice(["general", "regulation", "specific", "declared"]),
        "components": [
            {"name": "patties", "method": chance.choice(["broiled patty", "baked loaf"]), "drippings": fates[0]},
            {"name": "roast", "method": chance.choice(["roasted", "braised", "hot air"]), "drippings": fates[1]},
            {"name": "at the table"},
        ],
        "pantry": [
            food("mince", chance.choice(MINCES), goes_in=["patties"], at_least=f"{chance.randint(100, 400)} g"),
            food("egg", "01123", goes_in=["patties"], step="1 large", at_most="3 large"),
            food("cut", chance.choice(CUTS), goes_in=["roast"], at_least=f"{chance.randint(100, 300)} g"),
            food("fat", chance.choice(FATS), goes_in=fat, step="1 tsp", at_least="4 tsp"),
            *(
                food(f"beside {n}", number, goes_in=["at the table"])
                for n, number in enumerate(chance.sample(BESIDE, 2))
            ),
        ],
        "targets": [
            {"of": "energy_kcal", "per": "batch", "aim": chance.randint(1800, 3500), "within": 60},
            {"of": "fat_share_percent", "aim": chance.randint(68, 80), "within": 2},
        ],
        "time_limit_s": 10,
    }
