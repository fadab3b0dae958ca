"""A page for every kind of problem: where the `type` of a problem document leads. One table, by code."""

from collections.abc import Mapping
from types import MappingProxyType

from service.problem_pages.amounts import AMOUNTS
from service.problem_pages.bodies import BODIES
from service.problem_pages.fields import FIELDS
from service.problem_pages.labels import LABELS
from service.problem_pages.names import NAMES
from service.problem_pages.page import Page
from service.problem_pages.requests import REQUESTS
from service.problem_pages.targets import TARGETS

#: Headings of the index, each with its codes.
CHAPTERS: Mapping[str, Mapping[str, Page]] = MappingProxyType(
    {
        "The request as a whole": REQUESTS,
        "The JSON text": BODIES,
        "Fields": FIELDS,
        "Names": NAMES,
        "Amounts": AMOUNTS,
        "Labels": LABELS,
        "Targets and what they need": TARGETS,
    }
)

#: Code to page.
PAGES: Mapping[str, Page] = MappingProxyType(
    {code: page for chapter in CHAPTERS.values() for code, page in chapter.items()}
)

__all__ = ["CHAPTERS", "PAGES", "Page"]
