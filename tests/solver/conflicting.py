"""Seeded random briefs in conflict: of either food table, in whole steps, of components; and how a referee checks them.

The Indian Food Composition Tables 2017 are read as in `tests.service.ifct` and held as a catalogue like the other.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import cache

import numpy as np

from reference_data import reference_folder
from solver.backends import open_backend
from solver.backends.base import Limits
from solver.brief import Brief
from solver.catalogue import Catalogue, MeasureColumns, load_catalogue
from solver.conflict import NO_PLAN
from solver.cooking_table import load_cooking_table
from solver.deadline import Deadline
from solver.formulate import formulate
from solver.missing import count
from solver.nearest_end import exactly_posed
from solver.nutrients import COLUMN, NUTRIENTS
from solver.outcome import Conflict, Member, MemberKind, Plan
from solver.practical import Practical, load_practical, practical_foods
from solver.solve import solve
from tests.service.ifct import Row, ifct_rows
from tests.solver.kept import kept
from tests.solver.random_briefs import random_brief
from tests.solver.random_cooked_briefs import Larder, random_cooked_brief

#: Every fourth seed asks for the unlikely.
FIRST_UNLIKELY, EVERY = 3, 4

#: So many of these seeds are looked through for one batch of conflicts.
STRETCH = 80

#: 1 kcal (thermochemical) in kJ: UCUM 2.2.
KJ_IN_KCAL = 4.184

Maker = Callable[[int], Brief]


@dataclass(frozen=True, slots=True)
class Tables:
    """sr28, ifct: foods. practical: what may be added. larder: for cooked briefs, of the foods of sr28."""

    sr28: Catalogue
    ifct: Catalogue
    practical: tuple[Practical, ...]
    larder: Larder

    def maker(self, kind: str) -> Maker:
        """Seed to brief."""
        makers: dict[str, Maker] = {
            "sr28": lambda seed: random_brief(self.sr28, seed),
            "ifct": lambda seed: random_brief(self.ifct, seed),
            "sr28 in steps": lambda seed: random_brief(self.sr28, seed, stepped=True),
            "ifct in steps": lambda seed: random_brief(self.ifct, seed, stepped=True),
            "components": lambda seed: random_cooked_brief(self.larder, seed, stepped=seed % 8 == 3),
        }
        return makers[kind]


@cache
def tables() -> Tables:
    sr28 = load_catalogue(reference_folder() / "sr28")
    practical = practical_foods(sr28, load_practical(reference_folder() / "additions.csv"))
    larder = Larder(sr28, load_cooking_table(reference_folder() / "cooking"))
    return Tables(sr28, catalogue_of(ifct_rows()), practical, larder)


def conflicts(kind: str, first: int, wanted: int) -> Iterator[Conflict]:
    """So many conflicts among the seeds of one stretch."""
    highs, make = open_backend("highs"), tables().maker(kind)
    for place in range(first, first + STRETCH):
        outcome = solve(make(FIRST_UNLIKELY + EVERY * place), highs)
        if isinstance(outcome, Conflict):
            wanted -= 1
            yield outcome
            if wanted == 0:
                return
    raise AssertionError((kind, first, wanted))


def needless(brief: Brief, members: Sequence[Member], referee: str) -> list[Member]:
    """Members without which the rest has no plan either, by another backend."""
    backend, every = open_backend(referee), tuple(members)
    parts = {member: tuple(other for other in every if other != member) for member in every}
    return [member for member, rest in parts.items() if not isinstance(solve(kept(brief, rest), backend), Plan)]


def has_no_point(brief: Brief, members: Sequence[Member], referee: str) -> bool:
    """Whether another backend calls the members alone infeasible: between the grams, or printed if that is one."""
    only = kept(brief, tuple(members))
    on_grid = Member(MemberKind.PRINTING, None) in members
    exact = exactly_posed(only)
    posed = formulate(only, count(only), grid=True, exact=exact.exact) if on_grid else exact
    session = open_backend(referee).open(posed.program)
    status = session.solve(Limits(Deadline.after(10))).status
    session.close()
    return status in NO_PLAN


def catalogue_of(rows: Sequence[Row]) -> Catalogue:
    """The rows as a food table. A nutrient that the table has no column for is missing; no row has alcohol."""
    composition = np.full((len(rows), len(NUTRIENTS)), np.nan)
    for place, row in enumerate(rows):
        for nutrient, amount in _values(row).items():
            composition[place, COLUMN[nutrient]] = np.nan if amount is None else amount
    ids = tuple(f"ifct:{row.code}" for row in rows)
    without = np.full((len(rows), len(NUTRIENTS)), np.nan)
    return Catalogue(
        ids=ids,
        names=tuple(row.name for row in rows),
        groups=("",) * len(rows),
        sources=("ifct",) * len(rows),
        composition=composition,
        standard_errors=without,
        total_carbohydrate_counted=np.zeros(len(rows), dtype=np.bool_),
        factors=np.full((len(rows), 3), np.nan),
        refuse_percent=np.full(len(rows), np.nan),
        measures=MeasureColumns(np.zeros(len(rows) + 1, dtype=np.int32), np.zeros(0), (), np.zeros(0)),
        row_of={food_id: place for place, food_id in enumerate(ids)},
    )


def _values(row: Row) -> dict[str, float | None]:
    """Of the fats and oils, which the table knows the fat of alone, protein and carbohydrate are none."""
    fat_alone = row.energy_kj is None
    nothing = 0.0 if fat_alone else None
    carbohydrate, fibre = (nothing if value is None else value for value in (row.carbohydrate_g, row.fibre_g))
    total = None if carbohydrate is None or fibre is None else carbohydrate + fibre
    return {
        "energy_kcal": None if row.energy_kj is None else row.energy_kj / KJ_IN_KCAL,
        "protein_g": nothing if row.protein_g is None else row.protein_g,
        "fat_g": row.fat_g,
        "total_carbohydrate_g": total,
        "available_carbohydrate_g": carbohydrate,
        "fibre_g": fibre,
        "alcohol_g": 0.0,
        "sodium_mg": row.sodium_mg,
    }
