"""Which lane a request belongs to: guessed from its bytes at the door, and known once it is read."""

from service.lanes import Kind
from service.schemas.brief import BriefBody

#: Preferences that count items or changes, which takes whole numbers.
_WHOLE = ("fewest ingredients", "fewest new purchases", "closest to")

#: Fields that bring whole numbers into the programme, or more than one solve, as they stand in JSON.
_STEPPED = tuple(
    f'"{name}"'.encode()
    for name in (
        *("step", "least_when_used", "components", "choices"),
        *(*_WHOLE, "alternatives", "say_worth", "frontier"),
    )
)


def guess(raw: bytes) -> Kind:
    """The lane of a body that nobody has read yet: a search for words, as fast as memory."""
    return Kind.STEPPED if any(word in raw for word in _STEPPED) else Kind.LINEAR


def kind_of(body: BriefBody) -> Kind:
    """The lane of a brief. A mix, and an optimum that no rounding can print, take them too, as solving shows."""
    has_steps = any(item.step is not None or item.least_when_used is not None for item in body.pantry)
    has_counts = any(each in _WHOLE for each in body.prefer)
    several = body.alternatives > 0 or body.say_worth
    return Kind.STEPPED if has_steps or has_counts or several or body.choices or body.components else Kind.LINEAR
