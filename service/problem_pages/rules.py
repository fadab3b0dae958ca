"""Problems of rules of the dish."""

from collections.abc import Mapping
from types import MappingProxyType

from service.problem_pages.page import Page

RULES: Mapping[str, Page] = MappingProxyType(
    {
        "unknown_item": Page(
            "There is no such item",
            "The rule counts an item that the pantry does not have.",
            "A misspelt name would leave the rule without effect.",
            "Use the name of an item, letter by letter; `*` counts all.",
        ),
        "unknown_trade_rule": Page(
            "There is no such rule of the trade",
            "The rule cites one that the table does not have.",
            "Its band would be a guess.",
            "Use a name from the remedy, or give at_least and at_most.",
        ),
        "cites_a_ratio": Page(
            "A rule of the trade without its second group",
            "The rule that is cited relates one group of items to another, and only one is named.",
            "An egg binds mince; without the mince it is no rule.",
            "Name both groups.",
        ),
        "choice_form": Page(
            "A choice that is none",
            "It names neither a number of items nor what goes with what, or both.",
            "What it should decide cannot be read from it.",
            "Give number_of with at_least or at_most; or if_used with then_used or then_not_used.",
        ),
        "empty_group": Page(
            "A rule about nothing",
            "No item of the pantry belongs to a group of the rule, or none goes into its component.",
            "It would be met by whatever is planned.",
            "Name items of the pantry that go into the component.",
        ),
    }
)
