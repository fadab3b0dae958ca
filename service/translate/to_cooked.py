"""From a cooked component of the solver to the one that goes out."""

from service.schemas.cooked import CookedAnswer, CookedItemAnswer
from service.translate.numbers import rounded
from solver.components import Drippings
from solver.cooked import CookedComponent, CookedItem


def to_cooked(cooked: CookedComponent) -> CookedAnswer:
    """The component as the contract has it."""
    return CookedAnswer(
        name=cooked.component.name,
        method=cooked.component.method,
        drippings=cooked.component.drippings.value,
        raw_g=rounded(cooked.raw_g),
        cooked_g=rounded(cooked.cooked_g),
        cooked_weight_is=cooked.weight.value,
        cooked_off_by_g=rounded(cooked.cooked_half_g),
        fat_g=rounded(cooked.fat_g),
        fat_kept_g=rounded(cooked.kept_g),
        rendered_g=rounded(cooked.rendered_g),
        rendered_is=cooked.fat.value,
        rendered_off_by_g=rounded(cooked.rendered_half_g),
        returned_g=rounded(cooked.returned_g),
        lost_g=rounded(cooked.lost_g),
        spoon_back=_spoons(cooked),
        evaporated_g=rounded(cooked.evaporated_g),
        eaten_g=rounded(cooked.eaten_g),
        why=cooked.why,
        items=[_item(item) for item in cooked.items],
    )


def _spoons(cooked: CookedComponent) -> str | None:
    spooned = cooked.component.drippings is Drippings.SPOONED_BACK and cooked.spoons > 0
    return f"{cooked.spoons} tsp" if spooned else None


def _item(item: CookedItem) -> CookedItemAnswer:
    return CookedItemAnswer(
        name=item.name,
        raw_g=rounded(item.raw_g),
        fat_g=rounded(item.fat_g),
        rendered_g=rounded(item.rendered_g),
        evidence=item.evidence.value,
        why=item.why,
    )
