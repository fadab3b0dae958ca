"""Problems of single fields: missing, unknown, of the wrong type, or beyond what is taken."""

from collections.abc import Mapping
from types import MappingProxyType

from service.problem_pages.page import Page

FIELDS: Mapping[str, Page] = MappingProxyType(
    {
        "missing_field": Page(
            "A field is missing",
            "A field that the request cannot do without is not there.",
            "There is no value that would be right for everybody, so none is assumed.",
            "Add the field that the pointer names; /docs describes it.",
        ),
        "unknown_field": Page(
            "There is no such field",
            "The object has a field that means nothing here.",
            "Passing over a misspelt field would drop a limit or a target without a word.",
            "Mend its spelling, or remove it. The remedy names the nearest field, if one is near.",
        ),
        "wrong_type": Page(
            "The value is of another type",
            "A number stands where a text is expected, a text where a number is, or the like.",
            'Types are not converted: "4" is no number, and true is not 1.',
            "Write the type that the remedy names.",
        ),
        "not_finite": Page(
            "The number is not finite",
            "The number is NaN, infinite, or too large to compute with.",
            "No amount of food is.",
            "Give a finite number. To leave a side open, leave the field out.",
        ),
        "out_of_range": Page(
            "The number is out of range",
            "The number is below or above what the field takes.",
            "The range is what a kitchen can mean and the arithmetic can carry.",
            "Give a number inside the range that the detail names.",
        ),
        "wrong_length": Page(
            "Too short or too long",
            "A list or a text has fewer or more entries or characters than it may.",
            "An empty pantry has no plan; a text of thousands of characters is no name.",
            "Give as many as the detail allows.",
        ),
        "unknown_value": Page(
            "Not one of the choices",
            "The field takes one of a few words, and this is none of them.",
            "The nearest word may mean something else.",
            "Choose one of the words that the detail lists.",
        ),
        "invalid": Page(
            "The value does not fit",
            "The value breaks a rule of the contract that has no page of its own.",
            "See the detail.",
            "Compare the value with the field's description in /docs.",
        ),
        "too_many": Page(
            "More than this service takes",
            "The body has more items, targets or values than the setting that the detail names allows.",
            "The time for a plan grows with their number, and others wait.",
            "Leave out what will not be used. Whoever runs the service can raise the limit.",
        ),
        "time_limit_too_long": Page(
            "The time limit is too long",
            "The brief asks for more seconds than this service gives to one brief.",
            "A brief holds a place for as long as it is solved.",
            "Ask for less time; most briefs need less than a second.",
        ),
        "empty": Page(
            "An empty list",
            "The pantry, the targets or the preferences are empty.",
            "There is nothing to choose from, nothing to meet, or nothing to seek.",
            "Give at least one.",
        ),
        "too_few_portions": Page(
            "No portion at all",
            "The number of portions is below 1.",
            "What a portion comes to cannot be said of none.",
            "Give 1 or more.",
        ),
    }
)
