"""What cooking makes of a component, in plain numbers: the way of its fat, its weight, and how sure both are.

Pieces (a roast, chops, fillets) keep the part of their own fat that their row of the cooking table says. A mix keeps
what its concave curve says of its whole mass and fat. What the cook weighed outranks both.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import isnan

from solver.components import Component, Drippings, Placed
from solver.cooked import CookedComponent, CookedItem, Evidence, can_lose
from solver.cooking_curves import holding_part
from solver.cooking_rows import FatCurve
from solver.foods import Food

#: A teaspoon of rendered fat, g: a third of the tablespoon of lard or tallow, 12.8 g (USDA SR28, 04002 and 04001).
SPOON_G = 12.8 / 3

#: Intervals are wider by this where a curve is a guess: outside the range of fat that it was measured in, and where
#: much of the mix is no such meat (our choice).
BEYOND_RANGE = 1.5

#: The part of a mix that may be something else: an egg to a pound binds it (common practice, no source).
OTHER_PART = 0.15


@dataclass(frozen=True, slots=True, eq=False)
class Content:
    """An item as it goes into a component: raw grams, edible portion.

    missing_fat_g, missing_protein_g: what 100 g count for fat and protein where nobody knows them.
    """

    name: str
    food: Food
    grams: float
    placed: Placed
    missing_fat_g: float = 0.0
    missing_protein_g: float = 0.0

    @property
    def fat_g(self) -> float:
        """Its fat."""
        per_100g = self.food.value("fat_g")
        return self.grams * (self.missing_fat_g if isnan(per_100g) else per_100g) / 100

    @property
    def holding_g(self) -> float:
        """The part of it that holds fat in a mix."""
        fat = self.fat_g / self.grams if self.grams > 0 else 0.0
        protein = self.food.value("protein_g")
        return self.grams * holding_part(fat, (self.missing_protein_g if isnan(protein) else protein) / 100)


@dataclass(frozen=True, slots=True)
class _Loss:
    """rendered_g of each item, and the whole's cooked weight; half-intervals of 90 % and the evidence of each."""

    rendered_g: tuple[float, ...]
    cooked_g: float
    rendered_half_g: float
    cooked_half_g: float
    fat: Evidence
    weight: Evidence
    why: str


def cook(component: Component, contents: Sequence[Content], spoons: int = 0) -> CookedComponent:
    """What becomes of the contents. spoons: teaspoons of drippings that are spooned back."""
    loss = _weighed(component, contents, _loss(component, contents))
    rendered = sum(loss.rendered_g)
    returned = _returned(component, rendered, spoons)
    lost_part = (rendered - returned) / rendered if rendered > 0 else 0.0
    return CookedComponent(
        component=component,
        items=tuple(
            _item(component, content, own, own * lost_part)
            for content, own in zip(contents, loss.rendered_g, strict=True)
        ),
        raw_g=sum(content.grams for content in contents),
        cooked_g=loss.cooked_g,
        holding_g=sum(content.holding_g for content in contents),
        fat_g=sum(content.fat_g for content in contents),
        rendered_g=rendered,
        returned_g=returned,
        lost_g=rendered - returned,
        spoons=spoons,
        weight=loss.weight,
        fat=loss.fat,
        cooked_half_g=_possible(loss.cooked_half_g, loss.cooked_g, sum(content.grams for content in contents)),
        rendered_half_g=_possible(loss.rendered_half_g, rendered, sum(content.fat_g for content in contents)),
        why=loss.why,
    )


def rendered_part(component: Component, placed: Placed) -> float:
    """The part of an item's own fat that runs out of it, among pieces; 0 in a mix and where nothing is cooked."""
    if component.method is None or component.is_mix:
        return 0.0
    if placed.row is None:
        return 1.0 if placed.melts else 0.0
    return 1.0 - placed.row.fat_retention_g_per_g


def cooked_part(component: Component, content_fat: float, placed: Placed) -> float:
    """Grams as eaten per gram raw of an item among pieces, drippings apart. content_fat: g fat per g raw."""
    rendered = content_fat * rendered_part(component, placed)
    shrunk = 1.0 if placed.row is None else placed.row.yield_g_per_g
    return min(shrunk, 1.0 - rendered)


def _loss(component: Component, contents: Sequence[Content]) -> _Loss:
    if component.method is None:
        whole = sum(content.grams for content in contents)
        return _Loss((0.0,) * len(contents), whole, 0.0, 0.0, Evidence.MATCHED, Evidence.MATCHED, "eaten as it is")
    if component.curve is not None:
        return _of_mix(component.curve, contents)
    return _of_pieces(component, contents)


def _of_mix(curve: FatCurve, contents: Sequence[Content]) -> _Loss:
    mass, fat = (sum(getattr(content, of) for content in contents) for of in ("grams", "fat_g"))
    rendered = max(fat - curve.fat_kept_g(sum(content.holding_g for content in contents), fat), 0.0)
    in_range = curve.covers(mass, fat)
    other = sum(content.grams for content in contents if not content.placed.fits_curve)
    beyond = "" if in_range else "; fat outside the range that was measured, so a guess"
    if other > OTHER_PART * mass:
        beyond += f"; {100 * other / mass:.0f} % of the mix is no such meat, so a guess"
    width = BEYOND_RANGE if beyond else 1.0
    return _Loss(
        tuple(rendered * content.fat_g / fat if fat > 0 else 0.0 for content in contents),
        min(max(curve.cooked_g(mass, fat), fat - rendered), mass - rendered),
        width * curve.fat_kept_half_interval_g_per_g * mass,
        width * curve.yield_half_interval_g_per_g * mass,
        Evidence.ESTIMATED,
        Evidence.ESTIMATED,
        curve.why + beyond,
    )


