"""Which representation a client wants: `format` in the query, else the Accept header (RFC 9110, section 12.5.1)."""

from collections.abc import Sequence
from typing import TypeVar

Name = TypeVar("Name", bound=str)


def acceptable(accept: str, offered: Sequence[tuple[str, Name]]) -> Name | None:
    """The name of the best media type that is offered; None where none is acceptable.

    accept: the header's value, empty where there is none. offered: media type and name, the server's own first choice
    first. The most specific range that fits decides about a type, and among equals the earlier one is taken.
    """
    ranges = [found for part in accept.split(",") if (found := _range(part)) is not None] or [("*/*", 1.0)]
    weights = [(_weight(media_type, ranges), name) for media_type, name in offered]
    best = max(weight for weight, _ in weights)
    return next((name for weight, name in weights if weight == best), None) if best > 0 else None


def _range(part: str) -> tuple[str, float] | None:
    """One media range with its weight; None where it cannot be read, which is passed over."""
    media_range, *parameters = (each.strip().lower() for each in part.split(";"))
    if media_range.count("/") != 1:
        return None
    weight = next((each[2:] for each in parameters if each.startswith("q=")), "1")
    try:
        return media_range, min(1.0, max(0.0, float(weight)))
    except ValueError:
        return None


def _weight(media_type: str, ranges: Sequence[tuple[str, float]]) -> float:
    kind = media_type.split("/", maxsplit=1)[0]
    for wanted in (media_type, f"{kind}/*", "*/*"):
        found = [weight for media_range, weight in ranges if media_range == wanted]
        if found:
            return max(found)
    return 0.0
