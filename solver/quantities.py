"""What a target may be of: amounts, shares of macro energy, and the ketogenic ratio, as weight vectors.

An amount is weights @ N, where N are the totals as eaten over the columns of `as_eaten`. A share or ratio is
factor * (numerator @ N) / (denominator @ N). A ratio's band is linear after collecting terms (see `formulate`).
"""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from solver.as_eaten import SLICE_COLUMNS
from solver.nutrients import NUTRIENTS


@dataclass(frozen=True, slots=True)
class Quantity:
    """name: as a target's `of`; unit: UCUM ("%" for shares, "1" for the ratio); denominator: None for an amount.

    numerator, denominator: column of `as_eaten` to weight. factor: 100 for percent.
    """

    name: str
    unit: str
    title: str
    numerator: Mapping[str, float]
    denominator: Mapping[str, float] | None = None
    factor: float = 1.0

    @property
    def columns(self) -> frozenset[str]:
        """The columns of `as_eaten` that this quantity needs a value in."""
        return frozenset(self.numerator) | frozenset(self.denominator or ())


def _share(of: str) -> Quantity:
    return Quantity(
        name=f"{of}_share_percent",
        unit="%",
        title=f"energy from {of}",
        numerator={SLICE_COLUMNS[of]: 1.0},
        denominator=dict.fromkeys(SLICE_COLUMNS.values(), 1.0),
        factor=100.0,
    )


#: g fat : g (protein + available carbohydrate), the ratio of ketogenic therapy.
_KETOGENIC_RATIO = Quantity(
    name="ketogenic_ratio",
    unit="1",
    title="ketogenic ratio of fat to protein and available carbohydrate",
    numerator={"fat_g": 1.0},
    denominator={"protein_g": 1.0, "available_carbohydrate_g": 1.0},
)

_ENERGY = Quantity("energy_kcal", "kcal", "energy", {"basis_energy_kcal": 1.0})

QUANTITIES: tuple[Quantity, ...] = (
    _ENERGY,
    *(_share(of) for of in ("fat", "protein", "carbohydrate")),
    _KETOGENIC_RATIO,
    *(Quantity(n.name, n.unit, n.title, {n.name: 1.0}) for n in NUTRIENTS if n.name != "energy_kcal"),
)

QUANTITY: Mapping[str, Quantity] = MappingProxyType({quantity.name: quantity for quantity in QUANTITIES})
