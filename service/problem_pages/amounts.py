"""Problems of amounts of an item: how they are written, what they weigh, and whether they leave room."""

from collections.abc import Mapping
from types import MappingProxyType

from service.problem_pages.page import Page

AMOUNTS: Mapping[str, Page] = MappingProxyType(
    {
        "unreadable_amount": Page(
            "The amount cannot be read",
            "The text is no number with a unit.",
            "An amount that could be read in two ways is not guessed at.",
            'Write a number and a unit: "250 g", "1 1/2 tbsp", "1 lb 4 oz".',
        ),
        "unknown_measure": Page(
            "The food has no such measure",
            "Nobody has weighed one of this unit for this food, or the amount has no unit.",
            "A cup of one food weighs several times a cup of another.",
            "Use a measure that the remedy lists for the food, or a weight.",
        ),
        "ambiguous_measure": Page(
            "The measure means several weights",
            "The food has several measures of this name, and they do not weigh the same.",
            "The difference may be larger than any target's band.",
            "Write the measure as the remedy lists it, or give a weight.",
        ),
        "no_density": Page(
            "A volume that cannot be weighed",
            "The unit is a volume, and the food table does not know what a volume of this food weighs.",
            "Water's density is no density of butter or of spinach.",
            "Weigh it and give grams, or use a measure that the remedy lists.",
        ),
        "not_positive": Page(
            "An amount of nothing",
            "The amount is zero where only more than zero has a meaning.",
            "A step, a price or a label for no weight says nothing.",
            "Give an amount above zero, or leave the field out.",
        ),
        "several_parts": Page(
            "A step of two units",
            'A step is written in several parts, such as "1 lb 4 oz".',
            "Steps are counted on the card: 3 of something has to be one thing.",
            "Write it in one unit.",
        ),
        "not_an_amount": Page(
            "The amount is impossible",
            "An amount, price or end of a band is negative, or beyond what can be planned.",
            "Numbers of that size come from a slip of the unit.",
            "Give a number inside the range that the remedy names.",
        ),
        "no_step": Page(
            "The step weighs too little",
            "The step of an item weighs nothing, or less than any kitchen scale shows.",
            "No sensible number of them comes to an amount.",
            "Give the step that the remedy names or more, or leave it out: the item is then weighed to 0.1 g.",
        ),
        "no_step_fits": Page(
            "No whole step fits",
            "No multiple of the item's step lies between its least and its most.",
            "An item with a step comes in whole steps only, so no amount of it would be allowed.",
            "Choose a smaller step, or widen the range.",
        ),
        "crossed_limits": Page(
            "The limits of an item cross",
            "An item must be used for more than there is of it, or than may be used.",
            "No amount is in such a range.",
            "Lower the one limit, or raise the other; the detail names both.",
        ),
        "undated": Page(
            "Nothing is said to spoil",
            "What spoils first is to be used up, and no item has a day for that, or a place in an order.",
            "Then every plan is as good as another.",
            "Give use_by or use_up_order to what spoils, or drop the preference.",
        ),
        "days_and_order": Page(
            "Days and an order at once",
            "Some items have a day by which they have to be used, and others a place in an order.",
            "A place in an order is neither before nor after a day, so what goes first would be a guess.",
            "Give use_by to all of them, or use_up_order to all.",
        ),
        "nothing_to_buy": Page(
            "Nothing has to be bought",
            "As few new purchases as can be are asked for, and no item has to be bought.",
            "Then every plan is as good as another.",
            "Give to_buy to what is not at home, or drop the preference.",
        ),
        "to_buy_and_at_home": Page(
            "To be bought, and at home",
            "An item has to be bought, and another of its fields says that it is there.",
            "Whether it counts as a new purchase would be a guess.",
            "Leave out one of the two fields. What is there and what is bought may stand as two items.",
        ),
        "held_and_needed": Page(
            "Held back, and needed",
            "An item takes no part unless it is needed, and another of its fields says that it has to be used.",
            "Both cannot be so.",
            "Leave out only_if_needed, or the field that the problem names.",
        ),
        "not_a_date": Page(
            "No day of the calendar",
            "The text is no day as ISO 8601 writes it.",
            "A day that could be read in two ways is not guessed at.",
            'Write year, month and day: "2026-11-28".',
        ),
        "unpriced": Page(
            "An item has no price",
            "The cheapest plan is asked for, and an item of the pantry has no price.",
            "An item without a price would count as free, and the plan would be full of it.",
            "Give its price for some amount, 0 if it costs nothing.",
        ),
    }
)
