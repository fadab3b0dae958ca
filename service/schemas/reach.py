"""What a pantry can do: a brief and what to ask of it come in, ranges and a frontier go out."""

from typing import Annotated, Literal

from pydantic import Field

from service.schemas.answer import ExcludedAnswer, LeftOutAnswer
from service.schemas.base import Incoming, Outgoing
from service.schemas.brief import BriefBody
from service.schemas.cautions import CautionAnswer


class FrontierBody(Incoming):
    """Two different targets against each other, by the id of a target or the name of a quantity; no two ratios."""

    x: Annotated[str, Field(min_length=1, max_length=100, examples=["energy_kcal"])]
    """The one; an amount, or a ratio where `y` is an amount."""
    y: Annotated[str, Field(min_length=1, max_length=100, examples=["fat_share_percent"])]
    """The other. Two amounts give a polygon; a share or ratio against an amount gives its curve."""


class ReachBody(Incoming):
    """A brief, and what to ask of it besides the range of each of its targets."""

    brief: BriefBody
    """The brief as `POST /v1/plans` takes it; its `time_limit_s` is for the whole answer. Wishes hold nothing back."""
    of: Annotated[list[str] | None, Field(max_length=60, examples=[["sodium_mg"]])] = None
    """More quantities to give the range of, per portion as eaten."""
    frontier: FrontierBody | None = None
    """Two targets to hold against each other."""


class ReachAmount(Outgoing):
    """Grams of one item in one component, not rounded to what a kitchen measures."""

    name: Annotated[str, Field(examples=["egg"])]
    """The item, as the brief names it; `drippings of ...` for what is spooned back."""
    component: Annotated[str, Field(examples=["patties"])]
    """The component that it goes into."""
    grams: Annotated[float, Field(examples=[148.372])]
    """Grams of raw edible portion, for the whole batch."""


class EndAnswer(Outgoing):
    """One end of a range."""

    value: Annotated[float | None, Field(examples=[68.9])]
    """In the range's unit; null where there is none, and `note` says why."""
    status: Annotated[Literal["optimal", "within_gap", "best_found"], Field(examples=["optimal"])]
    """`optimal`: proven. `within_gap`: proven to within `gap`. `best_found`: the clock ended the search."""
    checked: Annotated[Literal["certificate checked", "solver's claim"], Field(examples=["certificate checked"])]
    """Who vouches for it: our own check of a certificate, or only the solver."""
    gap: Annotated[float | None, Field(examples=[0.0])]
    """How much further the range may go at most, in its unit; null where nobody knows. Of a ratio it is counted with
    the least denominator that the musts allow, and where that is nothing, with that of this dish."""
    note: Annotated[str | None, Field(examples=["Nothing limits butter."])]
    """Why there is no value, or what to mind."""
    amounts: list[ReachAmount]
    """A dish that reaches the value; empty where there is none."""


class RangeAnswer(Outgoing):
    """The least and the most of one quantity while the other musts hold."""

    id: Annotated[str, Field(examples=["fat_share_percent"])]
    """The target's id, or the name of the quantity."""
    of: Annotated[str, Field(examples=["fat_share_percent"])]
    """The quantity. Of protein with a lower end it is the protein that counts, collagen no more than its part."""
    per: Annotated[Literal["portion", "batch"], Field(examples=["portion"])]
    """What it is counted for."""
    basis: Annotated[Literal["as_eaten", "raw"], Field(examples=["as_eaten"])]
    """Counted after cooking, or before it."""
    unit: Annotated[str, Field(examples=["%"])]
    """UCUM unit of the numbers here; `1` for a ratio."""
    at_least: Annotated[float | None, Field(examples=[74])]
    """Lower end of the band that was asked for, in its unit, which holds nothing back here; null when open."""
    at_most: Annotated[float | None, Field(examples=[76])]
    """Upper end of that band, in its unit; null when open."""
    least: EndAnswer
    """As little as can be had."""
    most: EndAnswer
    """As much as can be had."""
    outer: Annotated[bool, Field(examples=[False])]
    """True where whose fat is in the drippings decides and each row took the source that is best for it: nothing
    outside the range can be had, and its ends may not be quite reached."""
    left_out: list[LeftOutAnswer]
    """Items that took no part, because a value is missing."""


class AxisAnswer(Outgoing):
    """One of the two targets of a frontier."""

    id: Annotated[str, Field(examples=["energy_kcal"])]
    """The target's id, or the name of the quantity."""
    of: Annotated[str, Field(examples=["energy_kcal"])]
    """The quantity; of protein all of it."""
    per: Annotated[Literal["portion", "batch"], Field(examples=["portion"])]
    """What it is counted for."""
    basis: Annotated[Literal["as_eaten", "raw"], Field(examples=["as_eaten"])]
    """Counted after cooking, or before it."""
    unit: Annotated[str, Field(examples=["kcal"])]
    """UCUM unit of its numbers."""


