"""Three invented foods whose region is known in fractions, and dishes counted from amounts that no scale shows."""

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from solver.backends import open_backend
from solver.brief import Brief
from solver.deadline import Deadline
from solver.outcome import Dish, Quantity
from solver.pantry import PantryItem, Step
from solver.reach import Pantry, range_of
from solver.reach_outcome import Range
from solver.targets import Target
from solver.verify import dish_of
from tests.solver.by_fractions import Row, box
from tests.solver.larder import BREAD, BUTTER, CHICKEN, between, brief, item

#: What 100 g of butter, chicken and bread hold (see `larder`), by name of the quantity; energy by 4-9-4.
PER_100G = {
    "protein_g": (1, 30, 10),
    "fat_g": (80, 4, 2),
    "energy_kcal": (728, 156, 258),
    "fat_energy_kcal": (720, 36, 18),
    "other_g": (2, 30, 60),
}

#: Hundreds of grams on hand.
ON_HAND = (1, 2, 1)

#: (of, lower, upper): the musts.
MUSTS = (
    ("energy_kcal", 400, 900),
    ("protein_g", 20, None),
    ("fat_share_percent", 40, 75),
    ("ketogenic_ratio", None, 3),
)

RATIOS = {"fat_share_percent": ("fat_energy_kcal", "energy_kcal", 100), "ketogenic_ratio": ("fat_g", "other_g", 1)}


def three_foods(*musts: tuple[str, int | None, int | None]) -> Brief:
    """The brief of these musts for one portion."""
    stock = zip((BUTTER, CHICKEN, BREAD), ON_HAND, strict=True)
    items = [replace(item(of), on_hand_g=100.0 * most) for of, most in stock]
    targets = [between(of, _float(lower), _float(upper)) for of, lower, upper in musts]
    return brief(*items, targets=tuple(targets))


def _float(end: int | None) -> float | None:
    return None if end is None else float(end)


def rows_of(*musts: tuple[str, int | None, int | None]) -> list[Row]:
    """The same in fractions."""
    rows = box(*ON_HAND)
    for of, lower, upper in musts:
        rows += [_row(of, Fraction(end), sign) for end, sign in ((lower, 1), (upper, -1)) if end is not None]
    return rows


def _row(of: str, end: Fraction, sign: int) -> Row:
    if of not in RATIOS:
        return [sign * each for each in PER_100G[of]], sign * end
    top, bottom, factor = RATIOS[of]
    return [sign * (factor * n - end * d) for n, d in zip(PER_100G[top], PER_100G[bottom], strict=True)], 0


def pantry(asked: Brief, backend: str = "highs") -> Pantry:
    return Pantry(asked, open_backend(backend), Deadline.after(20))


def reach_of(asked: Brief, of: str) -> Range:
    """The range of the target of this quantity."""
    return range_of(pantry(asked), next(target for target in asked.targets if target.of == of))


def dish_at(asked: Brief, amounts: Sequence[Quantity], *targets: Target) -> Dish:
    """What amounts come to that are not rounded, by the path of `verify`, measured in millionths of a gram.

    targets: what to say the values of, in place of the brief's.
    """
    fine = {each.name: _fine(each) for each in asked.pantry}
    used = [replace(each, item=fine[each.item.name], steps=None) for each in amounts if each.item.name in fine]
    spoons = {each.placed.component: each.steps or 0 for each in amounts if each.item.name not in fine}
    measured = replace(asked, pantry=tuple(fine.values()), targets=targets or asked.targets)
    return dish_of(used, measured, frozenset(), spoons)


def _fine(of: PantryItem) -> PantryItem:
    return replace(of, step=Step(1, "grain", 1e-6))


def value_at(asked: Brief, amounts: Sequence[Quantity], target: Target) -> float:
    """The value of one target of such a dish."""
    value = dish_at(asked, amounts, target).targets[0].value
    assert value is not None
    return value
