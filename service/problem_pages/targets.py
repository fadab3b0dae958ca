"""Problems of targets, and of what they need."""

from collections.abc import Mapping
from types import MappingProxyType

from service.problem_pages.page import Page

TARGETS: Mapping[str, Page] = MappingProxyType(
    {
        "no_band": Page(
            "The target has no band",
            "The target says neither what to aim at nor an end.",
            "Every plan would meet it.",
            "Give aim, with or without within; or at_least, at_most or both.",
        ),
        "two_bands": Page(
            "The band is given in two ways",
            "The target has an aim as well as an end.",
            "The two need not agree.",
            "Keep aim with within, or at_least with at_most.",
        ),
        "within_without_aim": Page(
            "There is no aim to be within",
            "The target has a within, and no aim.",
            "A distance needs something to be distant from.",
            "Add the aim, or write the band with at_least and at_most.",
        ),
        "beyond_100": Page(
            "A share above 100 %",
            "The band of a share ends above 100 percent.",
            "No part is more than the whole.",
            "Give 0 to 100.",
        ),
        "crossed_band": Page(
            "The ends of a band are crossed",
            "The lower end of the target's band is above the upper one.",
            "Nothing lies between them.",
            "Swap the two, or mend one.",
        ),
        "contradictory_bands": Page(
            "Two bands that nothing meets",
            "Two musts are of the same quantity, for the same portion or batch, and their bands do not overlap.",
            "No dish, of whatever food, meets both. Each of the two has an entry in the document.",
            "Mend one of the two, drop it, or give it a priority: then it is a wish.",
        ),
        "two_ratios": Page(
            "Both are shares or ratios",
            "A frontier names two shares or ratios.",
            "What is reachable of two ratios has neither straight edges nor one amount to follow.",
            "Hold a share against an amount, such as energy_kcal or protein_g.",
        ),
        "empty_plate": Page(
            "An empty plate would do",
            "No target asks for any amount of anything.",
            "The best plan would be to cook nothing.",
            "Give an amount to reach, such as energy_kcal with an aim.",
        ),
        "one_tolerance": Page(
            "There is not one tolerance",
            "What to hold within names a tolerance and percents, or neither.",
            "A plan holds within one tolerance.",
            "Give tolerance, or percent by nutrient.",
        ),
        "one_sided_tolerance": Page(
            "A tolerance that guarantees nothing",
            "A plan shall hold within the limits of US labels (21 CFR 101.9(g)).",
            "They are one-sided: less fat, or more carbohydrate, than declared is no breach, however much it is. So "
            "they can guarantee neither a carbohydrate ceiling nor a fat floor.",
            "Hold within the EU tolerance or the label rounding, or say in percent how far each nutrient may be off.",
        ),
        "too_many_ways_off": Page(
            "Too many ways to be off",
            "A plan shall hold with a few items off at once, and there are too many ways to choose them.",
            "Each of them is a row of its own for every end of a must.",
            "Allow fewer items to be off, use a smaller pantry, or let all items be off.",
        ),
        "energy_is_counted": Page(
            "Energy moves with the macronutrients",
            "A percent is given for energy_kcal, but on this energy_basis energy is counted from the macronutrients.",
            "Both cannot move by themselves.",
            "Name protein_g, fat_g and the carbohydrate, or choose the energy_basis declared.",
        ),
        "needed_value_missing": Page(
            "An item that must be used lacks a value",
            "An item has a least amount, but its source has no value for a nutrient that a target needs.",
            "A missing value is never read as zero, so no plan with this item could be checked.",
            "Say in count_missing_as what to count for it, drop the least amount, or drop the target.",
        ),
        "nothing_left": Page(
            "No item is left",
            "Every item of the pantry lacks a value that the targets need.",
            "A missing value is never read as zero, so none of them could be used.",
            "Say in count_missing_as what to count, drop the target, or add an item that has the value.",
        ),
    }
)
