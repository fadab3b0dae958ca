"""Problems of a request as a whole: the `type` of the document itself."""

from collections.abc import Mapping
from types import MappingProxyType

from service.problem_pages.page import Page

REQUESTS: Mapping[str, Page] = MappingProxyType(
    {
        "unusable_request": Page(
            "The request cannot be used as it is",
            "The request was read, but something in it is wrong, missing or contradicts something else.",
            "A plan for a brief that was guessed at would be a plan for another dish.",
            "The document lists each thing to mend under problems: where (pointer, or parameter for one in the "
            "address), what, and how. Mend them all and send the request again; the same request will be refused "
            "again.",
        ),
        "unreadable_body": Page(
            "The body is no readable JSON",
            "The bytes of the body are not one JSON text in UTF-8.",
            "Nothing in it can be trusted when its beginning and end are not clear.",
            "The one entry under problems says where the reading stopped. Mend that place; another may follow it.",
        ),
        "bad_request": Page(
            "The request is not complete or not sound",
            "The request broke off, or is no sound HTTP.",
            "What was meant cannot be told.",
            "Send it again, with a client that writes the whole body.",
        ),
        "key_needed": Page(
            "A key is needed",
            "The service has keys, and the request carries none that it knows.",
            "It can be reached from other machines, and work costs time that others wait for.",
            "Send the header Authorization: Bearer KEY. Whoever runs the service makes keys with larderline key NAME.",
        ),
        "not_found": Page(
            "There is nothing at this address",
            "No page, resource or reference food has this address.",
            "The address may be misspelt, or the id is not in the food table of this service.",
            "/docs shows every address. Food ids look like sr28:01123.",
        ),
        "method_not_allowed": Page(
            "The address takes other methods",
            "The address exists, but not for this HTTP method.",
            "Plans are asked for with POST; everything else is read with GET, and work is cancelled with DELETE.",
            "Use a method that the Allow header of the answer names.",
        ),
        "body_too_slow": Page(
            "The body did not come in time",
            "The body was not complete when the time for it was over.",
            "A connection that is kept open without sending takes a place from others.",
            "Send the whole body at once. On a slow line, whoever runs the service can raise the limit.",
        ),
        "body_too_large": Page(
            "The body is too large",
            "The body has more bytes than this service reads.",
            "A brief for hundreds of items has a few tens of kilobytes; what is far beyond is a mistake or an attack.",
            "Leave out what will not be used. Whoever runs the service can raise the limit.",
        ),
        "not_json": Page(
            "The body is not declared as plain JSON",
            "The Content-Type of the request is missing, is not JSON, or names a character set other than UTF-8; or "
            "its Content-Encoding says that the body is compressed.",
            "Guessing what bytes mean is how mistakes go unseen, and a small compressed body may unpack to a vast one.",
            "Send the header Content-Type: application/json, and the text in UTF-8, as it is.",
        ),
        "not_acceptable": Page(
            "No form of the answer is acceptable",
            "The Accept header of the request allows none of the forms in which this service writes answers.",
            "An answer in a form that the client cannot read would help nobody.",
            "Allow application/json, or name the form in the address: ?format=html, markdown, csv, recipe or pdf.",
        ),
        "busy": Page(
            "Every place is taken",
            "As many briefs are being solved and waiting as this service has places for, or the time limit of the "
            "brief ended while it waited.",
            "A queue without an end would make everybody wait for nothing.",
            "Ask again after the seconds that the Retry-After header names.",
        ),
        "fault": Page(
            "The fault is ours",
            "Something inside the service went wrong, or a solver's answer did not survive being checked.",
            "An answer that cannot be verified does not leave the service.",
            "Sending it again may help if the fault was a passing one. When you report it, quote instance: the log "
            "knows the fault by it.",
        ),
    }
)