class VertexAnswer(Outgoing):
    """A corner of the polygon."""

    x: Annotated[float, Field(examples=[512.4])]
    """Of the first target, in its unit."""
    y: Annotated[float, Field(examples=[35.0])]
    """Of the second target, in its unit."""
    attained: Annotated[bool, Field(examples=[True])]
    """Whether steps, pans and least amounts when used allow just these amounts."""
    amounts: list[ReachAmount]
    """The dish of this corner."""


class _FrontierAnswer(Outgoing):
    """What both frontiers begin with."""

    x: AxisAnswer
    """The first target; of a curve the amount."""
    y: AxisAnswer
    """The second target; of a curve the share or ratio."""
    complete: Annotated[bool, Field(examples=[True])]
    """False where the clock ended the search, so that more may be reachable."""
    checked: Annotated[Literal["certificate checked", "solver's claim"], Field(examples=["certificate checked"])]
    """Who vouches that nothing more is reachable."""
    note: Annotated[str | None, Field(examples=["Nothing limits butter."])]
    """Why there is nothing, or what to mind."""
    left_out: list[LeftOutAnswer]
    """Items that took no part, because a value is missing."""


class PolygonAnswer(_FrontierAnswer):
    """What is reachable of two amounts while the musts other than these two hold."""

    kind: Literal["polygon"]
    """Always `polygon`."""
    vertices: list[VertexAnswer]
    """Counter-clockwise; what is reachable is inside."""
    outer: Annotated[bool, Field(examples=[False])]
    """True where steps, least amounts when used or mixes that lose fat make less reachable than the polygon."""
    gap_percent: Annotated[float | None, Field(examples=[0])]
    """How much further than an edge something may be reached, at most, in percent of the polygon's width; null where
    nobody knows, as of corners that are not attained."""


class PieceAnswer(Outgoing):
    """From `start` to `stop` of the amount t the ratio is (a + b t) / (c + d t), exactly."""

    start: Annotated[float, Field(examples=[312.0])]
    """Where the piece begins, in the unit of `x`."""
    stop: Annotated[float, Field(examples=[774.8])]
    """Where it ends, a breakpoint of the curve, in the unit of `x`."""
    a: Annotated[float, Field(examples=[-3971.2])]
    """Numerator at nothing, in its unit; times 100 for percent."""
    b: Annotated[float, Field(examples=[99.4])]
    """What the numerator gains with each unit of t, in its unit; times 100 for percent."""
    c: Annotated[float, Field(examples=[0.0])]
    """Denominator at nothing, in its unit."""
    d: Annotated[float, Field(examples=[1.0])]
    """What the denominator gains with each unit of t, in its unit."""


class CurveAnswer(_FrontierAnswer):
    """The least and the most of a share or ratio at every amount, while the musts other than these two hold."""

    kind: Literal["curve"]
    """Always `curve`."""
    least: list[PieceAnswer]
    """The lower curve, piece by piece."""
    most: list[PieceAnswer]
    """The upper curve, piece by piece."""
    in_bands: Annotated[bool, Field(examples=[False])]
    """True where steps, least amounts when used or mixes that lose fat give no exact curve: each piece is then the
    least or the most of any dish whose amount lies in it."""
    gap: Annotated[float | None, Field(examples=[0])]
    """How much further than a piece the ratio may go at most, in the unit of `y`; 0 of an exact curve, null where
    nobody knows."""


class ReachAnswer(Outgoing):
    """What the pantry can do under the musts."""

    title: Annotated[str, Field(examples=["Patties for four"])]
    """As the brief gave it."""
    portions: Annotated[int, Field(examples=[4])]
    """As the brief gave it."""
    energy_basis: Annotated[Literal["general", "regulation", "specific", "declared"], Field(examples=["general"])]
    """The energy factors that all energies here are counted with."""
    ranges: list[RangeAnswer]
    """One for each target of the brief in its order, then what `of` asked for."""
    frontier: Annotated[PolygonAnswer | CurveAnswer, Field(discriminator="kind")] | None
    """What `frontier` asked for; null when it asked for nothing."""
    solver: Annotated[str, Field(examples=["highs"])]
    """Name of the solver."""
    solver_version: Annotated[str, Field(examples=["1.16.0"])]
    """Its version."""
    seconds: Annotated[float, Field(examples=[0.05])]
    """Time spent, s."""
    excluded: list[ExcludedAnswer]
    """Items that were not considered, because `exclude` leaves them out."""
    cautions: list[CautionAnswer]
    """What may hurt somebody, each with its trigger and its source; never complete."""
    warnings: Annotated[list[str], Field(examples=[["Fibre is unknown, so all carbohydrate counts: kale."]])]
    """What to mind."""
    reminder: Annotated[str, Field(examples=["Medical diets need professional oversight."])]
    """Who should not follow any of this without a professional."""
