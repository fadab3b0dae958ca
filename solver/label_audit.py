"""Whether the numbers of a label can be true together, once rounding is allowed for.

Every printed number is an interval (see `label_rounding`). A label is doubted only where no choice of amounts inside
the intervals fits, and the distance that remains is said. It is never refused: which number is wrong, nobody knows.

Energy is counted by every method that a layout's law allows. US, 21 CFR 101.9(c)(1)(i): 4-9-4 on all carbohydrate, or
with fibre and polyols by factors of their own, fibre between 0 and 4 kcal per g. EU: Annex XIV of Regulation (EU) No
1169/2011. Unknown fibre may be anything that there is room for.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from solver.energy import REGULATION_KCAL, REGULATION_KJ, Factors
from solver.label_rounding import NOTHING, Interval

#: Distances below this are floating-point noise.
_NOISE = 1e-9

#: Salt is 2.5 times sodium: Regulation (EU) No 1169/2011, Annex I.
SALT_PER_SODIUM = 2.5

#: What may still explain an energy that does not fit; labels need not state these.
_EXCUSE = ", unless it holds alcohol, organic acids or polyols that are not stated, or was counted with other factors"

#: Annex XIV: fibre has 8 kJ and 2 kcal per g, carbohydrate and protein 17 and 4; all others lie between.
LEAST_KJ_PER_KCAL, MOST_KJ_PER_KCAL = 8 / 2, 17 / 4


@dataclass(frozen=True, slots=True)
class Claims:
    """What a label claims of weight_g grams, each as an interval; what it does not state is not in `values`.

    values: by nutrient name, with "energy_kj" and "salt_g" where printed. Carbohydrate is
    "total_carbohydrate_g" with fibre in it, or "carbohydrate_g" without.
    polyols, erythritol, allulose: g, NOTHING where not stated.
    """

    weight_g: float
    values: Mapping[str, Interval]
    polyols: Interval = NOTHING
    erythritol: Interval = NOTHING
    allulose: Interval = NOTHING

    @property
    def sweeteners(self) -> Interval:
        """Polyols and allulose together."""
        return self.polyols + self.erythritol + self.allulose

    @property
    def carbohydrate(self) -> str:
        """The field that carbohydrate is claimed in."""
        return "total_carbohydrate_g" if "total_carbohydrate_g" in self.values else "carbohydrate_g"


def doubts(claims: Claims) -> tuple[str, ...]:
    """A sentence for each thing that cannot be true, with its size; none for a label that fits together."""
    parts = (*_fat_parts(claims), *_carbohydrate_parts(claims), *_weight(claims))
    return (*parts, *_energy(claims), *_salt(claims), *_kj(claims))


def _fat_parts(claims: Claims) -> Iterator[str]:
    held = {"saturated": "saturated_fat_g", "trans": "trans_fat_g"}
    yield from _parts_of(claims, "fat_g", "fat", held, NOTHING)


def _carbohydrate_parts(claims: Claims) -> Iterator[str]:
    held = {"sugars": "sugars_g"}
    if claims.carbohydrate == "total_carbohydrate_g":
        held["fibre"] = "fibre_g"
    yield from _parts_of(claims, claims.carbohydrate, "carbohydrate", held, claims.sweeteners)


def _parts_of(claims: Claims, whole: str, title: str, held: Mapping[str, str], more: Interval) -> Iterator[str]:
    stated = {word: claims.values[name] for word, name in held.items() if name in claims.values}
    if whole not in claims.values:
        return
    least = sum(part.low for part in stated.values()) + more.low
    over = least - claims.values[whole].high
    if over > _NOISE:
        words = [*stated, *(["polyols and allulose"] if more.low > 0 else [])]
        yield (
            f"the label does not add up: {' + '.join(words)} come to at least {_number(least)} g, "
            f"but {title} to at most {_number(claims.values[whole].high)} g; {_number(over)} g too much."
        )


def _weight(claims: Claims) -> Iterator[str]:
    names = ["protein_g", "fat_g", claims.carbohydrate]
    if claims.carbohydrate == "carbohydrate_g":
        names.append("fibre_g")
    least = sum(claims.values[name].low for name in names if name in claims.values)
    over = least - claims.weight_g
    if over > _NOISE * claims.weight_g:
        yield (
            f"the label does not add up: protein, fat and carbohydrate weigh at least {_number(least)} g, "
            f"more than the {_number(claims.weight_g)} g that it states them for; {_number(over)} g too much."
        )


def _energy(claims: Claims) -> Iterator[str]:
    for field, unit, factors in (("energy_kcal", "kcal", REGULATION_KCAL), ("energy_kj", "kJ", REGULATION_KJ)):
        if {field, "protein_g", "fat_g", claims.carbohydrate} <= claims.values.keys():
            yield from _apart("energy", unit, claims.values[field], _from_macronutrients(claims, factors), _EXCUSE)


def _from_macronutrients(claims: Claims, factors: Factors) -> Interval:
    protein, fat = claims.values["protein_g"], claims.values["fat_g"]
    return protein.times(factors.protein) + fat.times(factors.fat) + _from_carbohydrate(claims, factors)


def _from_carbohydrate(claims: Claims, factors: Factors) -> Interval:
    carbohydrate, fibre = claims.values[claims.carbohydrate], _fibre(claims)
    sweet = claims.polyols.times(factors.polyol) + claims.allulose.times(factors.allulose)
    if claims.carbohydrate == "total_carbohydrate_g":
        least = carbohydrate.less(fibre).less(claims.sweeteners).times(factors.carbohydrate) + sweet
        return Interval(least.low, carbohydrate.high * factors.carbohydrate)
    return carbohydrate.less(claims.sweeteners).times(factors.carbohydrate) + sweet + fibre.times(factors.fibre or 0)


def _fibre(claims: Claims) -> Interval:
    if "fibre_g" in claims.values:
        return claims.values["fibre_g"]
    if claims.carbohydrate == "total_carbohydrate_g":
        return Interval(0.0, claims.values["total_carbohydrate_g"].high)
    taken = sum(claims.values[name].low for name in ("protein_g", "fat_g", "carbohydrate_g"))
    return Interval(0.0, max(0.0, claims.weight_g - taken))


def _salt(claims: Claims) -> Iterator[str]:
    if {"salt_g", "sodium_mg"} <= claims.values.keys():
        by_sodium = claims.values["sodium_mg"].times(SALT_PER_SODIUM / 1000)
        yield from _apart("salt", "g", claims.values["salt_g"], by_sodium, " (2.5 times the sodium)")


def _kj(claims: Claims) -> Iterator[str]:
    """By Annex XIV a kcal is 4 kJ where it comes from fibre and up to 4.25 kJ where it comes from carbohydrate."""
    if {"energy_kj", "energy_kcal"} <= claims.values.keys():
        kcal = claims.values["energy_kcal"]
        by_kcal = Interval(kcal.low * LEAST_KJ_PER_KCAL, kcal.high * MOST_KJ_PER_KCAL)
        yield from _apart("energy", "kJ", claims.values["energy_kj"], by_kcal, " (by the kcal printed beside it)")


def _apart(title: str, unit: str, printed: Interval, counted: Interval, aside: str) -> Iterator[str]:
    gap = max(printed.low - counted.high, counted.low - printed.high)
    if gap > _NOISE * max(1.0, printed.high):
        yield (
            f"the label does not add up: {title} is printed as {_range(printed, unit)} but comes to "
            f"{_range(counted, unit)}{aside}; {_number(gap)} {unit} apart."
        )


def _range(interval: Interval, unit: str) -> str:
    return f"{_number(interval.low)} to {_number(interval.high)} {unit}"


def _number(value: float) -> str:
    return f"{round(value, 3):g}"
