"""A dish made anew, as it goes out."""

from collections.abc import Sequence
from dataclasses import dataclass

from service.schemas.answer import Answer
from service.schemas.members import MemberAnswer
from service.schemas.rework import AmountChangeAnswer, DistanceAnswer, FixAnswer, ReworkAnswer, WhyAnswer
from service.schemas.substitutes import SubstituteAnswer, SubstitutesTogetherAnswer
from service.translate.members import to_member
from service.translate.numbers import rounded
from service.translate.to_dish import to_dish, to_quantity
from service.translate.unasked import told, told_in_conflict
from solver.brief import Brief
from solver.closest import Distance
from solver.measures import text_of
from solver.outcome import Quantity
from solver.pantry import PantryItem, Step
from solver.rework import Reworked
from solver.rework_changes import Because, Change, Why
from solver.rework_fixes import Fix
from solver.rework_unasked import unasked

NONE = "none"


def to_rework(
    found: Reworked,
    answer: Answer,
    *,
    asked: Brief,
    substitutes: list[SubstituteAnswer],
    together: SubstitutesTogetherAnswer | None,
    scaling: Sequence[str] = (),
) -> ReworkAnswer:
    """The answer as the contract has it.

    answer: that of the outcome. asked: the brief as it came. substitutes, together: for what is left out. scaling: of
    the base dish.
    """
    total = None if found.distance is None else found.distance.total
    about = _About(found.outcome.brief, unasked(asked, found.outcome.brief), total)
    return ReworkAnswer(
        outcome=answer.outcome,
        answer=told_in_conflict(answer, about.unasked),
        before=to_dish(found.before),
        scaling=list(scaling),
        changes=[_change(each, about) for each in found.changes],
        distance=None if found.distance is None else _distance(found.distance),
        fix=None if found.fix is None else _fix(found.fix),
        substitutes=substitutes,
        substitutes_together=together,
    )


@dataclass(frozen=True, slots=True)
class _About:
    """What changes are told with: the brief as it was solved, the most amounts that nobody set, how far the dish is."""

    brief: Brief
    unasked: frozenset[str]
    distance: float | None


def _distance(found: Distance) -> DistanceAnswer:
    return DistanceAnswer(changed=rounded(found.changed), relative=rounded(found.relative), total=rounded(found.total))


def _fix(fix: Fix) -> FixAnswer:
    return FixAnswer.model_validate(
        {
            "reason": fix.row.reason,
            "where": fix.row.where,
            "component": fix.component,
            "what": fix.row.what,
            "source": fix.row.source,
        }
    )


def _change(change: Change, about: _About) -> AmountChangeAnswer:
    before, before_about = _before(change)
    after, after_about = _after(change)
    return AmountChangeAnswer(
        name=change.use[0],
        component=change.use[1],
        known="tasted" if change.tasted else "measured",
        before=before,
        after=after,
        before_about=before_about,
        after_about=after_about,
        before_grams=rounded(change.before_g),
        after_grams=rounded(change.after_g),
        why=[_why(each, change, before, about) for each in change.why],
    )


def _before(change: Change) -> tuple[str, str | None]:
    if change.before_g <= 0:
        return NONE, None
    if change.teaspoons is not None or change.item is None:
        return text_of((change.teaspoons or (0, 0))[0], "tsp"), None
    step = change.words or Step(round(change.before_g, 6), "g", change.before_g)
    told = to_quantity(_as_step(change.item, step, change.before_g))
    return told.text, told.about


def _as_step(item: PantryItem, step: Step, grams: float) -> Quantity:
    return Quantity(PantryItem(item.name, item.food, step=step), grams, 1)


def _after(change: Change) -> tuple[str, str | None]:
    if change.teaspoons is not None:
        return (text_of(change.teaspoons[1], "tsp"), None) if change.teaspoons[1] else (NONE, None)
    if change.after is None:
        return NONE, None
    told = to_quantity(change.after)
    return told.text, told.about


def _why(why: Why, change: Change, before: str, about: _About) -> WhyAnswer:
    members = told((to_member(about.brief, member) for member in why.members), about.unasked)
    return WhyAnswer.model_validate(
        {"because": why.because.value, "text": _text(why, change, before, members, about.distance), "members": members}
    )


def _text(why: Why, change: Change, before: str, members: list[MemberAnswer], distance: float | None) -> str:
    limits = "; ".join(member.text for member in members)
    match why.because:
        case Because.ASKED | Because.REASON:
            return why.text or ""
        case Because.EXCLUDED:
            return "it is left out"
        case Because.NEEDED:
            as_it_was = f"without any {change.use[0]}" if before == NONE else f"with {before} of it"
            return f"{as_it_was}, this cannot be had: {limits}" if limits else f"{as_it_was}, no dish is left"
        case Because.NEARER:
            further = f"the nearest dish that leaves it as it was is at a distance of {why.instead:.2f}"
            further += "" if distance is None else f", this one at {distance:.2f}"
            return (
                f"with {before} of it and the rest as now, this is missed: {limits}; {further}" if limits else further
            )
        case Because.NOT_SHOWN:
            return f"the dish stands at: {limits}" if limits else "the clock ended the search for the reason"
