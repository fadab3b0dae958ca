"""What a client prefers of how it is answered: the Prefer header (RFC 7240).

A preference that cannot be read, or that nobody here knows, is passed over, as section 2 of the RFC has it.
"""

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Annotated

from fastapi import Depends, Header, Request

#: Characters that are looked at; what is said after that is not known.
LONGEST = 1000

#: RFC 9110, section 5.6.2 and 5.6.4.
_NAME = r"[!#$%&'*+.^_`|~0-9A-Za-z-]+"
_QUOTED = r'"(?:[^"\\]|\\.)*"'

#: RFC 7240, section 2: a name, perhaps its value, perhaps parameters, which none of ours has.
_ONE = re.compile(rf"[ \t]*({_NAME})[ \t]*(?:=[ \t]*({_NAME}|{_QUOTED})?)?[ \t]*(?:;(?:[^,\"]|{_QUOTED})*)?(?:,|$)")

#: Delta-seconds (RFC 9110, section 5.6.7) of a wait that anybody means.
_SECONDS = re.compile(r"[0-9]{1,9}")


@dataclass(frozen=True, slots=True)
class Preference:
    """respond_async: answer before the work is done (section 4.1). wait_s: but wait so long for it (section 4.3)."""

    respond_async: bool = False
    wait_s: float = 0.0


def preference_of(headers: Iterable[str]) -> Preference:
    """What the values of all Prefer headers say together. Of a preference that comes twice the first one counts."""
    said: dict[str, str] = {}
    for name, value in _each(",".join(headers)[:LONGEST]):
        said.setdefault(name, value)
    wait = said.get("wait", "")
    return Preference(said.get("respond-async") == "", float(wait) if _SECONDS.fullmatch(wait) else 0.0)


def _each(text: str) -> Iterator[tuple[str, str]]:
    """Names in small letters, with their values; an empty value is the same as none."""
    place = 0
    while place < len(text):
        found = _ONE.match(text, place)
        if found is not None:
            yield found[1].lower(), (found[2] or "").strip('"')
        comma = text.find(",", place)
        place = found.end() if found is not None else comma + 1 if comma >= 0 else len(text)


async def preferred(
    request: Request,
    _: Annotated[
        str | None,
        Header(
            alias="Prefer",
            description="`respond-async` (RFC 7240): answered at once with 202 and a Location where the work can be "
            "followed. With `wait=` and seconds, as in `respond-async, wait=2`: only if it is not done by then.",
        ),
    ] = None,
) -> Preference:
    """What the request prefers."""
    return preference_of(request.headers.getlist("prefer"))


#: A parameter of every route whose work may take long.
InPreference = Annotated[Preference, Depends(preferred)]
