"""What can stand in for what, where: as a cook would have it (common practice, no source)."""

from dataclasses import replace
from typing import TypeAlias

import pytest

from reference_data import reference_folder
from solver.brief import Brief
from solver.catalogue import Catalogue
from solver.closest import Base, BaseAmount
from solver.components import Component, Placed
from solver.cooking_table import load_cooking_table
from solver.foods import Food
from solver.pantry import PantryItem
from solver.substitutes_suited import LeftOut, Suited, is_same
from solver.substitutes_table import StandIns, load_stand_ins

MINCE, EGG, YOLK, OIL, LARD, CREAM, LEMON = "23572", "01123", "01125", "04053", "04002", "01053", "09152"
PEPPER, PARMESAN, LETTUCE, SALT, GELATINE, BROTH = "02030", "01033", "11251", "02047", "19177", "06172"
FLAXSEED, CHEDDAR_SHARP, CHEDDAR, FONTINA, PUMPKIN_SEEDS = "12220", "01270", "01009", "01020", "12014"

LOAF = next(each for each in load_cooking_table(reference_folder() / "cooking").curves if each.mix == "baked loaf")
MIX, ROAST, SAUCE = (
    Component("mix", LOAF.mix, curve=LOAF),
    Component("roast", "roasted"),
    Component("sauce"),
)


@pytest.fixture(scope="module")
def stand_ins(catalogue: Catalogue) -> StandIns:
    return load_stand_ins(reference_folder(), catalogue)


class Kitchen:
    """A dish of foods by their numbers in USDA SR28, and what suits in it."""

    def __init__(
        self, catalogue: Catalogue, stand_ins: StandIns, amounts: dict[str, float], part: Component | None
    ) -> None:
        self.catalogue, self.stand_ins = catalogue, stand_ins
        placed = Placed() if part is None else Placed(part.name)
        items = tuple(PantryItem(number, self.food(number), placed=(placed,)) for number in amounts)
        base = tuple(BaseAmount(number, placed.component, grams) for number, grams in amounts.items())
        components = () if part is None else (part,)
        self.brief = Brief("a dish", 1, items, (), components=components, base=Base(base))

    def food(self, number: str) -> Food:
        return self.catalogue.food(f"sr28:{number}")

    def suited(self, gone: str, new: str) -> Suited | None:
        base = self.brief.base
        assert base is not None
        item = next(each for each in self.brief.pantry if each.name == gone)
        left = LeftOut.of(item, None, self.brief, base, self.stand_ins)
        return left.suited(self.food(new), self.stand_ins)


PATTIES = {MINCE: 500.0, EGG: 50.0, CREAM: 60.0, PEPPER: 2.0, SALT: 6.0, LARD: 30.0}
MAYONNAISE = {OIL: 200.0, YOLK: 17.0, LEMON: 15.0, PEPPER: 1.0}
SALAD = {LETTUCE: 200.0, OIL: 40.0, PARMESAN: 30.0, LEMON: 15.0, PEPPER: 1.0}
CUSTARD = {CREAM: 300.0, EGG: 150.0, PARMESAN: 40.0}


#: The dish, the component that it is in, what is left out, what may stand in, and grams of it for 1 g.
Case: TypeAlias = tuple[dict[str, float], Component | None, str, str, float | None]


