"""A page for every kind of problem: where the `type` of a problem document leads. One table, by code."""

from collections.abc import Mapping
from types import MappingProxyType

from service.problem_pages.amounts import AMOUNTS
from service.problem_pages.bodies import BODIES
from service.problem_pages.components import COMPONENTS
from service.problem_pages.dishes import DISHES
from service.problem_pages.eater import EATER
from service.problem_pages.exclude import EXCLUDE
from service.problem_pages.fields import FIELDS
from service.problem_pages.labels import LABELS
from service.problem_pages.names import NAMES
from service.problem_pages.page import Page
from service.problem_pages.portions import PORTIONS
from service.problem_pages.requests import REQUESTS
from service.problem_pages.reworks import REWORKS
from service.problem_pages.rules import RULES
from service.problem_pages.targets import TARGETS
from service.problem_pages.work import WORK

#: Headings of the index, each with its codes.
CHAPTERS: Mapping[str, Mapping[str, Page]] = MappingProxyType(
    {
        "The request as a whole": REQUESTS,
        "The JSON text": BODIES,
        "Fields": FIELDS,
        "Names": NAMES,
        "Amounts": AMOUNTS,
        "Labels": LABELS,
        "Components": COMPONENTS,
        "Dishes in dishes": DISHES,
        "What is left out": EXCLUDE,
        "Who eats": EATER,
        "Portions": PORTIONS,
        "Rules": RULES,
        "A base dish": REWORKS,
        "Targets and what they need": TARGETS,
        "Work that is followed": WORK,
    }
)

#: Code to page.
PAGES: Mapping[str, Page] = MappingProxyType(
    {code: page for chapter in CHAPTERS.values() for code, page in chapter.items()}
)

__all__ = ["CHAPTERS", "PAGES", "Page"]
