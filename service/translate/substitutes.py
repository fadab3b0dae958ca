"""What may stand in for what is left out: how it is looked for, and as it goes out."""

from collections.abc import Iterable

from service.schemas.substitutes import SubstituteAnswer
from service.translate.beside import CautionsOfAsked, may_be_added
from service.translate.numbers import rounded
from service.translate.reference import Reference
from service.translate.rework import AskedRework
from service.translate.ways_out import CautionsOf, leads
from solver.rework import Reworked
from solver.substitutes import Search, Substitute


def search_of(wanted: AskedRework, found: Reworked, reference: Reference) -> Search:
    """Where to look for them: among the foods that the request lets be proposed."""
    return Search(wanted.rework, found.fix, may_be_added(wanted.asked, reference), reference.placed)


def to_substitutes(found: Iterable[Substitute], wanted: AskedRework, reference: Reference) -> list[SubstituteAnswer]:
    """Proposals as the contract has them, each with the dish that it leads to."""
    cautions_of = CautionsOfAsked(wanted.asked, reference)
    return [_substitute(each, cautions_of) for each in found]


def _substitute(found: Substitute, cautions_of: CautionsOf) -> SubstituteAnswer:
    about = None if found.measure is None else f"about {found.measure.text}"
    aside = "" if about is None else f", {about}"
    return SubstituteAnswer(
        in_place_of=found.item,
        role=found.role.value,
        food_id=found.food.id,
        name=found.food.name,
        component=found.component,
        grams=rounded(found.grams),
        about=about,
        text=f"{found.food.name} for {found.item}: {found.grams:.1f} g{aside}, into {found.component}",
        **leads(found.plan, cautions_of),
    )
