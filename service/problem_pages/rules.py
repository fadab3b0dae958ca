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
        "no_group": Page(
            "A rule that counts nothing",
            "The rule names no items, no food groups and no allergens to count.",
            "It would be met by whatever is planned.",
            "Give of, of_food_groups or of_allergens.",
        ),
        "two_readings": Page(
            "A band whose ends read its group differently",
            "A group by allergen has items of which nobody said whether they contain it, and the band has two ends.",
            "What is unknown counts for at_most and does not count for at_least, so the two ends speak of other items.",
            "Make two rules of it, one for each end, or name the items.",
        ),
        "no_second_group": Page(
            "A second group that is not counted",
            "Pieces, and shares of the energy, are for the whole batch.",
            "A share is related to the dish already, and a number of pieces to no weight.",
            'Leave out the second group, or count by "raw mass".',
        ),
        "no_pieces": Page(
            "Pieces of what is not counted out",
            "The rule counts pieces of an item without a step, or whose step is a weight or a volume.",
            "How much one piece is would be a guess.",
            'Give the item a step such as "1 large", or leave it out of the group.',
        ),
        "part_of_a_pan": Page(
            "A share of the energy of a part of a pan",
            "The group holds some of what gives fat in a pan whose drippings are not all eaten.",
            "Whose fat it is that runs out cannot be told, so the share of the group has no exact value.",
            "Take all or nothing of the pan into the group, or let its drippings be served.",
        ),
        "eaten_weight_of_mix": Page(
            "The weight as eaten of a mix",
            "The rule counts what a mix weighs when it is cooked.",
            "How much water stays in a mix is an estimate that no amount may be chosen by.",
            'Weigh the mix when it is cooked, or count by "raw mass".',
        ),
        "part_of_the_weighed": Page(
            "A part of what was weighed as a whole",
            "The rule counts the weight as eaten of some of what is in a component that was weighed.",
            "The scale has one weight for all of it.",
            "Name all that is in the component, or none of it.",
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
