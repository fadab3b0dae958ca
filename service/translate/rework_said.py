"""What the cook says, in the solver's words."""

from collections.abc import Collection, Sequence

from service.schemas.rework import SaidBody
from service.translate.names import refuse_unknown
from service.translate.place import Place
from solver.brief import Brief
from solver.rework_said import Said, Says, group_g

#: Names in the id of what is said, before the rest is only counted.
_MOST_NAMED = 2

_REMEDY = "Give says with of; about needs factor too, and use instead one_of; leave out takes exclude in place of of."


def to_said(bodies: Sequence[SaidBody], brief: Brief, place: Place) -> tuple[Said, ...]:
    """What is said, in its order, but for what only excludes. What is refused at `place` is left out."""
    found = (_said(body, number, brief, place / number) for number, body in enumerate(bodies))
    return tuple(said for said in found if said is not None)


def refuse_forms(bodies: Sequence[SaidBody], place: Place) -> None:
    """Refuse what says too little, or too much, to be understood."""
    for number, body in enumerate(bodies):
        given = {field for field in ("of", "factor", "one_of", "exclude") if getattr(body, field) is not None}
        allowed = {
            "about": [{"of", "factor"}],
            "use instead": [{"of", "one_of"}],
            "leave out": [{"of"}, {"exclude"}],
        }.get(body.says, [{"of"}])
        if given not in allowed or (body.exclude is not None and body.component is not None):
            (place / number).refuse(
                "said_form", f"“{body.says}” is said with fields that it does not go with.", _REMEDY
            )


def _said(body: SaidBody, number: int, brief: Brief, place: Place) -> Said | None:
    before = len(place.problems)
    if body.of is None:
        return None
    known = {item.name for item in brief.pantry}
    items, instead = (
        _names(given, known, place / field) for field, given in (("of", body.of), ("one_of", body.one_of))
    )
    if body.component is not None:
        names = {part.name for part in brief.parts}
        refuse_unknown(body.component.strip(), names, "unknown_component", place / "component")
    if items & instead:
        (place / "one_of").refuse("repeated", "An item stands in for itself.", "Name other items in one_of.")
    if len(place.problems) > before:
        return None
    component = None if body.component is None else body.component.strip()
    said = Said(f"said {number + 1}: {_words(body)}", Says(body.says), items, component, body.factor, instead)
    _refuse_of_nothing(said, brief, place)
    return said


def _names(given: Sequence[str] | None, known: Collection[str], place: Place) -> frozenset[str]:
    names = [name.strip() for name in given or ()]
    return frozenset(
        name for number, name in enumerate(names) if not refuse_unknown(name, known, "unknown_item", place / number)
    )


def _words(body: SaidBody) -> str:
    named = [name.strip() for name in body.of or ()]
    rest = f" and {len(named) - _MOST_NAMED} more" if len(named) > _MOST_NAMED else ""
    items = ", ".join(named[:_MOST_NAMED]) + rest
    if body.says == "about":
        much = {0.5: "half as", 1.0: "as", 2.0: "twice as"}.get(body.factor or 0.0, f"{body.factor:g} times as")
        return f"about {much} much {items}"
    if body.says == "use instead":
        return f"something in place of {items}"
    return f"{body.says} {items}"


def _refuse_of_nothing(said: Said, brief: Brief, place: Place) -> None:
    needs_some = said.says in {Says.LESS, Says.ABOUT, Says.INSTEAD}
    if needs_some and brief.base is not None and group_g(said, brief.base) <= 0:
        detail = "There was none of it in the base dish, so there is nothing to take less of or to replace."
        (place / "of").refuse("said_of_nothing", detail, "Give its amount in base, or say more.")
