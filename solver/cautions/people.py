"""Who should not eat like this without a clinic."""

from collections.abc import Iterator

from solver.cautions.book import Book
from solver.cautions.caution import Caution
from solver.cautions.facts import Facts
from solver.eater import KETOGENIC_THERAPY, is_therapy

#: From this fat share on eating is high in fat, percent of energy: the liberal end of what people use.
_HIGH_FAT_SHARE = 50.0


def people(facts: Facts, book: Book) -> Iterator[Caution]:
    """The reminder for everybody, then what is true of this eater."""
    eater = facts.known
    why = _why_medical(facts)
    if why:
        yield book.caution("medical_supervision", why)
    if eater.is_child:
        yield book.caution("medical_child", f"eater: {eater.age_years:g} years")
    if eater.pregnant:
        yield book.caution("medical_pregnancy", "eater: pregnant")
    if eater.lactating:
        yield book.caution("medical_lactation", "eater: lactating")
    for condition in eater.conditions:
        yield book.caution(f"medical_{condition}", f"eater: {condition}")
    if eater.prescribed and (KETOGENIC_THERAPY in eater.conditions or is_therapy(facts.brief, eater)):
        yield book.caution("therapy_as_prescribed", "eater: prescribed")


def not_assessed(facts: Facts, book: Book) -> Iterator[Caution]:
    """What is said of a dish for nobody's benefit: no score of histamine or of heat."""
    if facts.eater is not None:
        yield book.caution("histamine_and_spice_not_assessed", "eater")


def _why_medical(facts: Facts) -> str:
    """What makes the dish high in fat; "" when nothing does and nothing is said of the eater."""
    for target in facts.brief.targets:
        asked = max(target.lower or 0.0, target.aim or 0.0)
        if target.of == "ketogenic_ratio" or (target.of == "fat_share_percent" and asked >= _HIGH_FAT_SHARE):
            return f"target: {target.id}"
    shares = facts.dish.distribution if facts.dish else None
    if shares is not None and shares.fat >= _HIGH_FAT_SHARE:
        return f"the dish: {shares.fat} % of energy from fat"
    eater = facts.known
    return "eater" if eater.conditions or eater.pregnant or eater.lactating or eater.is_child else ""