@pytest.mark.parametrize(
    "case",
    [
        # An egg in a mix is bound for by seeds, gelatine and its own parts; in a mayonnaise by nothing but egg.
        (PATTIES, MIX, EGG, FLAXSEED, 0.14),
        (PATTIES, MIX, EGG, GELATINE, 0.14),
        (PATTIES, MIX, EGG, YOLK, 0.68),
        (PATTIES, None, EGG, FLAXSEED, 0.14),  # nothing says that it is cooked, and there is mince
        (MAYONNAISE, SAUCE, YOLK, EGG, 1.47),
        (MAYONNAISE, SAUCE, YOLK, FLAXSEED, None),
        (MAYONNAISE, SAUCE, YOLK, GELATINE, None),
        (CUSTARD, SAUCE, EGG, FLAXSEED, None),
        (CUSTARD, None, EGG, FLAXSEED, None),
        (CUSTARD, SAUCE, EGG, GELATINE, 0.04),
        # Solid fat stands in for oil where it is cooked, and not in what is eaten cold.
        (PATTIES, MIX, LARD, OIL, 1.0),
        (SALAD, SAUCE, OIL, LARD, None),
        (MAYONNAISE, SAUCE, OIL, LARD, None),
        (SALAD, SAUCE, OIL, "04581", 1.0),
        # What is sour is replaced by what is sour, in half or twice the amount, and never by milk.
        (MAYONNAISE, SAUCE, LEMON, "02048", 0.5),
        (MAYONNAISE, SAUCE, LEMON, "09160", 1.0),
        (MAYONNAISE, SAUCE, LEMON, "01077", None),
        (MAYONNAISE, SAUCE, LEMON, "14411", None),
        # Nothing stands in for a seasoning, and no salt for salt.
        (PATTIES, MIX, PEPPER, FLAXSEED, None),
        (PATTIES, MIX, PEPPER, "02028", None),
        (PATTIES, MIX, SALT, "16124", None),
        # Cheese for cheese; seeds only in what is known to be eaten cold; another row of the same cheese never.
        (SALAD, SAUCE, PARMESAN, FONTINA, 1.0),
        (SALAD, SAUCE, PARMESAN, PUMPKIN_SEEDS, 1.0),
        (SALAD, None, PARMESAN, PUMPKIN_SEEDS, None),
        (CUSTARD, None, PARMESAN, "01032", None),
        (SALAD, SAUCE, PARMESAN, "23568", None),  # cooked ground beef
        # Berries are no olives, though both are fruit; a nut butter is another one.
        ({"09193": 60.0, LETTUCE: 200.0}, SAUCE, "09193", "09302", None),
        ({"12166": 60.0, LETTUCE: 200.0}, SAUCE, "12166", "12195", 1.0),
        # Flour thickens as half as much starch does, and crumbs hold a mix as half as much flaxseed.
        ({"20481": 20.0, CREAM: 200.0}, SAUCE, "20481", "20027", 0.5),
        ({"18079": 40.0, MINCE: 500.0}, MIX, "18079", FLAXSEED, 0.5),
        # Raw mince for raw mince; what is cooked already is not cooked again.
        (PATTIES, MIX, MINCE, "10219", 1.0),
        (PATTIES, MIX, MINCE, "23568", None),
        (PATTIES, MIX, MINCE, CHEDDAR, None),
        # A liquid by its like.
        ({BROTH: 500.0, CREAM: 50.0}, SAUCE, BROTH, "14411", 1.0),
        ({BROTH: 500.0, CREAM: 50.0}, SAUCE, BROTH, "06170", 1.0),
        ({BROTH: 500.0, CREAM: 50.0}, SAUCE, BROTH, LEMON, None),
        ({"15236": 300.0, OIL: 10.0}, ROAST, "15236", "15046", 1.0),
    ],
)
def test_what_suits_where(catalogue: Catalogue, stand_ins: StandIns, case: Case) -> None:
    amounts, part, gone, new, grams = case
    found = Kitchen(catalogue, stand_ins, amounts, part).suited(gone, new)
    assert (None if found is None else found.grams_per_gram) == (None if grams is None else pytest.approx(grams))


def test_salt_stands_in_for_soy_sauce_by_its_sodium(catalogue: Catalogue, stand_ins: StandIns) -> None:
    """USDA SR28: shoyu has 5,493 mg of sodium in 100 g, table salt 38,758 mg."""
    kitchen = Kitchen(catalogue, stand_ins, {"16123": 20.0, LETTUCE: 200.0}, SAUCE)
    found = kitchen.suited("16123", SALT)
    assert found is not None
    assert found.grams_per_gram == pytest.approx(5493 / 38758, rel=1e-3)


def test_an_item_in_two_places_needs_what_suits_in_both(catalogue: Catalogue, stand_ins: StandIns) -> None:
    kitchen = Kitchen(catalogue, stand_ins, {OIL: 20.0, MINCE: 300.0}, MIX)
    base = kitchen.brief.base
    assert base is not None
    parts = (MIX, SAUCE)
    both = Base((*base.amounts, BaseAmount(OIL, "sauce", 5.0), BaseAmount(LETTUCE, "sauce", 100.0)))
    lettuce = PantryItem(LETTUCE, kitchen.food(LETTUCE), placed=(Placed("sauce"),))
    brief = replace(kitchen.brief, components=parts, base=both, pantry=(*kitchen.brief.pantry, lettuce))
    oil = brief.pantry[0]
    everywhere, in_mix = (LeftOut.of(oil, part, brief, both, stand_ins) for part in (None, "mix"))
    assert [use.component for use in everywhere.uses] == ["mix", "sauce"]
    assert [use.component for use in in_mix.uses] == ["mix"]
    assert everywhere.suited(kitchen.food(LARD), stand_ins) is None
    assert in_mix.suited(kitchen.food(LARD), stand_ins) is not None


@pytest.mark.parametrize(
    ("one", "other", "same"),
    [
        (CHEDDAR, CHEDDAR_SHARP, True),
        (CHEDDAR, FONTINA, False),
        ("11457", "11458", True),  # spinach raw, and boiled
        ("06172", "06170", False),  # stock of chicken, and of beef
        ("01001", "01145", True),  # butter salted, and without salt
        (OIL, "04581", False),
    ],
)
def test_two_rows_of_the_same_thing_are_told(catalogue: Catalogue, one: str, other: str, same: bool) -> None:  # noqa: FBT001
    foods = [catalogue.food(f"sr28:{number}") for number in (one, other)]
    assert is_same(*foods) is same
    assert is_same(*reversed(foods)) is same
