"""Problems of a base dish, and of what is said of it."""

from collections.abc import Mapping
from types import MappingProxyType

from service.problem_pages.page import Page

REWORKS: Mapping[str, Page] = MappingProxyType(
    {
        "no_base": Page(
            "No base dish",
            "A plan is to stay close to a dish, or a dish is to be made anew, and its amounts are not given.",
            "How far a plan is from it cannot be measured.",
            "Give base: each item with its amount. For a plan, or take `closest to` out of prefer.",
        ),
        "empty_base": Page(
            "An empty base dish",
            "No amount of the base dish is above zero.",
            "Nothing can stay close to nothing.",
            "Give what is in the dish.",
        ),
        "base_form": Page(
            "An amount of the base dish that is none",
            "It names neither an item with its amount nor drippings with their teaspoons, or both.",
            "What it should be the amount of cannot be read from it.",
            "Give item with amount, or drippings_of with teaspoons.",
        ),
        "repeated_base": Page(
            "Two amounts of the same",
            "The base dish has two amounts of one item in one component.",
            "Whether they are to be added up is not said.",
            "Add them up, or name different components.",
        ),
        "base_goes_nowhere": Page(
            "The base dish has it where it cannot go",
            "An amount of the base dish is in a component that the item does not go into.",
            "A plan could not keep it there.",
            "Name the component in goes_in of the item, or mend the amount's own goes_in.",
        ),
        "base_not_in_steps": Page(
            "Not a whole number of steps",
            "The base dish has an amount of an item that is no whole multiple of the item's step.",
            "It could never stay as it is.",
            "Leave out the step, or give one that the amount is a multiple of.",
        ),
        "said_form": Page(
            "Said with fields that do not go together",
            "Each thing that is said has fields of its own: `about` a factor, `use instead` one_of.",
            "What is asked for cannot be read from it.",
            "Give says with of; about needs factor, use instead needs one_of; leave out takes exclude in place of of.",
        ),
        "said_of_nothing": Page(
            "Less of what was not there",
            "The cook asks for less of something, or to replace it, and the base dish has none of it.",
            "No amount is less than none.",
            "Give its amount in base, or say more.",
        ),
        "reason_without_fix": Page(
            "Nothing mends it",
            "The dish has no place for any fix that the reason asks for: no such item, no pan to spoon from.",
            "The reason would be without effect.",
            "Add what mends it to the pantry, let drippings be spooned back, or leave reason out.",
        ),
    }
)
