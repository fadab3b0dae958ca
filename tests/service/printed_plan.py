"""A printed plan taken apart: its sections, its rows, every number in them, and what the solver chose."""

import re

from tests.service.patties_by_hand import Patties
from tests.service.patties_figures import EGG_LARGE_G, TEASPOON_G

#: The brief that is read by hand.
BRIEF = "openapi/examples/patties-spooned-back.json"

WEIGH_OUT, COOK, COMES_TO = "Weigh out, before cooking, for the whole batch", "Cook", "What it comes to"

#: A number, with its sign and the unit or word behind it.
_NUMBER = re.compile(r"[-+]?\d+(?:\.\d+)*(?:/\d+)?(?:\s?(?:%|°[CF]|[A-Za-z]+))?")


def sections_of(text: str) -> dict[str, str]:
    """Heading to what stands under it; the title under ""."""
    title, *rest = text.strip().split("\n\n")
    return {"": title, **{heading: body for heading, _, body in (part.partition("\n") for part in rest)}}


def numbers(text: str) -> list[str]:
    """All numbers in it, in order."""
    return [" ".join(found.split()) for found in _NUMBER.findall(text)]


def row(section: str, name: str) -> list[str]:
    """The numbers of the one row with that name."""
    (line,) = [line for line in section.splitlines() if line.strip().startswith(name)]
    return numbers(line)


def chosen_in(sections: dict[str, str]) -> Patties:
    """What the solver chose, as it is printed: grams to a tenth, and whole teaspoons and eggs."""
    grams = {name: _printed(sections, name, r"([\d.]+) g") for name in ("ground beef", "onion", "farm cheese")}
    spoons = re.search(r"spoon back (\d+) tsp", " ".join(sections[COOK].split()))
    assert spoons is not None
    return Patties(
        beef=grams["ground beef"],
        egg=EGG_LARGE_G * _printed(sections, "egg", r"(\d+) large"),
        onion=grams["onion"],
        tallow=TEASPOON_G * _printed(sections, "tallow", r"(\d+) tsp"),
        cheese=grams["farm cheese"],
        spoons=int(spoons[1]),
    )


def _printed(sections: dict[str, str], name: str, pattern: str) -> float:
    (line,) = [line for line in sections[WEIGH_OUT].splitlines() if line.strip().startswith(name)]
    found = re.search(pattern, line)
    assert found is not None, line
    return float(found[1])
