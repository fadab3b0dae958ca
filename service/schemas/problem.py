"""Problem documents after RFC 9457, served as `application/problem+json`.

A member that says nothing is left out, as the RFC has it, and is not null.
"""

from typing import Annotated

from pydantic import Field

from service.schemas.base import Outgoing

#: The media type that RFC 9457 section 3 registers.
MEDIA_TYPE = "application/problem+json"


class ProblemItem(Outgoing, json_schema_serialization_defaults_required=False):
    """One thing to mend in the request."""

    pointer: Annotated[str, Field(examples=["/targets/2/at_least"])]
    """RFC 6901 JSON pointer to the field of the body; empty for the whole body, or when it is about a parameter."""
    parameter: Annotated[str | None, Field(examples=["query"])] = None
    """The parameter of the address that it is about; absent when it is about the body."""
    code: Annotated[str, Field(examples=["wrong_type"])]
    """Stable code, for programs."""
    type: Annotated[str, Field(examples=["/problems/wrong_type"])]
    """Where the page about this kind of problem is, on the service itself."""
    detail: Annotated[str, Field(examples=["Input should be a valid number"])]
    """What is wrong."""
    remedy: Annotated[str, Field(examples=["Give a plain JSON number, without quotes."])]
    """How to mend it."""


class ProblemDocument(Outgoing, json_schema_serialization_defaults_required=False):
    """What went wrong with the request as a whole, and each thing to mend."""

    type: Annotated[str, Field(examples=["/problems/unusable_request"])]
    """Identifies the kind of problem, and leads to a page about it on the service itself; `about:blank` when the
    status says it all."""
    title: Annotated[str, Field(examples=["The request cannot be used as it is"])]
    """The kind of problem in words; the same for every occurrence."""
    status: Annotated[int, Field(examples=[422])]
    """The HTTP status."""
    detail: Annotated[str, Field(examples=["2 things to mend."])]
    """This occurrence in words."""
    instance: Annotated[str | None, Field(examples=["urn:uuid:8c2f0d8e-7d0b-4a52-9c1c-1a1f0c5b8a11"])] = None
    """Identifies this occurrence in the service's log; only for faults of the service."""
    problems: list[ProblemItem]
    """Everything found, in the order of the document; at most a hundred are listed."""
