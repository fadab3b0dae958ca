"""Problems of the JSON text itself, before anything in it has a meaning."""

from collections.abc import Mapping
from types import MappingProxyType

from service.problem_pages.page import Page

BODIES: Mapping[str, Page] = MappingProxyType(
    {
        "empty_body": Page(
            "The body is empty",
            "There is nothing but white space in the body.",
            "A plan needs a brief.",
            "Send a brief as a JSON object; /docs has examples that run.",
        ),
        "not_utf_8": Page(
            "The text is not UTF-8",
            "A byte in the body does not belong to any UTF-8 text.",
            "JSON that is exchanged between systems is in UTF-8 (RFC 8259, section 8.1).",
            "Save or send the text as UTF-8. The detail counts bytes from 0.",
        ),
        "malformed_json": Page(
            "The JSON has a mistake",
            "At the line and column that the detail names, the text stops being JSON.",
            "Often a comma too many, a quote missing, single quotes, or a comment: JSON has none.",
            "Mend the text at that place, or let a program write it.",
        ),
        "too_deep": Page(
            "The JSON is nested too deep",
            "Objects and lists stand inside each other for more levels than are read here.",
            "A brief needs five levels; deep nesting is a way to exhaust a reader.",
            "Compare the structure with an example in /docs.",
        ),
        "duplicate_name": Page(
            "A name comes twice in one object",
            "The same field stands twice in the same JSON object.",
            "Readers disagree on which of the two counts, so the brief has two meanings.",
            "Keep one of them. The pointer names the field.",
        ),
        "unusable_name": Page(
            "A field has a name that cannot be shown",
            "The name of a field is longer than any name here, or holds control characters.",
            "It is no field of a brief, and repeating it could disturb a terminal or a log.",
            "Remove it. The pointer leads to the object that holds it.",
        ),
        "not_text": Page(
            "A text holds half a character",
            "An escape such as \\ud83c stands alone; it is one half of a pair.",
            "Half a surrogate pair is no character, and cannot be written in UTF-8.",
            "Write the character itself, or both halves of its escape.",
        ),
    }
)
