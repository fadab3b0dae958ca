"""The members of a conflict as sentences, in the brief's own names."""

from collections.abc import Callable, Mapping
from types import MappingProxyType

from service.schemas.members import MemberAnswer
from service.translate.holds import tolerance_name
from service.words import band, number
from solver.brief import Brief
from solver.choices import Choice, Then
from solver.measures import text_of
from solver.numerics import PRINTED_STEP_G
from solver.outcome import Member, MemberKind
from solver.pantry import PantryItem, is_in_already
from solver.quantities import QUANTITY
from solver.rules import By


def to_member(brief: Brief, member: Member) -> MemberAnswer:
    """One member with its sentence."""
    of_all = member.name is None and member.kind is not MemberKind.TOLERANCE
    text = _on_all(member.kind) if of_all else _SENTENCES[member.kind](brief, member.name or "")
    return MemberAnswer.model_validate({"kind": member.kind.value, "name": member.name, "text": text})


def _on_all(kind: MemberKind) -> str:
    return {
        MemberKind.TARGET: "the targets",
        MemberKind.RULE: "the rules",
        MemberKind.ON_HAND: "what is on hand",
        MemberKind.MOST_AMOUNT: "the most amounts that may be used",
        MemberKind.LEAST_AMOUNT: "the least amounts that are asked for",
        MemberKind.STEPS: "the steps in which items are measured",
        MemberKind.PRINTING: f"that amounts are weighed to {PRINTED_STEP_G:g} g",
    }[kind]


def _target(brief: Brief, name: str) -> str:
    target = next(target for target in brief.targets if target.id == name)
    quantity = QUANTITY[target.of]
    per = f" per {target.per.value}" if quantity.denominator is None else ""
    called = "" if name == target.of else f"{name}: "
    return f"{called}{quantity.title}, {band(target.lower, target.upper, quantity.unit)}{per}"


def _rule(brief: Brief, name: str) -> str:
    choice = next((choice for choice in brief.choices if choice.id == name), None)
    if choice is not None:
        return _choice(choice)
    rule = next(rule for rule in brief.rules if rule.id == name)
    of, to = (", ".join(sorted(group.items)) for group in (rule.of, rule.to or rule.of))
    what = _COUNTED[rule.by].format(of=of)
    related = "for the batch" if rule.to is None else f"to {to}"
    if rule.of.component is not None:
        related += f", in {rule.of.component}"
    return f"{name}: {what} {related}, {band(rule.lower, rule.upper, rule.unit)}"


_COUNTED: Mapping[By, str] = MappingProxyType(
    {
        By.RAW_MASS: "{of}",
        By.SALT: "salt of {of}",
        By.AS_EATEN_MASS: "{of}, as eaten,",
        By.PIECES: "pieces of {of}",
        By.ENERGY_SHARE: "energy of {of}",
    }
)


def _choice(choice: Choice) -> str:
    items, others = (", ".join(sorted(names)) for names in (choice.items, choice.others))
    if choice.then is Then.ONE_OF:
        return f"{choice.id}: {items} only with one of {others}"
    if choice.then is Then.NONE_OF:
        return f"{choice.id}: {items} only without {others}"
    ends = {"at least": choice.lower, "at most": choice.upper}
    number_of = " and ".join(f"{side} {end}" for side, end in ends.items() if end is not None)
    return f"{choice.id}: {number_of} of {items}"


def _on_hand(brief: Brief, name: str) -> str:
    item = _item(brief, name)
    return f"{name}, {_grams(item.on_hand_g)} {'in already' if is_in_already(item) else 'on hand'}"


def _most_amount(brief: Brief, name: str) -> str:
    return f"{name}, at most {_grams(_item(brief, name).at_most_g)} for the batch"


def _least_amount(brief: Brief, name: str) -> str:
    item = _item(brief, name)
    if is_in_already(item):
        return f"{name}, {_grams(item.at_least_g)} in already"
    if item.at_least_g > 0:
        return f"{name}, at least {_grams(item.at_least_g)} for the batch"
    return f"{name}, none or at least {_grams(item.least_when_used_g)} for the batch"


def _steps(brief: Brief, name: str) -> str:
    step = _item(brief, name).step
    words = "its step" if step is None else text_of(step.amount, step.unit)
    return f"{name}, in whole multiples of {words}"


def _printing(_: Brief, name: str) -> str:
    return f"{name}, weighed to {PRINTED_STEP_G:g} g"


def _tolerance(brief: Brief, _: str) -> str:
    return f"holding within {tolerance_name(brief)}"


def _grams(grams: float | None) -> str:
    return number(round(grams or 0.0, 1), "g")


def _item(brief: Brief, name: str) -> PantryItem:
    return next(item for item in brief.pantry if item.name == name)


_SENTENCES: Mapping[MemberKind, Callable[[Brief, str], str]] = MappingProxyType(
    {
        MemberKind.TARGET: _target,
        MemberKind.RULE: _rule,
        MemberKind.ON_HAND: _on_hand,
        MemberKind.MOST_AMOUNT: _most_amount,
        MemberKind.LEAST_AMOUNT: _least_amount,
        MemberKind.STEPS: _steps,
        MemberKind.PRINTING: _printing,
        MemberKind.TOLERANCE: _tolerance,
    }
)
