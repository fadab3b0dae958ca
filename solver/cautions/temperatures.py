"""How hot the centre of each cooked component has to get: its form decides, and the most that anything in it asks."""

from collections.abc import Iterator
from math import fsum

from solver.cautions.book import Book
from solver.cautions.caution import Caution
from solver.cautions.facts import Content, Facts, Part
from solver.cautions.kinds import (
    CRUSTACEAN,
    EGG,
    FISH,
    GAME,
    HAM,
    MOLLUSC,
    OFFAL,
    POULTRY,
    animal,
    is_brined,
    is_minced_name,
    is_precooked,
    is_raw,
)
from solver.cautions.safe_temperatures import SafeTemperature

#: Forms that make one class of whatever is in them.
_WHOLE_DISH = frozenset({"stuffed", "casserole", "reheated"})

#: Forms that are eaten hot even where the brief names no method.
_HEATED = frozenset({"casserole", "reheated"})

#: Kinds that have a class of their own in every form.
_OWN_CLASS = frozenset({POULTRY, GAME, OFFAL, CRUSTACEAN, MOLLUSC})


def temperatures(facts: Facts, book: Book) -> Iterator[Caution]:
    """One caution for each component that is heated and holds what needs it; the strictest row of the profile."""
    for part in facts.parts:
        if part.is_cooked or part.component.form in _HEATED:
            yield from _of_part(part, book)


def _of_part(part: Part, book: Book) -> Iterator[Caution]:
    asked = [(book.temperatures.row(book.profile, kind), content) for kind, content in classes(part)]
    if not asked:
        return
    strictest = max((row for row, _ in asked), key=lambda row: row.severity)
    because = [content for row, content in asked if row is strictest and content is not None]
    trigger = part.trigger(*because, why=part.component.form or "" if strictest.covers_all else strictest.kind)
    yield _worded(strictest, part, trigger, book)


def _worded(row: SafeTemperature, part: Part, trigger: str, book: Book) -> Caution:
    note = f" {row.note}" if row.note else ""
    known = {"foods": row.foods, "component": part.component.name, "edition": row.edition, "note": note}
    if row.celsius is None:
        return book.caution("done_by_eye", trigger, source=row.source, sign=row.sign, **known)
    degrees = f"{row.celsius:g} °C ({row.fahrenheit:g} °F)"
    return book.caution("safe_temperature", trigger, source=row.source, temperature=degrees, how=how(row), **known)


def how(row: SafeTemperature) -> str:
    """What a row asks besides the temperature, after a comma; "" when nothing."""
    held = "" if row.held_s is None else f", held {row.held_s:g} s"
    rest = "" if row.rest_min is None else f", then rest {row.rest_min:g} minutes"
    sign = f", {row.sign}" if row.sign else ""
    return held + rest + sign


def classes(part: Part) -> list[tuple[str, Content | None]]:
    """The class of everything in a component that has one; None stands for the component itself."""
    form = part.component.form
    raw = [content for content in part.contents if animal(content) is not None and is_raw(content)]
    if form in _WHOLE_DISH:
        return [(str(form), None), *((kind, content) for kind, content in _each(part, raw) if kind == POULTRY)]
    if not raw:
        warmed = (content for content in part.contents if animal(content) is not None and is_precooked(content))
        return [("precooked ham" if animal(content) == HAM else "reheated", content) for content in warmed]
    return list(_each(part, raw))


def _each(part: Part, raw: list[Content]) -> Iterator[tuple[str, Content]]:
    eggs = "egg dish with meat" if _is_egg_dish_with_meat(part) else "egg dish"
    for content in part.contents:
        kind = animal(content)
        if kind == POULTRY:  # any poultry in it, cooked before or not
            yield POULTRY, content
        elif kind == EGG and content in raw:
            yield eggs, content
        elif kind is not None and content in raw:
            yield _flesh(kind, form_of(part, content), part), content


def _flesh(kind: str, form: str | None, part: Part) -> str:
    if kind in _OWN_CLASS:
        return kind
    if kind == FISH:
        return "minced fish" if form == "minced" else FISH
    if form is not None and form != "whole cut":
        return form
    if kind == HAM:
        return HAM
    return "roast" if part.component.method == "roasted" else "whole cut"


def form_of(part: Part, content: Content) -> str | None:
    """What was done to a piece of meat: as the component says, by its mix, or by the food's own name.

    None when nothing tells. A mix and a name outrank "whole cut": what is minced stays minced.
    """
    said = part.component.form
    if said not in {None, "whole cut"}:
        return said
    if part.component.is_mix or is_minced_name(content.words):
        return "minced"
    if is_brined(content) and animal(content) != HAM:
        return "injected"
    return said


def _is_egg_dish_with_meat(part: Part) -> bool:
    """Eggs make the dish where they outweigh the flesh; an egg that binds a mince does not."""
    eggs = fsum(content.grams for content in part.contents if animal(content) == EGG)
    flesh = fsum(content.grams for content in part.contents if animal(content) not in {None, EGG})
    return eggs >= flesh > 0
