"""A dish to be made anew after tasting: what the cook says of it comes in, the least change that does it goes out."""

from typing import Annotated, Literal

from pydantic import Field

from service.schemas.answer import Answer
from service.schemas.base import Incoming, Outgoing
from service.schemas.brief import BriefBody
from service.schemas.dish import DishAnswer
from service.schemas.exclude import ExclusionBody
from service.schemas.members import MemberAnswer
from service.schemas.substitutes import SubstituteAnswer, SubstitutesTogetherAnswer

ItemNames = Annotated[list[str], Field(min_length=1, max_length=200, examples=[["lemon juice"]])]


class SaidBody(Incoming):
    """One thing that the cook says of an item, or of a group of items together."""

    says: Annotated[
        Literal["more", "less", "about", "keep", "leave out", "use instead"],
        Field(examples=["more"]),
    ]
    """`more`: at least a fifth more of them than there was. `less`: at least a fifth less. `about`: `factor` times what
    there was, a fifth of that more or less. `keep`: exactly as much. `leave out`: none of them. `use instead`: none of
    them, and at least one of `one_of` in their place, by as much as does the same or more; less only where no dish
    comes of that."""
    of: ItemNames | None = None
    """Items of the pantry, by their names, counted together; `keep` holds each of them."""
    component: Annotated[str | None, Field(min_length=1, max_length=100, examples=["the sauce"])] = None
    """Only what is of them in this component; left out, in all of them."""
    factor: Annotated[float | None, Field(gt=0, le=100, examples=[0.5])] = None
    """With `about`, the ratio to what there was: 0.5 is about half as much, 2 about twice as much."""
    one_of: Annotated[list[str] | None, Field(min_length=1, max_length=200, examples=[["olive oil", "lard"]])] = None
    """With `use instead`: the items of the pantry that may be used in their place."""
    exclude: ExclusionBody | None = None
    """With `leave out`, in place of `of`: an allergen, a food group or a food, as in `exclude` of a brief."""


class ReworkBody(Incoming):
    """A dish, what the cook says of it, and what it must meet again."""

    brief: BriefBody
    """The brief as `POST /v1/plans` takes it, with the dish's amounts in `base`. `closest to` is its first preference;
    those that it names decide among dishes that are equally close."""
    base_portions: Annotated[int | None, Field(ge=1, le=500, examples=[4])] = None
    """How many portions the amounts in `base` made; left out, as many as the brief is for. Where they made another
    number, the base dish is scaled first, as `scale_to` of a breakdown scales a dish, and with it what is `already_in`
    and what was weighed: in the same pan, whose steam is not scaled. `before` is then the scaled dish."""
    said: list[SaidBody] = Field([], max_length=200)
    """What the cook says, item by item or for groups. All of it is a must."""
    reason: Annotated[Literal["dry", "greasy", "salty", "bland"] | None, Field(examples=["dry"])] = None
    """What was tasted. It decides whether the fix goes into the mix, the pan, the sauce or the pot: the places are
    tried in the order of a table, and the first that leads to a dish is taken."""


class WhyAnswer(Outgoing):
    """Why an amount changed."""

    because: Annotated[
        Literal[
            "asked by the cook",
            "mends what was tasted",
            "left out by exclude",
            "needed",
            "the nearest way",
            "not shown in time",
        ],
        Field(examples=["needed"]),
    ]
    """`needed`: with this amount as it was no dish meets the rest. `the nearest way`: one does, but it is further from
    the base dish. `not shown in time`: the clock ended the search for the reason."""
    text: Annotated[str, Field(examples=["with 30 g of it, this cannot be had: fat share, 74 to 76 %"])]
    """In words."""
    members: list[MemberAnswer]
    """`needed`: what cannot be had together with the amount as it was. `the nearest way`: what is missed where only
    this change is undone. `not shown in time`: the limits that the dish stands at. Empty otherwise."""


