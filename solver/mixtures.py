"""What is assumed of whose fat the drippings are, since only the amounts decide it and that would not be linear."""

from collections.abc import Mapping
from dataclasses import dataclass, field

import numpy as np

from solver.as_eaten import COLUMNS, PLACE, rendered
from solver.numerics import FloatArray
from solver.pans import Pan


@dataclass(frozen=True, slots=True, eq=False)
class Mixtures:
    """hopeful: each row takes the source that is best for it, not the worst; what has no plan then has none at all.

    given: name of a component to what 100 g of its rendered fat take along, (1, len(COLUMNS)).
    """

    hopeful: bool = False
    given: Mapping[str, FloatArray] = field(default_factory=dict)


#: Each row takes the source that is worst for it: whatever it allows, the dish allows.
CAREFUL = Mixtures()


def mixture(pan: Pan, raw: FloatArray, grams: FloatArray) -> FloatArray | None:
    """What 100 g of the rendered fat of a pan take along, (1, len(COLUMNS)); None where no fat renders.

    raw: (uses, len(COLUMNS)), per 100 g; grams: (uses,), of everything.
    """
    own = pan.fat if len(pan.lines) else pan.own  # a mix renders of each by its fat
    parts = own * grams[pan.members]
    if parts.sum() <= 0:
        return None
    row = np.zeros(len(COLUMNS))
    for n, part in zip(pan.members, parts / parts.sum(), strict=True):
        if part > 0:
            row += part * 100 * rendered(raw[n]) / raw[n, PLACE["fat_g"]]
    return row[None, :]
