"""A saved brief that was answered again: whether the answer is the same, and what is not."""

from typing import Annotated, Literal

from pydantic import Field

from service.schemas.base import Outgoing


class DifferenceAnswer(Outgoing):
    """One thing that is not as it was."""

    what: Annotated[str, Field(examples=["butter in the dish, g"])]
    """What it is, with its unit where it has one."""
    before: Annotated[float | str | None, Field(examples=[23.6])]
    """As saved; null where there was none."""
    after: Annotated[float | str | None, Field(examples=[24.1])]
    """As it is now; null where there is none."""


class ReplayAnswer(Outgoing):
    """What came of a saved brief before, and what comes of it now."""

    title: Annotated[str, Field(examples=["Patties for four"])]
    """As the brief gave it."""
    verdict: Annotated[Literal["the same", "as good, other amounts", "different"], Field(examples=["the same"])]
    """`as good, other amounts`: every level reaches as much, within what the proofs leave open, with other amounts."""
    before: Annotated[str, Field(examples=["plan"])]
    """What was saved: an outcome, `reach`, or `fault` with its kind."""
    after: Annotated[str, Field(examples=["plan"])]
    """The same of now."""
    solver_before: Annotated[str | None, Field(examples=["highs 1.16.0"])]
    """Who solved it then; null where nobody has said."""
    solver_after: Annotated[str, Field(examples=["highs 1.16.0"])]
    """Who solves it now."""
    differences: list[DifferenceAnswer]
    """All that is not as it was."""
