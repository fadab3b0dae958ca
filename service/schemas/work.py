"""Work that goes on after its request was answered (RFC 7240, `respond-async`): what is told of it until it is done."""

from typing import Annotated, Literal

from pydantic import Field

from service.schemas.base import Outgoing
from service.schemas.dish import DishAnswer
from service.schemas.problem import ProblemDocument


class ProgressAnswer(Outgoing):
    """How far the solver is at the level that it is at; the levels of a brief follow one another, as in `proof`."""

    level: Annotated[str, Field(examples=["balanced"])]
    """What is sought at this level, as in `proof`."""
    value: Annotated[float | None, Field(examples=[0.28])]
    """What the best found so far reaches, in the level's own measure; less is better. Null before the first."""
    bound: Annotated[float | None, Field(examples=[0.1])]
    """Nothing is below this, as the solver claims, in the same measure; null until it has one."""
    gap: Annotated[float | None, Field(examples=[0.18])]
    """`value` less `bound`, in the same measure: it closes to 0, or to where a proof may stop. Null until both are
    known."""
    best: DishAnswer | None
    """The best dish so far, in amounts that a kitchen can measure, checked like any plan: it meets every must, and a
    better one may follow. Null until there is one."""


class WorkAnswer(Outgoing):
    """Work that was asked for with `Prefer: respond-async`."""

    outcome: Literal["work"]
    """Always `work`: tells it apart from an answer."""
    id: Annotated[str, Field(examples=["Zm9sbG93LXRoZS13b3JrIQ"])]
    """Names it in `/v1/work/{id}`. Nobody can guess it, and where keys are set only the key that asked may use it."""
    of: Annotated[Literal["plan", "rework", "reach"], Field(examples=["plan"])]
    """What was asked for."""
    state: Annotated[Literal["queued", "running", "done", "failed", "cancelled"], Field(examples=["running"])]
    """`done`: `answer` leads to the answer. `failed`: `problem` says why there is none."""
    elapsed_s: Annotated[float, Field(examples=[3.2])]
    """Time since it was asked for, until it ended, s."""
    progress: ProgressAnswer | None
    """How far it is, or how far it was; null before there is anything to tell, and for `reach`."""
    answer: Annotated[str | None, Field(examples=["/v1/work/Zm9sbG93LXRoZS13b3JrIQ/answer"])]
    """Where the answer is once it is done or has failed: the same, in the same forms, as to a request that waits for
    it. Null before that."""
    problem: ProblemDocument | None
    """Why it failed; null when it did not."""
    kept_s: Annotated[float | None, Field(examples=[596.8])]
    """For how long the answer is still kept, s; null until it ended."""
