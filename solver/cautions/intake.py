"""Too little energy, too little protein, too much of it: for an eater whose weight or meals are known.

A day is only spoken of when the brief says how many such portions make one.
"""

from collections.abc import Iterator

from solver.cautions.book import Book
from solver.cautions.caution import Caution
from solver.cautions.facts import Facts
from solver.cautions.intakes import HIGH, RECOMMENDED

#: Below this energy a day is medically supervised, kcal.
LEAST_DAY_KCAL = 800.0


def energy(facts: Facts, book: Book) -> Iterator[Caution]:
    """A day below 800 kcal."""
    meals = facts.known.meals_per_day
    if facts.dish is None or meals is None:
        return
    day_kcal = meals * facts.dish.portion.energy_kcal
    if day_kcal < LEAST_DAY_KCAL:
        known = {"meals": f"{meals:g}", "amount": f"{day_kcal:.0f}"}
        yield book.caution("very_low_energy", f"eater: {meals:g} meals a day", **known)


def protein(facts: Facts, book: Book) -> Iterator[Caution]:
    """Protein of a day against what is recommended, and against twice the reference intake of adults."""
    portion = facts.dish.portion.values.get("protein_g") if facts.dish else None
    if portion is not None and facts.known.weight_kg is not None:
        yield from _low(facts, book, portion, facts.known.weight_kg)
        yield from _high(facts, book, portion, facts.known.weight_kg)


def _low(facts: Facts, book: Book, portion_g: float, weight_kg: float) -> Iterator[Caution]:
    row = book.intakes.of(RECOMMENDED, "protein_g", facts.known)
    meals = facts.known.meals_per_day
    if row is None or (meals or 1) * portion_g >= row.amount * weight_kg:
        return
    known = {"need": f"{row.amount * weight_kg:.0f}", "per_kg": f"{row.amount:g}", "who": row.who}
    trigger = f"eater: {weight_kg:g} kg"
    if meals is None:
        yield book.caution("protein_of_a_portion", trigger, source=row.source, amount=f"{portion_g:.0f}", **known)
    else:
        day = {"meals": f"{meals:g}", "amount": f"{meals * portion_g:.0f}"}
        yield book.caution("low_protein_a_day", trigger, source=row.source, **day, **known)


def _high(facts: Facts, book: Book, portion_g: float, weight_kg: float) -> Iterator[Caution]:
    row = book.intakes.of(HIGH, "protein_g", facts.known)
    meals = facts.known.meals_per_day
    day_g = portion_g * (meals or 1)
    if row is not None and day_g > row.amount * weight_kg:
        what = "A portion" if meals is None else f"A day of {meals:g} such portions"
        known = {"amount": f"{day_g:.0f}", "limit": f"{row.amount * weight_kg:.0f}", "per_kg": f"{row.amount:g}"}
        yield book.caution("high_protein", f"eater: {weight_kg:g} kg", source=row.source, what=what, **known)