class AmountChangeAnswer(Outgoing):
    """One amount that is not what it was."""

    name: Annotated[str, Field(examples=["butter"])]
    """The item, as the brief names it; `drippings of ...` for what is spooned back."""
    component: Annotated[str, Field(examples=["the sauce"])]
    """The component that it goes into."""
    known: Annotated[Literal["measured", "tasted"], Field(examples=["measured"])]
    """How the amount before was known; one that was only tasted may be further off than the change says."""
    before: Annotated[str, Field(examples=["2 tbsp"])]
    """The amount before, as the kitchen measures it; `none` for what is new."""
    after: Annotated[str, Field(examples=["42.5 g"])]
    """The amount now; `none` for what is left out."""
    before_about: Annotated[str | None, Field(examples=["about 2 tbsp"])]
    """The nearest kitchen measure of the amount before; null when `before` says it or none fits."""
    after_about: Annotated[str | None, Field(examples=["about 3 tbsp"])]
    """The nearest kitchen measure of the amount now; null when `after` says it or none fits."""
    before_grams: Annotated[float, Field(examples=[28.4])]
    """The amount before, g for the batch, raw edible portion."""
    after_grams: Annotated[float, Field(examples=[42.5])]
    """The amount now, g for the batch, raw edible portion."""
    why: list[WhyAnswer]
    """Why it changed."""


class FixAnswer(Outgoing):
    """Where the fix for what was tasted goes."""

    reason: Annotated[str, Field(examples=["dry"])]
    """What was tasted."""
    where: Annotated[Literal["mix", "pan", "sauce", "cooked", "everywhere"], Field(examples=["mix"])]
    """What kind of place it goes into; `cooked`: in with what is cooked in pieces, as into the pot of a stew."""
    component: Annotated[str | None, Field(examples=["patties"])]
    """The component; null where it is the whole dish."""
    what: Annotated[str, Field(examples=["more fat or liquid in the mix"])]
    """What is done."""
    source: Annotated[str, Field(examples=["kitchen-fixes"])]
    """Where that is known from."""


class DistanceAnswer(Outgoing):
    """How far the dish is from the base dish.

    Each amount that changed counts 1, and its change as a part of what there was comes on top; both count half for
    amounts that were only tasted. A new item is measured against what it stands in for, or against the mean amount of
    the base dish; nothing against less than 1 g.
    """

    changed: Annotated[float, Field(examples=[2])]
    """How many amounts changed, those that were only tasted counted half."""
    relative: Annotated[float, Field(examples=[0.7])]
    """The sum of their changes, each as a share of what there was."""
    total: Annotated[float, Field(examples=[2.7])]
    """Both together, without a unit; no dish that does what is asked is nearer than the bound in the proof."""


class ReworkAnswer(Outgoing):
    """The dish made anew, or why there is none."""

    outcome: Annotated[Literal["plan", "conflict", "undecided"], Field(examples=["plan"])]
    """Which of the three answers it is."""
    answer: Answer
    """The dish as a plan, a conflict with its ways out, or undecided: as `POST /v1/plans` answers. What the cook said
    stands among its rules, by its number."""
    before: DishAnswer
    """The base dish, and what it came to by the same targets and rules; without targets that it lacks a value for."""
    scaling: Annotated[list[str], Field(examples=[["egg: 3 large in place of 2.5 large, 20 % more."]])]
    """What was rounded, and what to weigh, where the base dish was scaled to another number of portions; empty where it
    was not."""
    changes: list[AmountChangeAnswer]
    """Every amount that is not what it was; all others are the same to the gram. Empty without a plan."""
    distance: DistanceAnswer | None
    """How far the dish is from the base dish; null without a plan."""
    fix: FixAnswer | None
    """Where the fix goes that the reason asks for; null without a reason."""
    substitutes: list[SubstituteAnswer]
    """What may stand in for what is left out, where the cook names nothing in its place: at most three foods for each
    item, those at home first, none that is excluded. For a seasoning there is nothing: only it tastes as it does."""
    substitutes_together: SubstitutesTogetherAnswer | None
    """Where several items are left out, all of them replaced at once; null where no two have anything that stands in
    for them, or no dish comes of it."""
