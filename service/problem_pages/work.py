"""Problems of work that goes on after its request was answered."""

from collections.abc import Mapping
from types import MappingProxyType

from service.problem_pages.page import Page

WORK: Mapping[str, Page] = MappingProxyType(
    {
        "unknown_work": Page(
            "There is no such work",
            "No work has this id, or it was asked for with another key.",
            "Answers are for whoever asked; nobody else is told whether there are any.",
            "Take the address from the Location header of the 202, and use the same key. Ids are forgotten some time "
            "after their answer.",
        ),
        "work_gone": Page(
            "The work is gone",
            "It was cancelled, or its answer was kept as long as answers are.",
            "An answer is kept to be fetched, not to be stored: who needs it for longer has a better place for it.",
            "Send the brief again, and fetch the answer soon. Whoever runs the service can have answers kept longer.",
        ),
        "work_not_done": Page(
            "There is no answer yet",
            "The answer of some work was asked for while the work goes on.",
            "The best so far is shown with the work itself; the answer is what it ends with.",
            "Ask for the work, /v1/work/ and its id, until its state is done or failed, or follow it with Accept: "
            "text/event-stream.",
        ),
        "too_much_work": Page(
            "As much is kept as may be",
            "As many answers are kept or worked on as this service has room for.",
            "They share one file, which must not fill the disk.",
            "Delete answers that you have fetched, wait for the seconds that the Retry-After header names, or send the "
            "brief without Prefer: respond-async.",
        ),
        "too_many_followers": Page(
            "As many follow as may",
            "As many clients follow work as events as this service has places for.",
            "Each of them holds a connection open.",
            "Ask for the work once a second, without Accept: text/event-stream.",
        ),
        "work_not_kept": Page(
            "Nothing can be kept for later",
            "The service cannot write or read the file in which it keeps work: the disk is full, or may only be read.",
            "An answer that cannot be kept cannot be fetched later; a 202 would promise what nobody can hold.",
            "Send the brief without Prefer: respond-async and wait for the answer; that needs no disk. Whoever runs "
            "the service can name another folder.",
        ),
        "work_lost": Page(
            "The work was lost",
            "The process that worked on it ended before the work did.",
            "Half of a search is no answer, and nobody else has it.",
            "Send the brief again.",
        ),
    }
)
