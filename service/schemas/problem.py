"""Problem documents after RFC 9457, served as `application/problem+json`."""

from typing import Annotated

from pydantic import Field

from service.schemas.base import Outgoing

#: The media type that RFC 9457 section 3 registers.
MEDIA_TYPE = "application/problem+json"


class ProblemItem(Outgoing):
    """One thing to mend in the request."""

    pointer: Annotated[str, Field(examples=["/targets/2/at_least"])]
    """RFC 6901 JSON pointer to the field; empty for the whole document."""
    code: Annotated[str, Field(examples=["wrong_type"])]
    """Stable code, for programs."""
    detail: Annotated[str, Field(examples=["Input should be a valid number"])]
    """What is wrong."""
    remedy: Annotated[str, Field(examples=["Give a plain JSON number, without quotes."])]
    """How to mend it."""


class ProblemDocument(Outgoing):
    """What went wrong with the request as a whole, and each thing to mend."""

    type: Annotated[str, Field(examples=["tag:larderline.example,2026:unusable-brief"])] = "about:blank"
    """Identifies the kind of problem; `about:blank` when the status says it all."""
    title: Annotated[str, Field(examples=["The brief cannot be used as it is"])]
    """The kind of problem in words; the same for every occurrence."""
    status: Annotated[int, Field(examples=[422])]
    """The HTTP status."""
    detail: Annotated[str, Field(examples=["2 things to mend."])]
    """This occurrence in words."""
    instance: Annotated[str | None, Field(examples=["urn:uuid:8c2f0d8e-7d0b-4a52-9c1c-1a1f0c5b8a11"])] = None
    """Identifies this occurrence in the service's log; only for faults of the service."""
    problems: list[ProblemItem] = Field([])
    """Everything found, in the order of the document; at most a hundred are listed."""
