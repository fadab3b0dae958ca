"""Problems of dishes that go into other dishes."""

from collections.abc import Mapping
from types import MappingProxyType

from service.problem_pages.page import Page

DISHES: Mapping[str, Page] = MappingProxyType(
    {
        "unknown_dish": Page(
            "There is no such dish",
            "A source names a dish that is not in the list of dishes.",
            "Nobody knows what is in it.",
            "Add the dish to dishes, or use the name of one that is there, letter by letter.",
        ),
        "dish_circle": Page(
            "A dish goes into itself",
            "A dish is an ingredient of a dish that it is made of itself; the detail has the path.",
            "Neither of them could be made first.",
            "Take one of them out of the next. A spoonful of the last batch can be given by its label.",
        ),
        "unknown_ingredient": Page(
            "There is no such ingredient",
            "What was strained out or discarded is no ingredient of the dish.",
            "Nothing can be taken out that did not go in.",
            "Use the name of one of the dish's ingredients, letter by letter.",
        ),
        "discarded_exceeds_ingredient": Page(
            "More thrown away than went in",
            "More of an ingredient is discarded than its amount.",
            "The rest would be less than nothing.",
            "Give all that went in as its amount, and what of that was thrown away.",
        ),
        "skimmed_exceeds_fat": Page(
            "More fat skimmed off than there was",
            "The fat that was skimmed off weighs more than the fat of the ingredients that stayed.",
            "What was strained out does not count, nor does its fat; and what is skimmed may hold broth.",
            "Skim only fat of what stayed, and weigh it when it has set.",
        ),
        "spoons_exceed_drippings": Page(
            "More spooned back than ran out",
            "The teaspoons of drippings that are spooned back hold more fat than ran out.",
            "Fat would come from nowhere.",
            "Spoon back less, or weigh the drippings: the scale outranks the table.",
        ),
        "not_spooned_back": Page(
            "Teaspoons of drippings that are not spooned back",
            "The component says how many teaspoons are spooned back, and that its drippings go elsewhere.",
            "The two cannot both be so.",
            "Leave the teaspoons out, or have the drippings spooned back.",
        ),
        "two_weights": Page(
            "The weight of a dish is given twice",
            "The dish makes a weight, and weighs one as well.",
            "The two need not agree.",
            "Keep one. A measure and a weight go together: 1 1/2 cups that weigh 310 g.",
        ),
        "yield_needs_weight": Page(
            "A measure that holds too much",
            "The dish makes a measure, its weight is not given, and what went into it would not fit into that.",
            "It was cooked down, and how far nobody knows.",
            "Weigh the dish and give its weight in weighs, beside the measure in makes.",
        ),
        "yield_exceeds_ingredients": Page(
            "A dish heavier than what went into it",
            "The dish weighs more than its ingredients, less what was taken out of it.",
            "Something is in it that is not named, most often water, and nobody knows how much of what.",
            "Add it as an ingredient, or mend the weight; the remedy says how much it can be.",
        ),
        "yield_below_dry_matter": Page(
            "A dish lighter than what cannot evaporate",
            "The dish weighs less than its ingredients do without any of their water.",
            "Only water evaporates. What stuck to a bowl or was spilled takes everything with it in proportion.",
            "Leave the weight out where nothing was cooked down, or mend it; the remedy says how low it can be.",
        ),
        "dish_of_nothing": Page(
            "Nothing of the dish is left",
            "Everything that went into the dish was taken out of it again.",
            "There is nothing to eat, so 100 g of it hold nothing.",
            "Let something stay, or drop the dish.",
        ),
    }
)
