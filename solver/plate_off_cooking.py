"""What the estimate of cooking leaves open: the fat that runs out, and the weight that is left.

Both have a 90 % half-interval of their own. Fat that stays is eaten where its drippings are not; it takes its fatty
acids and cholesterol along, and in a food of a given weight it stands in the place of water. Drippings that are served
are eaten either way, so that only the weight is open; what is spooned back is fixed by its teaspoons. The weight of the
food is a question of water alone. What the cook weighed has no error here.
"""

from collections.abc import Iterator

from solver.brief import Brief
from solver.components import Drippings
from solver.cooked import CookedComponent, CookedItem, Evidence
from solver.drippings import CHOLESTEROL_MG_PER_G_FAT, FATTY_ACIDS
from solver.numerics import FloatArray
from solver.outcome import Dish
from solver.plate_off_energy import with_fat_energy
from solver.plate_off_moves import Cause, Kind, cause, move
from solver.used import Used


def used_in(cooked: CookedComponent, dish: Dish, brief: Brief) -> tuple[tuple[Used, CookedItem], ...]:
    """The items of a component, each with what became of it, in the order of the quantities."""
    inside = [each for each in dish.quantities if each.placed.component == cooked.component.name]
    return tuple(
        (Used(quantity, brief.count_missing_as, item.lost_g), item)
        for quantity, item in zip(inside, cooked.items, strict=True)
    )


def cooking_causes(dish: Dish, brief: Brief) -> Iterator[Cause]:
    """One cause for each component with something open."""
    for cooked in dish.cooked:
        ends, words = [], []
        fat, weight = _fat_half_g(cooked), _weight_half_g(cooked)
        if fat > 0:
            ends.append(_fat_ends(cooked, used_in(cooked, dish, brief), fat, brief))
            words.append(f"the {cooked.rendered_g:.1f} g of fat that run out may be off by {fat:.1f} g")
        if weight > 0:
            ends.append(_weight_ends(cooked, weight))
            words.append(f"the {cooked.cooked_g:.1f} g cooked weight may be off by {weight:.1f} g")
        if ends:
            yield cause(Kind.COOKING, cooked.component.name, f"{', and '.join(words)}: {cooked.why}.", ends)


def _fat_half_g(cooked: CookedComponent) -> float:
    open_ = cooked.component.method is not None and cooked.fat is not Evidence.MEASURED
    return cooked.rendered_half_g if open_ else 0.0


def _weight_half_g(cooked: CookedComponent) -> float:
    open_ = cooked.component.method is not None and cooked.weight is not Evidence.MEASURED
    return cooked.cooked_half_g if open_ else 0.0


def _weight_ends(cooked: CookedComponent, half: float) -> tuple[FloatArray, FloatArray]:
    lighter = min(half, cooked.cooked_g)
    return move({"grams": half, "water_g": half}), move({"grams": -lighter, "water_g": -lighter})


def _fat_ends(
    cooked: CookedComponent, inside: tuple[tuple[Used, CookedItem], ...], half: float, brief: Brief
) -> tuple[FloatArray, FloatArray]:
    """Less and more that runs out: no less than none, no more than there is."""
    more, less = min(half, cooked.kept_g), min(half, cooked.rendered_g)
    if cooked.component.drippings is Drippings.SERVED:
        return move({"grams": more, "water_g": more}), move({"grams": -less, "water_g": -less})
    shares = _shares(cooked)
    return (
        _fat_stays(inside, shares, min(less, cooked.lost_g), brief),
        _fat_stays(inside, shares, -more, brief),
    )


def _shares(cooked: CookedComponent) -> list[float]:
    """Whose fat it is: of pieces as each is open, in a mix as each renders, else as each is fat; they sum to 1."""
    for weights in (
        [item.rendered_half_g for item in cooked.items],
        [item.rendered_g for item in cooked.items],
        [item.fat_g for item in cooked.items],
    ):
        if sum(weights) > 0:
            return [weight / sum(weights) for weight in weights]
    return [0.0 for _ in cooked.items]


def _fat_stays(
    inside: tuple[tuple[Used, CookedItem], ...], shares: list[float], fat_g: float, brief: Brief
) -> FloatArray:
    row = move({"water_g": -fat_g})
    for (used, item), share in zip(inside, shares, strict=True):
        if share > 0 and item.fat_g > 0:
            row += move(with_fat_energy(_in_fat(used, share * fat_g), used.food, brief.energy_basis))
    return row


def _in_fat(used: Used, fat_g: float) -> dict[str, float]:
    """What comes with an item's own rendered fat."""
    own = used.per_gram("fat_g") or 0.0
    found = {"fat_g": fat_g}
    for name in (*FATTY_ACIDS, "cholesterol_mg"):
        per_gram = used.per_gram(name)
        if per_gram is not None and own > 0:
            most = CHOLESTEROL_MG_PER_G_FAT if name == "cholesterol_mg" else 1.0
            found[name] = fat_g * min(per_gram / own, most)
    return found
