"""A brief in the words of the rival: looked up once, as a program written for it would have it."""

from solver.brief import Brief
from solver.foods import Food
from solver.limits import largest_g
from solver.pantry import PantryItem
from solver.targets import Target
from tests.benchmarks.rivals import Asked, Band, Offer

#: Nutrients of the rival's model that are the table's own.
OWN = ("protein_g", "available_carbohydrate_g", "sodium_mg")


def rival_of(brief: Brief, *, gaps: tuple[float, float] = (0.0, 0.0)) -> Asked:
    """The same brief for the rival."""
    energy = next(target for target in brief.targets if target.of == "energy_kcal")
    assert energy.lower is not None and energy.upper is not None  # noqa: PT018  so are these briefs built
    aim_kcal = (energy.lower + energy.upper) / 2 * brief.portions
    most = next((choice.upper for choice in brief.choices), None)
    return Asked(
        [_offer(item, brief) for item in brief.pantry],
        [_band(target, brief.portions, aim_kcal) for target in brief.targets],
        gaps,
        most,
    )


def per_gram(food: Food) -> dict[str, float]:
    """What 1 g of a food holds of all that the bands are of."""
    alcohol = 0.0 if food.is_missing("alcohol_g") else food.value("alcohol_g")
    fat_kcal = 9 * food.value("fat_g")
    kcal = fat_kcal + 4 * (food.value("protein_g") + food.value("total_carbohydrate_g")) + 7 * alcohol
    own = {name: food.value(name) / 100 for name in OWN}
    return {**own, "energy_kcal": kcal / 100, "fat_kcal": fat_kcal / 100}


def _offer(item: PantryItem, brief: Brief) -> Offer:
    most_g = largest_g(brief) if item.on_hand_g is None else item.on_hand_g
    step_g = None if item.step is None else item.step.grams
    return Offer(per_gram(item.food), most_g, item.price_per_g or 0.0, step_g)


def _band(target: Target, portions: int, aim_kcal: float) -> Band:
    is_share = target.of == "fat_share_percent"
    scale = 0.01 if is_share else float(portions)
    lower, upper = (None if end is None else end * scale for end in (target.lower, target.upper))
    half = None
    if lower is not None and upper is not None:
        half = (upper - lower) / 2 * (aim_kcal if is_share else 1.0)
    return (
        Band("fat_kcal", lower, upper, "energy_kcal", half) if is_share else Band(target.of, lower, upper, None, half)
    )
