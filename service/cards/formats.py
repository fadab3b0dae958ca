"""The representations of an answer, in one table: what each is called, its media type, and how it is written."""

import json
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Literal, TypeAlias

from service.cards.card import Card, Paper
from service.cards.markdown import markdown
from service.cards.of_conflict import conflict_card, undecided_card
from service.cards.of_dishes import breakdown_card, plan_card
from service.cards.of_reach import reach_card
from service.cards.of_rework import rework_card
from service.cards.page import Pages
from service.cards.reader import Reader
from service.cards.recipe import recipe
from service.cards.tables_csv import table_csv
from service.schemas.answer import ConflictAnswer, PlanAnswer, UndecidedAnswer
from service.schemas.breakdown import BreakdownAnswer
from service.schemas.reach import ReachAnswer
from service.schemas.rework import ReworkAnswer

Format: TypeAlias = Literal["json", "html", "markdown", "csv", "recipe", "pdf"]

Carded: TypeAlias = PlanAnswer | ConflictAnswer | UndecidedAnswer | BreakdownAnswer | ReachAnswer | ReworkAnswer

#: Media type of each, our own first choice first.
MEDIA_TYPES: Mapping[Format, str] = MappingProxyType(
    {
        "json": "application/json",
        "html": "text/html",
        "markdown": "text/markdown",
        "csv": "text/csv",
        "recipe": "application/ld+json",
        "pdf": "application/pdf",
    }
)

#: Endings of file names.
ENDINGS: Mapping[Format, str] = MappingProxyType(
    {"html": "html", "markdown": "md", "csv": "csv", "recipe": "jsonld", "pdf": "pdf", "json": "json"}
)


@dataclass(frozen=True, slots=True)
class Written:
    """content: the body. media_type: with its charset. file_name: what to call it when it is kept."""

    content: bytes
    media_type: str
    file_name: str


@dataclass(frozen=True, slots=True)
class Writer:
    """Writes answers for one reader. paper: of the PDF."""

    reader: Reader
    pages: Pages
    paper: Paper = "A4"

    def write(self, answer: Carded, wanted: Format) -> Written:
        """An answer in another form. What is no dish has no recipe: it is written as JSON."""
        if wanted == "recipe" and not isinstance(dish_of(answer), PlanAnswer | BreakdownAnswer):
            wanted = "json"
        card = card_of(answer, self.reader)
        media_type = MEDIA_TYPES[wanted]
        charset = "; charset=utf-8" if media_type.startswith("text/") else ""
        return Written(self._content(answer, card, wanted), media_type + charset, f"{card.file_name}.{ENDINGS[wanted]}")

    def _content(self, answer: Carded, card: Card, wanted: Format) -> bytes:
        if wanted == "html":
            return self.pages.page(card).encode()
        if wanted == "markdown":
            return markdown(card).encode()
        if wanted == "csv":
            return table_csv(answer).encode()
        if wanted == "pdf":
            from service.cards.document import document  # noqa: PLC0415  a fifth of the time to start, for few answers

            return document(card, self.paper)
        dish = dish_of(answer)
        if wanted == "recipe" and isinstance(dish, PlanAnswer | BreakdownAnswer):
            return json.dumps(recipe(dish, self.reader), ensure_ascii=False).encode()
        return answer.model_dump_json().encode()


def card_of(answer: Carded, reader: Reader) -> Card:
    """The card of any answer."""
    match answer:
        case PlanAnswer():
            return plan_card(answer, reader)
        case BreakdownAnswer():
            return breakdown_card(answer, reader)
        case ConflictAnswer():
            return conflict_card(answer, reader)
        case UndecidedAnswer():
            return undecided_card(answer, reader)
        case ReachAnswer():
            return reach_card(answer, reader)
        case ReworkAnswer():
            return rework_card(answer, card_of(answer.answer, reader), reader)


def dish_of(answer: Carded) -> Carded:
    """The answer about a dish that is in an answer: of a rework the dish made anew."""
    return answer.answer if isinstance(answer, ReworkAnswer) else answer
