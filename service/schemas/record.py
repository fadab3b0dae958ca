"""What was asked and what came of it, in one file: made by `--save` and in the keep folder, read by `replay`."""

from typing import Annotated, Literal

from pydantic import Field

from service.schemas.base import Incoming

#: What can be asked again.
Job = Literal["plan", "rework", "reach"]


class Record(Incoming):
    """A saved brief with its answer. One without an answer has the fault in its place."""

    job: Annotated[Job, Field(examples=["plan"])] = "plan"
    """Which command it was asked of."""
    asked: Annotated[dict[str, object], Field(examples=[{"title": "Patties for four"}])]
    """The brief, or for another job its document, as it was sent."""
    answer: Annotated[dict[str, object] | None, Field(examples=[{"outcome": "undecided"}])] = None
    """The answer as the service gave it; null where there was a fault."""
    fault: Annotated[str | None, Field(max_length=200, examples=["BackendError"])] = None
    """The kind of fault; null where there is an answer."""
    solver: Annotated[str | None, Field(max_length=200, examples=["highs 1.16.0"])] = None
    """Who solved it, with the version; null where nobody has said."""
    programme: Annotated[str | None, Field(max_length=200, examples=["larderline-20261126T070000.123-1a2b3c.mps"])] = (
        None
    )
    """The file beside it with the programme that stayed undecided or broke, in MPS format; null where there is none."""
