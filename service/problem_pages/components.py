"""Problems of components: how they are cooked, what goes in, and what was weighed."""

from collections.abc import Mapping
from types import MappingProxyType

from service.problem_pages.page import Page

COMPONENTS: Mapping[str, Page] = MappingProxyType(
    {
        "unknown_method": Page(
            "There is no such method",
            "The cooking table has neither a mix nor a method of this name.",
            "What cooking does differs from method to method; the nearest name may do something else.",
            "Use a name that GET /v1/cooking-methods lists for the food, or leave the method out.",
        ),
        "unknown_component": Page(
            "There is no such component",
            "The item goes into a component that the brief does not have.",
            "Where it goes decides how it is cooked.",
            "Use the name of one of the components, letter by letter.",
        ),
        "goes_nowhere": Page(
            "Nothing says where the item goes",
            "The brief has several components and the item names none.",
            "What is cooked and what is not would be a guess.",
            "Name at least one component in goes_in.",
        ),
        "no_components": Page(
            "There are no components to go into",
            "The item names components, and the brief has none.",
            "A misspelt field would be lost otherwise.",
            "Add the components, or leave goes_in out.",
        ),
        "not_cooked": Page(
            "Nothing is cooked here",
            "The component has no method, and a field that only cooking gives a meaning to.",
            "Nothing runs out of what is eaten as it is.",
            "Give the method, or leave the field out.",
        ),
        "already_in_and_limits": Page(
            "What is in already has no other limit",
            "The item is in already, and has a limit or a step as well.",
            "Its amount is settled, so nothing is left to limit.",
            "Leave out already_in, or the other field.",
        ),
        "already_in_several": Page(
            "In already, but in which component?",
            "The item is in already, and may go into several components.",
            "What was cooked with it depends on where it is.",
            "Name the one component that it is in. What is still to be added is an item of its own.",
        ),
        "not_settled": Page(
            "A finished component with an open amount",
            "The component is finished, or something of it was weighed, and an amount in it is open.",
            "The scale speaks of what went in; were that changed, it would speak of something else.",
            "Give already_in for every item of the component, or let the item go elsewhere.",
        ),
        "drippings_exceed_fat": Page(
            "More drippings than fat",
            "The fat that was weighed is more than went in.",
            "Drippings hold water and juices as well.",
            "Let them settle and weigh the fat alone, or check the amounts that went in.",
        ),
        "heavier_than_raw": Page(
            "Heavier than what went in",
            "What was weighed after cooking is more than what went in.",
            "Something was taken up that the brief does not name.",
            "Add it as an item, water too, or check the weights.",
        ),
        "nothing_weighed": Page(
            "Weighed, and nothing in it",
            "Something of the component was weighed, and no item goes into it.",
            "The weight would be lost.",
            "Name the component in goes_in of what is in it, or drop it.",
        ),
        "lighter_than_its_protein": Page(
            "Lighter than the protein in it",
            "What was weighed after cooking is less than the protein that went in.",
            "Water and fat leave a pan; protein stays.",
            "Weigh the food again, without what it lies in, and check the amounts that went in.",
        ),
        "lighter_than_its_fat": Page(
            "Lighter than the fat in it",
            "What was weighed after cooking is less than the fat that did not run out.",
            "One of the two weights cannot be right.",
            "Weigh the food and its drippings again, the fat without juices.",
        ),
        "water_of_mix": Page(
            "The water of a mix as a target",
            "A target is of the water as eaten, and the brief cooks a mix.",
            "What evaporates from a mix is an estimate that no amount should be chosen by.",
            'Count the water raw with "basis": "raw", or drop the target.',
        ),
        "measure_as_purchased": Page(
            "A measure of something weighed as purchased",
            "The item is weighed as purchased, and an amount of it is a household measure.",
            "Measures of the table weigh what is eaten; an egg's shell or a bone is in none of them.",
            "Give a weight, or drop weighed.",
        ),
        "refuse_unknown": Page(
            "What is not eaten of it is not known",
            "The food has no refuse in the table, or one that cannot be right.",
            "Without it nobody knows how much of the weight is eaten.",
            "Weigh the edible portion.",
        ),
    }
)
