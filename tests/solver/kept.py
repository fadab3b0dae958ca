"""A brief of which only the members of a conflict are left, to see by solving whether they are the reason."""

from dataclasses import replace

from solver.brief import Brief
from solver.outcome import Member, MemberKind


def kept(brief: Brief, wanted: tuple[Member, ...]) -> Brief:
    """The brief with nothing demanded but these members, and a must that anything meets in place of none."""
    pantry = tuple(
        replace(
            item,
            on_hand_g=item.on_hand_g if Member(MemberKind.ON_HAND, item.name) in wanted else None,
            at_most_g=item.at_most_g if Member(MemberKind.MOST_AMOUNT, item.name) in wanted else None,
            at_least_g=item.at_least_g if Member(MemberKind.LEAST_AMOUNT, item.name) in wanted else 0.0,
            step=item.step if Member(MemberKind.STEPS, None) in wanted else None,
            least_when_used_g=item.least_when_used_g if Member(MemberKind.STEPS, None) in wanted else None,
        )
        for item in brief.pantry
    )
    targets = tuple(
        asked if Member(MemberKind.TARGET, asked.id) in wanted else replace(asked, priority=1)
        for asked in brief.targets
    )
    rules = tuple(
        rule if Member(MemberKind.RULE, rule.id) in wanted else replace(rule, priority=1) for rule in brief.rules
    )
    return replace(brief, pantry=pantry, targets=targets, rules=rules)
