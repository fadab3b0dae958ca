"""Names in a brief: what may be printed, and what a name of a quantity or nutrient stands for."""

import difflib
import unicodedata
from collections.abc import Collection, Iterable

from service.translate.place import Place
from solver.quantities import QUANTITIES

#: Unicode categories that would disturb a terminal or a log: controls, line and paragraph separators.
_UNPRINTABLE = frozenset({"Cc", "Zl", "Zp"})

#: What people say, as a part of a name, for what the contract calls otherwise.
_SAID = {
    "carb": ("available_carbohydrate_g", "total_carbohydrate_g"),
    "calor": ("energy_kcal",),
    "kj": ("energy_kcal",),
    "salt": ("sodium_mg",),
}


def refuse_unprintable(text: str, place: Place) -> None:
    """Refuse a text that is blank, or that holds control characters or line breaks."""
    if not text.strip():
        place.refuse("blank", "The text is blank.", "Write at least one letter.")
    elif not text.isprintable() and any(unicodedata.category(letter) in _UNPRINTABLE for letter in text):
        place.refuse("not_printable", "The text holds a control character or a line break.", "Write it on one line.")


def refuse_equal_names(names: Iterable[str], place: Place, kind: str) -> None:
    """Refuse each name that came before, upper and lower case alike. place: that of the list; kind: what they name."""
    seen: set[str] = set()
    for index, name in enumerate(names):
        key = name.strip().casefold()
        if key in seen:
            detail, remedy = f"Another {kind} has this name.", f"Give each {kind} a name of its own."
            (place / index / "name").refuse("repeated_name", detail, remedy)
        seen.add(key)


def refuse_unknown(name: str, known: Collection[str], code: str, place: Place) -> bool:
    """Refuse a name that is not `known`, with the nearest that are; says whether it was refused."""
    if name in known:
        return False
    near = [] if place.is_full else _near(name, known)
    hint = f"Near it: {', '.join(near)}. " if near else ""
    place.refuse(code, "There is nothing of this name.", f"{hint}The API's description lists all names.")
    return True


def _near(name: str, known: Collection[str]) -> list[str]:
    """Up to three: what people mean by it, what it is a part of, what is spelt alike."""
    meant = [each for said, names in _SAID.items() if said in name.casefold() for each in names if each in known]
    whole = [each for each in known if len(name) > 1 and name.casefold() in each]
    return list(dict.fromkeys((*meant, *whole, *difflib.get_close_matches(name, known, n=3))))[:3]


def names_in_markdown() -> str:
    """The list of everything a target may be of, for the API's description."""
    rows = (f"| `{quantity.name}` | {quantity.unit} | {quantity.title} |" for quantity in QUANTITIES)
    return "\n".join(("| name | unit | what it is |", "|---|---|---|", *rows))
