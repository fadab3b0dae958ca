"""Answers in the form that the client wants: what the address and the Accept header ask for, and writing it."""

from dataclasses import dataclass, replace
from typing import Annotated, Any, Literal, TypeVar

import anyio.to_thread
from fastapi import Depends, Query, Request, Response
from starlette.exceptions import HTTPException

from service.cards.card import Paper
from service.cards.formats import MEDIA_TYPES, Carded, Format, Writer
from service.cards.page import Pages
from service.cards.reader import Energy, Kitchen, Reader, Temperature
from service.cards.words import words_of
from service.negotiation import acceptable
from service.schemas.breakdown_body import BreakdownBody
from service.schemas.brief import BriefBody
from service.schemas.rework import ReworkBody

_Answer = TypeVar("_Answer", bound=Carded)
_Body = TypeVar("_Body", BriefBody, BreakdownBody, ReworkBody)

#: For the contract: what a successful answer may be besides JSON.
REPRESENTATIONS: dict[int | str, dict[str, Any]] = {
    200: {
        "content": {
            media_type: {"schema": {"type": "string", **({"format": "binary"} if form == "pdf" else {})}}
            for form, media_type in MEDIA_TYPES.items()
            if form != "json"
        }
    },
}


@dataclass(frozen=True, slots=True)
class Wanted:
    """What the client wants an answer as. nutrition_as: None leaves it to the body."""

    form: Format
    writer: Writer
    nutrition_as: Literal["US", "EU"] | None = None

    async def of(self, answer: _Answer) -> _Answer | Response:
        """The answer itself, which the framework writes as JSON, or the response that holds it in another form."""
        if self.form == "json":
            return answer
        return await anyio.to_thread.run_sync(self._written, answer)

    def with_nutrition(self, body: _Body) -> _Body:
        """The body, asking for the nutrition numbers that the address asks for."""
        if self.nutrition_as is None:
            return body
        if isinstance(body, ReworkBody):
            return body.model_copy(update={"brief": self.with_nutrition(body.brief)})
        return body.model_copy(update={"nutrition_as": self.nutrition_as})

    def _written(self, answer: Carded) -> Response:
        written = self.writer.write(answer, self.form)
        headers = {"Vary": "Accept", "Content-Disposition": f'inline; filename="{written.file_name}"'}
        if self.form == "html":
            headers["Content-Security-Policy"] = self.writer.pages.policy
        return Response(written.content, headers=headers, media_type=written.media_type)


async def written_of(
    request: Request,
    *,
    form: Annotated[Format | None, Query(alias="format", description="In place of the Accept header.")] = None,
    units: Annotated[Kitchen, Query(description="Weights in grams, or in pounds and ounces.")] = "metric",
    energy: Annotated[Energy, Query(description="The unit of energy on a card.")] = "kcal",
    temperature: Annotated[Temperature, Query(description="The unit of temperatures on a card.")] = "celsius",
    paper: Annotated[Paper, Query(description="Of a PDF.")] = "A4",
    language: Annotated[
        str,
        Query(
            pattern="^[a-zA-Z]{2,3}(-[a-zA-Z0-9]{1,8})*$",
            max_length=35,
            description="Of the words of a card (BCP 47); English where there is no translation.",
        ),
    ] = "en",
) -> Wanted:
    """The form of the answer: `format` in the address, else the best that Accept allows. Raises 406 for none."""
    if form is None:
        offered = tuple((media_type, name) for name, media_type in MEDIA_TYPES.items())
        form = acceptable(request.headers.get("accept", ""), offered)
    if form is None:
        kinds = ", ".join(MEDIA_TYPES.values())
        raise HTTPException(406, f"An answer is written as one of {kinds}; Accept allows none of them.")
    pages: Pages = request.app.state.pages
    return Wanted(form, Writer(Reader(units, energy, temperature, words_of(language)), pages, paper))


#: A parameter of every route whose answer has a card, and no nutrition numbers or none that can still be asked for.
InWrittenForm = Annotated[Wanted, Depends(written_of)]


async def wanted_of(
    written: InWrittenForm,
    nutrition_as: Annotated[
        Literal["US", "EU"] | None, Query(description="As `nutrition_as` of the body, which it replaces.")
    ] = None,
) -> Wanted:
    """The same, with what the address asks for of the answer itself."""
    return replace(written, nutrition_as=nutrition_as)


#: A parameter of every route whose answer has a card and nutrition numbers.
InWantedForm = Annotated[Wanted, Depends(wanted_of)]