def _of_pieces(component: Component, contents: Sequence[Content]) -> _Loss:
    matched = all(content.placed.row is not None and content.placed.row.measured for content in contents)
    evidence = Evidence.MATCHED if matched else Evidence.ESTIMATED
    return _Loss(
        tuple(content.fat_g * rendered_part(component, content.placed) for content in contents),
        sum(_cooked_g(component, content) for content in contents),
        sum(_rendered_half_g(content) for content in contents),  # one heat for all: their errors go together
        sum(_cooked_half_g(content) for content in contents),
        evidence,
        evidence,
        "; ".join(dict.fromkeys(content.placed.why for content in contents if content.placed.why)),
    )


def _cooked_g(component: Component, content: Content) -> float:
    fat = content.fat_g / content.grams if content.grams > 0 else 0.0
    return content.grams * cooked_part(component, fat, content.placed)


def _rendered_half_g(content: Content) -> float:
    row = content.placed.row
    if row is None:
        return content.fat_g  # nothing is known of it: all of it may run out, or none
    kept = row.fat_retention_g_per_g
    return content.fat_g * max(kept - row.fat_retention_low_g_per_g, min(row.fat_retention_high_g_per_g, 1.0) - kept)


def _cooked_half_g(content: Content) -> float:
    if content.placed.row is not None:
        return content.placed.row.yield_half_interval_g_per_g * content.grams
    water = content.food.value("water_g")
    return content.grams * (1.0 if isnan(water) else water / 100)  # all of its water may leave


def _weighed(component: Component, contents: Sequence[Content], loss: _Loss) -> _Loss:
    """What the scale said, in place of what the table says. Fat that was not weighed fits into the weight that went."""
    if component.cooked_g is None and component.drippings_g is None:
        return loss
    raw, fat = sum(content.grams for content in contents), sum(content.fat_g for content in contents)
    cooked = loss.cooked_g if component.cooked_g is None else component.cooked_g
    rendered = component.drippings_g
    if rendered is None:
        rendered = min(max(sum(loss.rendered_g), fat - cooked), max(raw - cooked, 0.0))
    whole = component.drippings_g is not None
    return _Loss(
        _shared_out(rendered, loss.rendered_g, [content.fat_g for content in contents]),
        cooked if component.cooked_g is not None else min(max(cooked, fat - rendered), raw - rendered),
        0.0 if whole else loss.rendered_half_g,
        0.0 if component.cooked_g is not None else loss.cooked_half_g,
        Evidence.MEASURED if whole else loss.fat,
        loss.weight if component.cooked_g is None else Evidence.MEASURED,
        f"weighed by the cook; before that: {loss.why}",
    )


def _shared_out(rendered: float, expected: Sequence[float], fat: Sequence[float]) -> tuple[float, ...]:
    """The fat that ran out, from each item as the table expects it, or by its fat where it expects none.

    No item loses more than it has: what is beyond that comes from the others.
    """
    weights = expected if sum(expected) > 0 else fat
    total = sum(weights)
    shares = [rendered * weight / total if total > 0 else 0.0 for weight in weights]
    beyond = sum(max(share - own, 0.0) for share, own in zip(shares, fat, strict=True))
    room = [max(own - share, 0.0) for share, own in zip(shares, fat, strict=True)]
    spread = beyond / sum(room) if beyond > 0 and sum(room) > 0 else 0.0
    return tuple(min(share, own) + free * spread for share, own, free in zip(shares, fat, room, strict=True))


def _possible(half_g: float, value_g: float, most_g: float) -> float:
    """A half-interval that reaches no further than from the value to nothing, or to all there is."""
    return min(half_g, max(value_g, most_g - value_g, 0.0))


def _returned(component: Component, rendered: float, spoons: int) -> float:
    if component.drippings is Drippings.SERVED:
        return rendered
    return spoons * SPOON_G if component.drippings is Drippings.SPOONED_BACK else 0.0


def _evidence(component: Component, content: Content) -> Evidence:
    if component.method is None:
        return Evidence.MATCHED
    if component.drippings_g is not None:
        return Evidence.MEASURED
    row = content.placed.row
    return Evidence.MATCHED if row is not None and row.measured else Evidence.ESTIMATED


def _item(component: Component, content: Content, rendered: float, lost: float) -> CookedItem:
    row = content.placed.row
    return CookedItem(
        name=content.name,
        raw_g=content.grams,
        fat_g=content.fat_g,
        rendered_g=rendered,
        lost_g=lost,
        cooked_g=None if component.is_mix else _cooked_g(component, content),
        evidence=_evidence(component, content),
        rendered_half_g=0.0 if component.is_mix or component.method is None else _rendered_half_g(content),
        lacks_row=row is None and can_lose(content.food),
        why=content.placed.why,
    )
