"""Liver: preformed vitamin A and copper, a portion against the upper level of a whole day.

Retinol is compared, never retinol activity equivalents: carotene of vegetables does no harm.
"""

from collections.abc import Iterator

from solver.cautions.book import Book
from solver.cautions.caution import Caution
from solver.cautions.facts import Facts
from solver.cautions.intakes import UPPER_LEVEL
from solver.cautions.kinds import is_liver


def retinol(facts: Facts, book: Book) -> Iterator[Caution]:
    """Liver and its oil, in pregnancy besides, and a portion with more retinol than the upper level."""
    livers = [(part, content) for part, content in facts.contents if is_liver(content)]
    trigger = "; ".join(dict.fromkeys(part.trigger(content) for part, content in livers))
    if livers and facts.known.pregnant:
        yield book.caution("liver_in_pregnancy", trigger)
    elif livers:
        yield book.caution("liver", trigger)
    yield from _over(facts, book, "retinol_ug", "retinol_over_upper_level", trigger)


def copper(facts: Facts, book: Book) -> Iterator[Caution]:
    """A portion with more copper than the upper level."""
    return _over(facts, book, "copper_mg", "copper_over_upper_level", "")


def _over(facts: Facts, book: Book, nutrient: str, code: str, trigger: str) -> Iterator[Caution]:
    level = book.intakes.of(UPPER_LEVEL, nutrient, facts.known)
    amount = facts.dish.portion.values.get(nutrient) if facts.dish else None
    if level is None or amount is None or amount <= level.amount:
        return
    amounts = {"amount": _said(amount), "limit": f"{level.amount:,.0f}"}
    trigger = trigger or f"a portion: {nutrient}"
    yield book.caution(code, trigger, source=level.source, who=level.who, **amounts)


def _said(amount: float) -> str:
    """Three digits, which is more than such a value is known to."""
    return f"{float(f'{amount:.3g}'):,.10g}"
