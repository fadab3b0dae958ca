"""Problems of dividing a dish into portions."""

from collections.abc import Mapping
from types import MappingProxyType

from service.problem_pages.page import Page

PORTIONS: Mapping[str, Page] = MappingProxyType(
    {
        "portions_exceed_batch": Page(
            "The portions are more than the dish",
            "The weights, or the energies, of the portions come to more than the dish has as eaten.",
            "Cooking takes water and fat, so the dish on the plate weighs less than the dish on the board.",
            "Make the portions smaller, divide by shares, or make more of the dish.",
        ),
        "no_pieces_left": Page(
            "More pieces are eaten than there are",
            "The pieces that are eaten are more than the dish is cut into.",
            "Somebody would get none.",
            "Let fewer pieces be eaten, or cut the dish into more.",
        ),
        "repeated_portion": Page(
            "Two portions of one name",
            "Two portions are called the same, upper and lower case alike, or one is called leftovers.",
            "The answer could not say which of them it means, or which is what is left.",
            "Give each portion a name of its own.",
        ),
        "nothing_to_divide": Page(
            "There is nothing to divide",
            "The dish weighs nothing, or has no energy and is to be divided by energy.",
            "A share of nothing has no size.",
            "Add what is in the dish, divide it in another way, or leave the division out.",
        ),
    }
)
