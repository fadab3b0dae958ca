"""Answers made by hand, for what no service can be made to answer on demand."""

from typing import Any

TOTALS = {
    "grams": 400.0,
    "energy_kcal": 1300.4,
    "energy_kj": 5441.2,
    "nutrients": {"protein_g": 70.04, "fat_g": 108.0, "available_carbohydrate_g": 9.0, "fibre_g": None},
    "lacking": {"protein_g": ["stock"]},
}

TARGET = {
    "id": "share",
    "of": "fat_share_percent",
    "per": "portion",
    "unit": "%",
    "at_least": 74.0,
    "at_most": 76.0,
    "aim": 75.0,
    "within": 1.0,
    "priority": None,
    "basis": "as_eaten",
    "value": 74.0,
    "reason": None,
    "met": True,
    "binding": True,
    "miss": 0.0,
    "worst_case": None,
}


def quantity(name: str, grams: float, **changes: object) -> dict[str, object]:
    shown = {"text": f"{grams} g", "steps": None, "about": None, "as_purchased_grams": None, "component": "patties"}
    return {"name": name, "food_id": f"f:{name}", "grams": grams, **shown, **changes}


COOKED = {
    "name": "patties",
    "method": "broiled patty",
    "drippings": "spooned back",
    "raw_g": 900.0,
    "cooked_g": 506.5,
    "cooked_weight_is": "estimated",
    "cooked_off_by_g": 70.3,
    "fat_g": 270.0,
    "fat_kept_g": 95.3,
    "rendered_g": 174.7,
    "rendered_is": "estimated",
    "rendered_off_by_g": 9.0,
    "returned_g": 76.8,
    "lost_g": 97.9,
    "spoon_back": "18 tsp",
    "evaporated_g": 218.8,
    "eaten_g": 583.3,
    "why": "curve fitted",
    "items": [],
}
AS_IT_IS = {**COOKED, "name": "at the table", "method": None, "drippings": "discarded", "spoon_back": None}

DISH = {
    "quantities": [
        quantity("egg", 150.0, text="3 large", steps=3),
        quantity("tallow", 64.0, about="about 5 tbsp"),
        quantity("stock", 186.0),
    ],
    "batch": {**TOTALS, "grams": 800.0},
    "portion": TOTALS,
    "raw": TOTALS,
    "components": [COOKED, AS_IT_IS],
    "energy_distribution_percent": {"fat": 75, "protein": 22, "carbohydrate": 3, "alcohol": 0},
    "ketogenic_ratio": 1.3666,
    "ketogenic_ratio_reason": None,
    "targets": [TARGET],
    "rules": [],
    "choices": [],
    "cost": 7.5,
}

PROOF = {
    "levels": [
        {
            "level": "balanced",
            "status": "within_gap",
            "checked": "solver's claim",
            "value": 0.3,
            "bound": 0.25,
            "gap": 0.05,
            "seconds": 0.01,
        }
    ],
    "solver": "highs",
    "solver_version": "1.16.0",
    "seconds": 0.02,
}

COMMON = {
    "title": "Dish",
    "portions": 2,
    "energy_basis": "general",
    "proof": PROOF,
    "reminder": "Ask somebody.",
    "left_out": [{"name": "tin", "lacks": ["fibre_g"]}],
    "excluded": [{"name": "butter", "why": "contains milk"}],
    "cautions": [
        {"code": "raw_egg", "text": "Eggs are raw.", "trigger": "sauce: egg", "source": "sr28", "beside_a_step": None}
    ],
    "warnings": ["Mind the pan."],
}


def off_by(below: float, above: float | None) -> dict[str, float | None]:
    return {"below": below, "above": above}


OFF_TOTALS = {
    "grams": off_by(70, 70),
    "energy_kcal": off_by(40.04, 40.04),
    "energy_kj": off_by(160, 160),
    "nutrients": {"fat_g": off_by(4.1, 5.2)},
}
OFF_SOURCE = {"kind": "cooking", "about": "patties", "why": "the fat may be off.", "fat_share_points": None}
OFF: dict[str, Any] = {
    "text": "Exact for these inputs.",
    "batch": OFF_TOTALS,
    "portion": OFF_TOTALS,
    **{f"{part}_share_points": off_by(2, None) for part in ("fat", "protein", "carbohydrate")},
    "ketogenic_ratio": None,
    "sources": [{**OFF_SOURCE, "energy_kcal": off_by(1, 1)}] * 4,
    "nothing_stated_for": {},
}
