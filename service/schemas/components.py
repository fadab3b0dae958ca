"""Components as they come in: what is cooked together, how, and what the scale has said of it."""

from typing import Annotated, Literal

from pydantic import Field

from service.schemas.amounts import Amount
from service.schemas.base import Incoming


class ComponentBody(Incoming):
    """What is cooked together, or eaten together as it is. Left out, everything goes into one dish, eaten as it is."""

    name: Annotated[str, Field(min_length=1, max_length=100, examples=["patties"])]
    """What it is called; unique in the brief. Items name it in `goes_in`."""
    method: Annotated[str | None, Field(min_length=1, max_length=60, examples=["broiled patty"])] = None
    """How it is cooked: a mix (`broiled patty`, `baked loaf`) or a method for pieces (`roasted`, `braised`), as
    `GET /v1/cooking-methods` lists them. Left out: eaten as it is."""
    drippings: Annotated[Literal["discarded", "served", "spooned back"] | None, Field(examples=["spooned back"])] = None
    """Where the fat goes that runs out: poured away (so when left out), eaten with it, or spooned back, as many
    teaspoons as the targets need."""
    minutes: Annotated[float | None, Field(gt=0, le=10_000, examples=[60])] = None
    """How long it simmers or bakes, min; decides how much alcohol stays."""
    form: Annotated[
        Literal["whole cut", "minced", "stuffed", "rolled", "injected", "tenderised", "casserole", "reheated"] | None,
        Field(examples=["stuffed"]),
    ] = None
    """What was done to the meat, which decides its safe temperature; what the foods' names say when left out."""
    cooked_weight: Annotated[Amount | None, Field(examples=["512 g"])] = None
    """What it weighed when it was cooked, drippings apart. The scale outranks every table."""
    drippings_weight: Annotated[Amount | None, Field(examples=["140 g"])] = None
    """What the fat weighed that ran out, juices apart. The scale outranks every table."""
    finished: bool = Field(default=False, examples=[False])
    """Nothing more goes in: every item of it is `already_in`. Always so once something of it was weighed."""
