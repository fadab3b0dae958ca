"""What a page about one kind of problem holds."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Page:
    """Plain text throughout, whole sentences but for the title.

    title: the kind of problem in a few words. what: what happened. why: why it is refused. mend: how to mend it.
    """

    title: str
    what: str
    why: str
    mend: str
