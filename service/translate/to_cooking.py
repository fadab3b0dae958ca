"""From the cooking table to what goes out about one food."""

from collections.abc import Callable

from service.schemas.cooking import CookingMethodAnswer, CookingMethods, FatCurveSegment, MixMethodAnswer
from service.translate.numbers import rounded
from solver.cooking_rows import CookingRow, FatCurve
from solver.cooking_table import CookingTable
from solver.foods import Food

#: What the cooking table says of a food.
CookingOf = Callable[[Food], CookingMethods]


def cooking_by(table: CookingTable) -> CookingOf:
    """What a cooking table says of foods."""
    return lambda food: to_cooking(food, table)


def to_cooking(food: Food, table: CookingTable) -> CookingMethods:
    """Everything that applies to a food, or why nothing does."""
    found = table.applies_to(food)
    return CookingMethods(
        food=food.id,
        name=food.name,
        mixes=[_mix(row) for row in found if isinstance(row, FatCurve)],
        methods=[_method(row) for row in found if isinstance(row, CookingRow)],
        none_because=table.why_nothing(food),
    )


def _method(row: CookingRow) -> CookingMethodAnswer:
    return CookingMethodAnswer(
        method=row.method,
        evidence="measured" if row.measured else "estimated",
        yield_g_per_g=rounded(row.yield_g_per_g),
        yield_half_interval_g_per_g=rounded(row.yield_half_interval_g_per_g),
        fat_retention_g_per_g=rounded(row.fat_retention_g_per_g),
        fat_retention_low_g_per_g=rounded(row.fat_retention_low_g_per_g),
        fat_retention_high_g_per_g=rounded(row.fat_retention_high_g_per_g),
        pairs=row.pairs,
        why=row.why,
        source=row.source,
    )


def _mix(curve: FatCurve) -> MixMethodAnswer:
    return MixMethodAnswer(
        mix=curve.mix,
        method=curve.method,
        segments=[FatCurveSegment(a_g_per_g=line.a_g_per_g, b_g_per_g=line.b_g_per_g) for line in curve.segments],
        yield_at_no_fat_g_per_g=curve.yield_at_no_fat_g_per_g,
        yield_lost_per_fat_g_per_g=curve.yield_lost_per_fat_g_per_g,
        yield_half_interval_g_per_g=curve.yield_half_interval_g_per_g,
        fat_kept_half_interval_g_per_g=curve.fat_kept_half_interval_g_per_g,
        least_fat_g_per_g=curve.least_fat_g_per_g,
        most_fat_g_per_g=curve.most_fat_g_per_g,
        rows=curve.rows,
        why=curve.why,
        source=curve.source,
    )
