"""What may stand in for what is left out: how it is looked for, and as it goes out."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Any

from service.schemas.substitutes import SubstituteAnswer, SubstitutesTogetherAnswer
from service.translate.beside import CautionsOfAsked, may_be_added
from service.translate.numbers import rounded
from service.translate.reference import Reference
from service.translate.rework import AskedRework
from service.translate.ways_out import leads
from solver.allergens import AllergenRules, Statement
from solver.brief import Brief
from solver.exclusions import statement_of
from solver.rework import Reworked
from solver.substitutes import Search, Substitute, Together


def search_of(wanted: AskedRework, found: Reworked, reference: Reference) -> Search:
    """Where to look for them: among the foods that the request lets be proposed."""
    eligible = may_be_added(wanted.asked, reference)
    return Search(wanted.rework, found.fix, eligible, reference.stand_ins, reference.placed)


def to_substitutes(found: Iterable[Substitute], wanted: AskedRework, reference: Reference) -> list[SubstituteAnswer]:
    """Proposals as the contract has them, each with the dish that it leads to."""
    cautions_of = CautionsOfAsked(wanted.asked, reference)
    told = _Told(wanted.asked.brief, reference.allergens)
    return [
        SubstituteAnswer.model_validate(
            {**told.stands_in(each), **leads(each.plan, cautions_of), "text": told.text(each)}
        )
        for each in found
    ]


def to_together(found: Together | None, wanted: AskedRework, reference: Reference) -> SubstitutesTogetherAnswer | None:
    """All items that are left out replaced at once, as the contract has it."""
    if found is None:
        return None
    told = _Told(wanted.asked.brief, reference.allergens)
    text = "; ".join(told.text(each) for each in found.each)
    fields = leads(found.plan, CautionsOfAsked(wanted.asked, reference))
    return SubstitutesTogetherAnswer.model_validate(
        {"stand_ins": [told.stands_in(each) for each in found.each], "text": text, **fields}
    )


@dataclass(frozen=True, slots=True)
class _Told:
    """How each is told. brief: as asked. rules: those of allergens."""

    brief: Brief
    rules: AllergenRules

    def stands_in(self, found: Substitute) -> dict[str, Any]:
        """Its fields."""
        suited = found.candidate.suited
        most, _ = max(found.uses, key=lambda use: use[1])
        return {
            "in_place_of": found.item,
            "role": suited.role.value,
            "food_id": found.candidate.item.food.id,
            "name": found.candidate.item.name,
            "at_home": found.candidate.is_at_home,
            "component": most,
            "goes_in": [{"component": component, "grams": rounded(grams)} for component, grams in found.uses],
            "grams": rounded(found.grams),
            "about": _about(found),
            "how": suited.how,
            "source": suited.source,
            "contains_too": list(self._contains_too(found)),
        }

    def text(self, found: Substitute) -> str:
        """In words."""
        about, how = _about(found), found.candidate.suited.how
        home, aside = " (at home)" if found.candidate.is_at_home else "", "" if about is None else f", {about}"
        places = [f"{grams:.1f} g into {component}" for component, grams in found.uses]
        amount = f"{found.grams:.1f} g{aside}"
        amount += f", into {found.uses[0][0]}" if len(places) == 1 else f": {', '.join(places)}"
        told = "" if how is None else f". {how.removesuffix('.')}"
        too = ", ".join(self._contains_too(found))
        told += f". It contains {too} as well" if too else ""
        return f"{found.candidate.item.name}{home} for {found.item}: {amount}{told}"

    def _contains_too(self, found: Substitute) -> Iterator[str]:
        gone = next(item for item in self.brief.pantry if item.name == found.item)
        both = (gone, found.candidate.item)
        for code in self.rules.allergens:
            if all(statement_of(item, code, self.rules) is Statement.CONTAINS for item in both):
                yield code


def _about(found: Substitute) -> str | None:
    return None if found.measure is None else f"about {found.measure.text}"
