"""What becomes of each component in cooking, as lines of text."""

from collections.abc import Iterator

from service.schemas.cooked import CookedAnswer
from service.schemas.dish import DishAnswer


def cooking_lines(dish: DishAnswer) -> Iterator[str]:
    """A sentence or two for each component that is cooked."""
    for component in dish.components:
        if component.method is not None:
            yield f"{component.name} ({component.method}): {_weights(component)}; {_fat(component)}."


def _weights(cooked: CookedAnswer) -> str:
    off = "" if cooked.cooked_off_by_g == 0 else f", give or take {cooked.cooked_off_by_g:.0f} g"
    return f"{cooked.raw_g:.0f} g raw become {cooked.cooked_g:.0f} g ({cooked.cooked_weight_is}{off})"


def _fat(cooked: CookedAnswer) -> str:
    if cooked.rendered_g == 0:
        return "no fat runs out"
    off = "" if cooked.rendered_off_by_g == 0 else f", give or take {cooked.rendered_off_by_g:.0f} g"
    ran_out = f"{cooked.rendered_g:.0f} g of {cooked.fat_g:.0f} g fat run out ({cooked.rendered_is}{off})"
    if cooked.spoon_back is not None:
        return f"{ran_out}, spoon back {cooked.spoon_back} of it"
    return f"{ran_out}, {'spoon none back' if cooked.drippings == 'spooned back' else cooked.drippings}"
