"""The patties of openapi/examples/patties-spooned-back.json worked by hand, from the figures of `patties_figures`.

Only the amounts that the solver chose come from outside.
"""

from dataclasses import dataclass

from tests.service.patties_figures import (
    BEEF,
    CHEESE,
    CURVE,
    EGG,
    KCAL,
    KEPT_HALF,
    LEAN_PROTEIN,
    ONION,
    OTHER_PART,
    TALLOW,
    TEASPOON_G,
    WIDER,
    YIELD_AT_NO_FAT,
    YIELD_HALF,
    YIELD_LOST_PER_FAT,
)

Macros = tuple[float, float, float]
Food = tuple[float, float, float, float]


def kept(holding_g: float, fat_g: float) -> float:
    """Fat that a broiled mix keeps."""
    return min(a * holding_g + b * fat_g for a, b in CURVE)


def holding(food: Food, fat: float = 0.0, protein: float = 0.0) -> float:
    """Grams that hold fat in a gram of a food of the mix, with so much more fat and protein in it, g per g."""
    of_protein, of_fat = food[0] / 100 + protein, food[1] / 100 + fat
    return of_fat + min(1 - of_fat, of_protein / LEAN_PROTEIN)


def energy(macros: Macros, factors: tuple[int, int, int] = KCAL) -> float:
    """Of protein, fat and carbohydrate."""
    return sum(grams * factor for grams, factor in zip(macros, factors, strict=True))


def fat_share(macros: Macros) -> float:
    """Percent of energy."""
    return 100 * 9 * macros[1] / energy(macros)


def whole_percents(macros: Macros) -> tuple[int, ...]:
    """Fat, protein and carbohydrate, by largest remainder."""
    protein, fat, carbohydrate = (100 * part / energy(macros) for part in (4 * macros[0], 9 * macros[1], 4 * macros[2]))
    exact = (fat, protein, carbohydrate)
    left = 100 - sum(map(int, exact))
    largest = sorted(range(3), key=lambda place: int(exact[place]) - exact[place])[:left]
    return tuple(int(share) + (place in largest) for place, share in enumerate(exact))


@dataclass(frozen=True)
class Patties:
    """Grams that go in, raw, and teaspoons of drippings that are spooned back; everything else follows."""

    beef: float
    egg: float
    onion: float
    tallow: float
    cheese: float
    spoons: int

    def _sum(self, part: int, *, table: bool = True) -> float:
        mix = self.beef * BEEF[part] + self.egg * EGG[part] + self.onion * ONION[part]
        return (mix + (self.tallow * TALLOW[part] + self.cheese * CHEESE[part] if table else 0.0)) / 100

    @property
    def raw(self) -> float:
        """The mix, g."""
        return self.beef + self.egg + self.onion

    @property
    def other_percent(self) -> float:
        """How much of the mix is no meat."""
        return 100 * (self.egg + self.onion) / self.raw

    @property
    def kept_half(self) -> float:
        """Half of the 90 % interval of the fat that is kept, g."""
        return KEPT_HALF * self.raw * (WIDER if self.other_percent > 100 * OTHER_PART else 1)

    @property
    def cooked_half(self) -> float:
        """The same of the cooked weight, g."""
        return YIELD_HALF * self.raw * (WIDER if self.other_percent > 100 * OTHER_PART else 1)

    @property
    def raw_fat(self) -> float:
        """Fat of the mix, g."""
        return self._sum(1, table=False)

    @property
    def holding(self) -> float:
        """What of the mix holds fat, g."""
        return self.beef * holding(BEEF) + self.egg * holding(EGG) + self.onion * holding(ONION)

    @property
    def kept(self) -> float:
        """Fat that stays in the patties, g."""
        return kept(self.holding, self.raw_fat)

    @property
    def rendered(self) -> float:
        """Fat that runs out, g."""
        return self.raw_fat - self.kept

    @property
    def returned(self) -> float:
        """Fat that is spooned back, g."""
        return self.spoons * TEASPOON_G

    @property
    def lost(self) -> float:
        """Fat that nobody eats, g."""
        return self.rendered - self.returned

    @property
    def cooked(self) -> float:
        """The patties when done, drippings apart, g."""
        return YIELD_AT_NO_FAT * self.raw - YIELD_LOST_PER_FAT * self.raw_fat

    @property
    def weight(self) -> float:
        """Everything on the plates, g."""
        return self.cooked + self.returned + self.tallow + self.cheese

    @property
    def macros(self) -> Macros:
        """Protein, fat, and carbohydrate with its fibre, on the plates, g."""
        return self._sum(0), self._sum(1) - self.lost, self._sum(2)

    @property
    def fibre(self) -> float:
        """What is known of it, g; the cheese's is not."""
        return self._sum(3)

    @property
    def available(self) -> float:
        """Carbohydrate without fibre, g."""
        return self.macros[2] - self.fibre
