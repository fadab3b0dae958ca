"""A dish scaled to another number of portions, in the same pan.

Amounts are multiplied by the ratio of the portions, then rounded to what a kitchen can take (`scaling_amounts`); what
was weighed when it was cooked comes to other weights (`scaling_pan`).
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from solver.brief import Brief
from solver.closest import UseName
from solver.outcome import Quantity
from solver.pantry import Step
from solver.rule_results import rule_result
from solver.scaling_amounts import ScaledAmount, as_weight, is_counted, scaled_amount
from solver.scaling_pan import scaled_pans, scaled_spoons
from solver.used import in_kitchen

#: Told of every dish that is scaled.
TIMES = "Times, and amounts that the words of the method name, are as they were written."


@dataclass(frozen=True, slots=True)
class ScaledDish:
    """brief: for the new portions; its pantry is what is in the dish, its components have the weights they come to.

    spoons: name of a component to teaspoons of its drippings. notes: whole sentences.
    """

    brief: Brief
    quantities: tuple[Quantity, ...]
    spoons: Mapping[str, int]
    notes: tuple[str, ...] = ()


def scaled_dish(
    quantities: Sequence[Quantity],
    spoons: Mapping[str, int],
    brief: Brief,
    portions: int,
    words: Mapping[UseName, Step] | None = None,
) -> ScaledDish:
    """The dish for so many portions; the same dish where it makes so many already.

    words: amounts as they were written, each as a single step; one without words is scaled exactly.
    """
    if portions == brief.portions:
        return ScaledDish(brief, tuple(quantities), spoons)
    asked = _Asked(tuple(quantities), replace(brief, portions=portions), words or {}, portions / brief.portions)
    amounts = asked.keeping_rules(asked.amounts())
    found = asked.settled(amounts)
    pans = scaled_pans(in_kitchen(quantities, spoons, brief), in_kitchen(found, {}, asked.brief), brief.components)
    items = {each.item.name: each.item for each in found}
    target = replace(asked.brief, pantry=tuple(items.values()), components=tuple(pan.component for pan in pans))
    spooned = scaled_spoons(spoons, asked.factor, in_kitchen(found, {}, target))
    notes = (
        *asked.of_amounts(amounts),
        *(pan.note for pan in pans if pan.note),
        *_of_spoons(spoons, spooned, asked.factor),
        *_of_rules(found, spooned, target),
        TIMES,
    )
    return ScaledDish(target, found, spooned, notes)


@dataclass(frozen=True, slots=True)
class _Asked:
    """quantities: as they were. brief: for the new portions, its rules to be kept."""

    quantities: tuple[Quantity, ...]
    brief: Brief
    words: Mapping[UseName, Step]
    factor: float

    def amounts(self) -> list[ScaledAmount]:
        """Every amount, rounded on its own."""
        return [
            scaled_amount(each.item.food, each.grams, self.words.get(_use(each)), self.factor)
            for each in self.quantities
        ]

    def keeping_rules(self, amounts: list[ScaledAmount]) -> list[ScaledAmount]:
        """The same, with whole pieces weighed instead where they break a rule that the exact amounts keep."""
        exact = self.settled([ScaledAmount(each.exact_g, each.exact_g) for each in amounts])
        kept = [rule for rule in self.brief.rules if rule_result(rule, exact, self.brief, is_binding=False).met]
        found = self.settled(amounts)
        broken = [rule for rule in kept if not rule_result(rule, found, self.brief, is_binding=False).met]
        groups = [group for rule in broken for group in (rule.of, rule.to) if group is not None]
        pairs = zip(self.quantities, amounts, strict=True)
        return [
            self._weighed(each, amount) if any(group.holds(*_use(each)) for group in groups) else amount
            for each, amount in pairs
        ]

    def settled(self, amounts: Sequence[ScaledAmount]) -> tuple[Quantity, ...]:
        """The quantities, of items of which just that is there."""
        whole: dict[str, float] = {}
        pairs = tuple(zip(self.quantities, amounts, strict=True))
        for each, amount in pairs:
            whole[each.item.name] = whole.get(each.item.name, 0.0) + amount.grams
        return tuple(_quantity(each, amount, whole[each.item.name]) for each, amount in pairs)

    def of_amounts(self, amounts: Sequence[ScaledAmount]) -> Iterator[str]:
        """What the cook has to know of amounts."""
        for each, amount in zip(self.quantities, amounts, strict=True):
            if amount.note is not None:
                yield f"{each.item.name}: {amount.note}."

    def _weighed(self, quantity: Quantity, amount: ScaledAmount) -> ScaledAmount:
        words = self.words.get(_use(quantity))
        if words is None or not is_counted(words):
            return amount
        return as_weight(quantity.item.food, amount.exact_g, words, self.factor)


def _use(quantity: Quantity) -> UseName:
    return (quantity.item.name, quantity.placed.component)


def _quantity(quantity: Quantity, amount: ScaledAmount, whole_g: float) -> Quantity:
    step = amount.words or Step(round(amount.grams, 6), "g", amount.grams)
    item = replace(
        quantity.item, on_hand_g=whole_g, at_least_g=whole_g, at_most_g=whole_g, step=step, least_when_used_g=None
    )
    return Quantity(item, amount.grams, 1, quantity.placed)


def _of_spoons(before: Mapping[str, int], after: Mapping[str, int], factor: float) -> Iterator[str]:
    for name, spoons in after.items():
        if spoons != before[name] * factor:
            yield f"{name}: {spoons} tsp of drippings in place of {before[name] * factor:.3g} tsp."


def _of_rules(found: Sequence[Quantity], spoons: Mapping[str, int], brief: Brief) -> Iterator[str]:
    for rule in brief.rules:
        if not rule_result(rule, found, brief, is_binding=False, spoons=spoons).met:
            yield f"The scaled amounts miss the rule {rule.id}."
