"""Rules of a brief in the solver's words, and what became of them."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from service.schemas.rules import RuleAnswer, RuleBody
from service.translate.groups import Groups, safe_reading
from service.translate.names import refuse_unknown, refuse_unprintable
from service.translate.numbers import maybe_rounded
from service.translate.place import Place
from solver.components import Component
from solver.outcome import RuleResult
from solver.rules import By, Group, Rule
from solver.trade_rules import TradeRule


def to_rules(
    bodies: Sequence[RuleBody],
    groups: Groups,
    components: Sequence[Component],
    trade: Mapping[str, TradeRule],
    place: Place,
) -> tuple[Rule, ...]:
    """The rules in the brief's order. Those that are refused at `place` are left out. trade: by name."""
    known = _Known(groups, {component.name for component in components}, trade)
    found = (_rule(body, f"rule {number + 1}", known, place / number) for number, body in enumerate(bodies))
    return tuple(rule for rule in found if rule is not None)


@dataclass(frozen=True, slots=True)
class _Known:
    """What rules may name."""

    groups: Groups
    components: set[str]
    trade: Mapping[str, TradeRule]


def _rule(body: RuleBody, called: str, known: _Known, place: Place) -> Rule | None:
    before = len(place.problems)
    if body.id is not None:
        refuse_unprintable(body.id, place / "id")
    component = None if body.component is None else body.component.strip()
    if component is not None:
        refuse_unknown(component, known.components, "unknown_component", place / "component")
    cites = None if body.cites is None else body.cites.strip()
    if cites is not None:
        refuse_unknown(cites, known.trade, "unknown_trade_rule", place / "cites")
    of, to = (known.groups.chosen(body, field, place) for field in ("of", "to"))
    cited = known.trade.get(cites or "")
    if of is None:
        (place / "of").refuse("no_group", "The rule counts nothing.", "Name items, food groups or allergens.")
    if cited is not None and to is None:
        (place / "to").refuse(
            "cites_a_ratio", "Rules of the trade relate one group to another.", f"Name both: {cited.what}."
        )
    own = body.at_least is not None or body.at_most is not None
    lower, upper = (body.at_least, body.at_most) if own or cited is None else (cited.lower, cited.upper)
    both = lower is not None and upper is not None
    groups = [
        safe_reading(each, place / field, both=both, wide=(lower is None) is first)
        for field, each, first in (("of", of, True), ("to", to, False))
        if each is not None
    ]
    if len(place.problems) > before or of is None:
        return None
    by = By(body.by) if body.by is not None else (By.RAW_MASS if cited is None else cited.by)
    words = None if cited is None else _cited(cited, is_own=own or by is not cited.by)
    identifier = (body.id or cites or called).strip()
    first, *rest = (Group(each.items, component, each.joins) for each in groups)
    second = rest[0] if rest else None
    return Rule(identifier, first, by, second, lower, upper, body.priority, words)


def _cited(cited: TradeRule, *, is_own: bool) -> str:
    """A rule of the trade in words; a band that the cook chose is never passed off as the trade's."""
    aside = "; its band is the brief's own" if is_own else ""
    return f"{cited.name}: {cited.what} ({cited.source}{aside})"


def to_rule_answer(result: RuleResult) -> RuleAnswer:
    """What became of a rule, as the contract has it."""
    rule = result.rule
    return RuleAnswer(
        id=rule.id,
        by=rule.by.value,
        of=sorted(rule.of.items),
        to=None if rule.to is None else sorted(rule.to.items),
        unit=rule.unit,
        at_least=maybe_rounded(rule.lower),
        at_most=maybe_rounded(rule.upper),
        priority=rule.priority,
        cites=rule.cites,
        value=maybe_rounded(result.value),
        reason=result.reason,
        met=result.met,
        binding=result.binding,
        miss=maybe_rounded(result.miss),
    )
