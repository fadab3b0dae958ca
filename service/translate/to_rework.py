"""A dish made anew, as it goes out."""

from collections.abc import Sequence

from service.schemas.answer import Answer
from service.schemas.members import MemberAnswer
from service.schemas.rework import AmountChangeAnswer, DistanceAnswer, FixAnswer, ReworkAnswer, WhyAnswer
from service.schemas.substitutes import SubstituteAnswer, SubstitutesTogetherAnswer
from service.translate.members import to_member
from service.translate.numbers import rounded
from service.translate.to_dish import to_dish, to_quantity
from solver.brief import Brief
from solver.closest import Distance
from solver.measures import text_of
from solver.outcome import Quantity
from solver.pantry import PantryItem, Step
from solver.rework import Reworked
from solver.rework_changes import Because, Change, Why
from solver.rework_fixes import Fix

NONE = "none"


def to_rework(
    found: Reworked,
    answer: Answer,
    substitutes: list[SubstituteAnswer],
    together: SubstitutesTogetherAnswer | None,
    scaling: Sequence[str] = (),
) -> ReworkAnswer:
    """The answer as the contract has it.

    answer: that of the outcome. substitutes, together: for what is left out. scaling: of the base dish.
    """
    return ReworkAnswer(
        outcome=answer.outcome,
        answer=answer,
        before=to_dish(found.before),
        scaling=list(scaling),
        changes=[_change(each, found.outcome.brief) for each in found.changes],
        distance=None if found.distance is None else _distance(found.distance),
        fix=None if found.fix is None else _fix(found.fix),
        substitutes=substitutes,
        substitutes_together=together,
    )


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


def _change(change: Change, brief: Brief) -> AmountChangeAnswer:
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
        why=[_why(each, change, before, brief) for each in change.why],
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


def _why(why: Why, change: Change, before: str, brief: Brief) -> WhyAnswer:
    members = [to_member(brief, member) for member in why.members]
    return WhyAnswer.model_validate(
        {"because": why.because.value, "text": _text(why, change, before, members), "members": members}
    )


def _text(why: Why, change: Change, before: str, members: list[MemberAnswer]) -> str:
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
            return (
                f"with {before} of it and the rest as now, this is missed: {limits}; {further}" if limits else further
            )
        case Because.NOT_SHOWN:
            return f"the dish stands at: {limits}" if limits else "the clock ended the search for the reason"
