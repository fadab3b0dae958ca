"""From what is asked of a dish after tasting to the solver's words."""

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from service.schemas.rework import ReworkBody
from service.settings import Settings
from service.translate.asked import Asked, to_asked
from service.translate.place import Place
from service.translate.reference import Reference
from service.translate.rework_said import refuse_forms, to_said
from solver.brief import Brief
from solver.errors import Problem, UnusableBrief
from solver.missing import count
from solver.rework import ReworkAsked
from solver.rework_base import base_dish_problems
from solver.rework_fixes import Fix, fixes_of
from solver.rework_roles import roles_of
from solver.rework_scaled import with_scaled_base
from solver.substitutes_named import named_of
from solver.usable import refuse_left_out, refuse_unusable

_EXCLUDED = re.compile(r"^/exclude/(\d+)")


@dataclass(frozen=True, slots=True)
class AskedRework:
    """asked: as of a plan. rework: the same with what the cook says. scaling: what was done to scale the base dish."""

    asked: Asked
    rework: ReworkAsked
    scaling: tuple[str, ...] = ()


def to_asked_rework(body: ReworkBody, reference: Reference, settings: Settings) -> AskedRework:
    """What a body asks for. Raises UnusableBrief with all problems."""
    root = Place()
    refuse_forms(body.said, root / "said")
    _refuse(root)
    asked, scaling = _scaled(_asked(body, reference, settings), body.base_portions, root)
    said = to_said(body.said, asked.brief, root / "said")
    fixes = _fixes(body.reason, asked.brief, reference, root / "reason")
    _refuse(root)
    named = () if asked.brief.base is None else named_of(said, asked.brief, asked.brief.base, reference.stand_ins)
    wanted = ReworkAsked(asked.brief, said, fixes, named)
    _refuse_unusable(wanted)
    return AskedRework(asked, wanted, scaling)


def _refuse(root: Place) -> None:
    if root.problems:
        raise UnusableBrief(root.problems)


def _asked(body: ReworkBody, reference: Reference, settings: Settings) -> Asked:
    """The brief, with what the cook leaves out among its exclusions."""
    said = [(number, each.exclude) for number, each in enumerate(body.said) if each.exclude is not None]
    exclude = [*body.brief.exclude, *(exclusion for _, exclusion in said)]
    own = len(body.brief.exclude)
    try:
        asked = to_asked(body.brief.model_copy(update={"exclude": exclude}), reference, settings)
        refuse_unusable(replace(asked.brief, portions=body.base_portions or asked.brief.portions))
        refuse_left_out(asked.brief, count(asked.brief))
    except UnusableBrief as refused:
        raise UnusableBrief(_inside(refused.problems, own, [number for number, _ in said])) from None
    return asked


def _inside(problems: Iterable[Problem], own: int, said: list[int]) -> Iterator[Problem]:
    """The same problems where the document has them. own: how many exclusions the brief itself has."""
    for problem in problems:
        found = _EXCLUDED.match(problem.pointer)
        at = f"/brief{problem.pointer}"
        if found is not None and int(found[1]) >= own:
            at = f"/said/{said[int(found[1]) - own]}/exclude{problem.pointer[found.end() :]}"
        yield replace(problem, pointer=at)


def _scaled(asked: Asked, made_portions: int | None, root: Place) -> tuple[Asked, tuple[str, ...]]:
    """The same with the base dish for as many portions as the brief is for. Raises UnusableBrief without one."""
    brief = asked.brief
    if brief.base is None:
        detail = "There is no dish to make anew."
        (root / "brief" / "base").refuse("no_base", detail, "Give base, the amounts of the dish.")
        raise UnusableBrief(root.problems)
    found, notes = with_scaled_base(brief, brief.base, made_portions or brief.portions)
    return replace(asked, brief=found), notes


def _fixes(reason: str | None, brief: Brief, reference: Reference, place: Place) -> tuple[Fix, ...]:
    if reason is None or brief.base is None:
        return ()
    found = fixes_of(reference.rework_fixes[reason], brief, brief.base, roles_of)
    if not found:
        detail = f"Nothing in the pantry or in the pan mends a dish that is {reason}."
        remedy = "Add what mends it to the pantry, let drippings be spooned back, or leave reason out."
        place.refuse("reason_without_fix", detail, remedy)
    return found


def _refuse_unusable(wanted: ReworkAsked) -> None:
    """What is said may contradict the brief in its own fields, such as a rule of the same id."""
    rules = len(wanted.brief.rules)
    try:
        for fix in wanted.fixes or (None,):
            refuse_unusable(wanted.posed(fix))
        problems = tuple(base_dish_problems(wanted.brief, wanted.base))
    except UnusableBrief as refused:
        problems = tuple(_of_said(refused.problems, rules))
    if problems:
        raise UnusableBrief(
            replace(each, pointer=each.pointer if each.pointer == "/said" else f"/brief{each.pointer}")
            for each in problems
        )


def _of_said(problems: Iterable[Problem], rules: int) -> Iterator[Problem]:
    for problem in problems:
        found = re.match(r"^/rules/(\d+)", problem.pointer)
        yield replace(problem, pointer="/said") if found and int(found[1]) >= rules else problem
