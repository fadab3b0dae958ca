"""Briefs in few words, for the tests that change one thing in them."""

from typing import Any, TypeAlias

Document: TypeAlias = dict[str, Any]

#: 900 g of mince with 30 % fat in broiled patties, drippings spooned back, and tallow that may go to two places.
PATTIES: Document = {"name": "patties", "method": "broiled patty", "drippings": "spooned back"}
TABLE: Document = {"name": "at the table"}


def food(name: str, number: str, **fields: object) -> Document:
    """A pantry item of the SR28 table."""
    return {"name": name, "source": {"kind": "food", "id": f"sr28:{number}"}, **fields}


def from_dish(name: str, dish: str, **fields: object) -> Document:
    """An item or ingredient that is a dish."""
    return {"name": name, "source": {"kind": "dish", "name": dish}, **fields}


def brief(*pantry: Document, **fields: object) -> Document:
    """A brief for something to eat."""
    asked = {"of": "energy_kcal", "at_least": 100}
    return {"title": "Supper at the inn", "pantry": list(pantry), "targets": [asked], **fields}


def two_parts(*pantry: Document, **fields: object) -> Document:
    """A brief for patties and what stands beside them."""
    return brief(*pantry, components=[PATTIES, TABLE], **fields)


def mince(**fields: object) -> Document:
    """Mince with 30 % fat."""
    return food("mince", "13498", **{"goes_in": ["patties"], **fields})


def tallow(**fields: object) -> Document:
    """Tallow that may go into the patties or to the table."""
    return food("tallow", "04001", **{"goes_in": ["patties", "at the table"], **fields})


def grams(plan: Document, name: str) -> float:
    """How much of an item is in a plan, wherever it goes."""
    return float(sum(each["grams"] for each in plan["quantities"] if each["name"] == name))


def component(plan: Document, name: str) -> Document:
    """A component of a plan or a breakdown."""
    (found,) = [each for each in plan["components"] if each["name"] == name]
    return dict(found)
