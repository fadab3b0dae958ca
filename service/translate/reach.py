"""From what is asked of a pantry to the solver's targets, and from what it can do to the answer."""

from dataclasses import dataclass, replace

from service.schemas.answer import ExcludedAnswer
from service.schemas.reach import ReachAnswer, ReachBody
from service.settings import Settings
from service.translate.asked import Asked, to_asked
from service.translate.cautions import to_cautions
from service.translate.names import refuse_unknown
from service.translate.numbers import rounded
from service.translate.place import Place
from service.translate.reference import Reference
from service.translate.to_answer import REMINDER
from service.translate.to_reach import to_frontier, to_range
from solver.brief import Brief
from solver.errors import UnusableBrief
from solver.missing import count
from solver.notes import notes
from solver.quantities import QUANTITY
from solver.reach import asked_for
from solver.reach_polygon import is_amount
from solver.reach_whole import Reached
from solver.targets import Target
from solver.usable import refuse_left_out, refuse_unusable


@dataclass(frozen=True, slots=True)
class AskedReach:
    """A brief, the targets whose ranges are asked for, and the two of a frontier; None where none is."""

    asked: Asked
    targets: tuple[Target, ...]
    frontier: tuple[Target, Target] | None


def to_asked_reach(body: ReachBody, reference: Reference, settings: Settings) -> AskedReach:
    """What a body asks for. Raises UnusableBrief with all problems."""
    try:
        asked = to_asked(body.brief, reference, settings)
        refuse_unusable(asked.brief)
        refuse_left_out(asked.brief, count(asked.brief))
    except UnusableBrief as refused:
        inside = (replace(problem, pointer=f"/brief{problem.pointer}") for problem in refused.problems)
        raise UnusableBrief(inside) from None
    root, brief = Place(), asked.brief
    more = [_target(brief, name, root / "of" / index) for index, name in enumerate(body.of or [])]
    frontier = None if body.frontier is None else _frontier(body, brief, root / "frontier")
    if root.problems:
        raise UnusableBrief(root.problems)
    targets = {target.id: target for target in (*brief.targets, *more) if target is not None}
    return AskedReach(asked, tuple(targets.values()), frontier)


def _target(brief: Brief, name: str, place: Place) -> Target | None:
    known = (*(target.id for target in brief.targets), *QUANTITY)
    return None if refuse_unknown(name, known, "unknown_quantity", place) else asked_for(brief, name)


def _frontier(body: ReachBody, brief: Brief, place: Place) -> tuple[Target, Target] | None:
    assert body.frontier is not None  # noqa: S101  the caller has looked
    x = _target(brief, body.frontier.x, place / "x")
    y = _target(brief, body.frontier.y, place / "y")
    if x is None or y is None:
        return None
    if x.id == y.id:
        (place / "y").refuse("repeated", "Both name the same.", "Name two different targets.")
    elif not is_amount(x) and not is_amount(y):
        detail = "Both are shares or ratios; at least one has to be an amount."
        place.refuse("two_ratios", detail, "Hold a share against an amount, such as energy_kcal or protein_g.")
    return x, y


def to_reach(wanted: AskedReach, found: Reached, reference: Reference) -> ReachAnswer:
    """What was found, as the contract has it."""
    asked, brief = wanted.asked, wanted.asked.brief
    return ReachAnswer(
        title=brief.title,
        portions=brief.portions,
        energy_basis=brief.energy_basis.value,
        ranges=[to_range(each) for each in found.ranges],
        frontier=None if found.frontier is None else to_frontier(found.frontier),
        solver=found.solver,
        solver_version=found.solver_version,
        seconds=rounded(found.seconds),
        excluded=[ExcludedAnswer(name=each.item, why=each.why) for each in asked.excluded],
        cautions=to_cautions(reference.cautions(brief, None, asked.eater, asked.profile)),
        warnings=[*asked.notes, *notes(brief, None)],
        reminder=REMINDER,
    )
