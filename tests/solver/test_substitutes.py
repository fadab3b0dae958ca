"""What stands in for what is left out, over random dishes and all allergens; each plan by another solver as well."""

from collections.abc import Callable
from dataclasses import replace

import numpy as np
import pytest

from reference_data import reference_folder
from solver.allergens import Statement, load_allergen_rules
from solver.backends import open_backend
from solver.brief import Brief, Preference
from solver.catalogue import Catalogue
from solver.closest import Base, BaseAmount
from solver.components import Placed
from solver.deadline import Deadline
from solver.exclusions import Exclusion, ExclusionKind, excluded, statement_of
from solver.foods import Food
from solver.outcome import Plan
from solver.pantry import PantryItem
from solver.practical import Eligible, Practical, load_practical, practical_foods
from solver.rework import ReworkAsked
from solver.rework_said import Said, Says
from solver.roles import role_of
from solver.solve import solve
from solver.substitutes import WANTED, Search, Substitute
from solver.substitutes_posed import PARTS
from solver.substitutes_table import StandIns, load_stand_ins
from solver.targets import Target
from solver.verify import verified

RULES = load_allergen_rules(reference_folder())
ALLERGENS = tuple(RULES.allergens)
DISH = "the dish"

#: USDA SR28: butter, salmon, cheddar, onion, tap water, table salt, egg.
FOODS = ("01001", "15236", "01009", "11282", "14411", "02047", "01123")


@pytest.fixture(scope="module")
def practical(catalogue: Catalogue) -> tuple[Practical, ...]:
    return practical_foods(catalogue, load_practical(reference_folder() / "additions.csv"))


@pytest.fixture(scope="module")
def stand_ins(catalogue: Catalogue) -> StandIns:
    return load_stand_ins(reference_folder(), catalogue)


def allowed_without(allergens: tuple[str, ...]) -> Callable[[Food], bool]:
    """Whether nobody who leaves these out has to leave a food out: what is not known is left out."""
    exclusions = [Exclusion(ExclusionKind.ALLERGEN, allergen) for allergen in allergens]
    return lambda food: not excluded([PantryItem(food.name, food)], exclusions, RULES)


def random_dish(catalogue: Catalogue, seed: int) -> ReworkAsked:
    """Four to seven foods, one of them left out, and a wide band of energy around what the dish had."""
    rng = np.random.default_rng(seed)
    chosen = rng.permutation(len(FOODS))[: int(rng.integers(4, len(FOODS) + 1))]
    foods = [catalogue.food(f"sr28:{FOODS[number]}") for number in sorted(chosen)]
    amounts = [round(float(rng.uniform(10, 150)), 1) for _ in foods]
    kcal = sum(grams * food.value("energy_kcal") / 100 for grams, food in zip(amounts, foods, strict=True))
    gone = foods[int(rng.integers(len(foods)))].name
    brief = Brief(
        "a dish",
        1,
        tuple(PantryItem(food.name, food) for food in foods),
        (Target("energy", "energy_kcal", lower=0.2 * kcal, upper=2 * kcal + 400),),
        prefer=(Preference.CLOSEST,),
        base=Base(tuple(BaseAmount(food.name, DISH, grams) for food, grams in zip(foods, amounts, strict=True))),
        time_limit_s=10.0,
        collagen_part=1.0,
    )
    return ReworkAsked(brief, (Said("without it", Says.LEAVE_OUT, frozenset({gone})),))


@pytest.fixture(scope="module")
def proposals(practical: tuple[Practical, ...], stand_ins: StandIns) -> Callable[..., tuple[Substitute, ...]]:
    """What is proposed in a dish for who leaves some allergens out."""

    def found(asked: ReworkAsked, *allergens: str) -> tuple[Substitute, ...]:
        eligible = Eligible(practical, allowed_without(allergens))
        search = Search(asked, None, eligible, stand_ins, lambda _, part: Placed(part.name))
        return search.found(open_backend("highs"), Deadline.after(20))

    return found


Proposals = Callable[..., tuple[Substitute, ...]]


def of(catalogue: Catalogue, gone: str, *also: PantryItem) -> ReworkAsked:
    """Butter, salmon and onion, 40 g each, one of them left out. also: what the pantry has besides."""
    foods = [catalogue.food(f"sr28:{number}") for number in ("01001", "15236", "11282")]
    asked = random_dish(catalogue, 0)
    base = Base(tuple(BaseAmount(food.name, DISH, 40.0) for food in foods))
    pantry = (*(PantryItem(food.name, food) for food in foods), *also)
    brief = replace(asked.brief, pantry=pantry, base=base, targets=(Target("e", "energy_kcal", lower=1.0),))
    said = Said("without it", Says.LEAVE_OUT, frozenset({catalogue.food(gone).name}))
    return ReworkAsked(brief, (said,))


def test_butter_is_replaced_by_other_fat_and_without_milk_by_none_of_milk(
    catalogue: Catalogue, proposals: Proposals
) -> None:
    free, without = (proposals(of(catalogue, "sr28:01001"), *out) for out in ((), ("milk",)))
    assert free
    assert without
    assert all(each.candidate.suited.role is role_of(catalogue.food("sr28:01001")) for each in (*free, *without))
    assert all(each.candidate.item.food.group != "Dairy and Egg Products" for each in without)


def test_as_much_stands_in_as_brings_the_same_fat(catalogue: Catalogue, proposals: Proposals) -> None:
    """By hand from SR28: butter has 81.11 g of fat in 100 g, ghee 99.48, olive oil 100: 32.6 g and 32.4 g for 40."""
    found = {each.candidate.item.food.id: each.grams for each in proposals(of(catalogue, "sr28:01001"))}
    assert found == {"sr28:01003": pytest.approx(32.6), "sr28:04053": pytest.approx(32.4)}


def test_a_dish_that_needs_more_gets_more_but_no_more_than_twice_as_much(
    catalogue: Catalogue, proposals: Proposals
) -> None:
    """By hand: salmon and onion are 99 kcal, so 600 kcal take 57 g of oil of 884 kcal, and 900 kcal take 91 g."""
    asked = of(catalogue, "sr28:01001")
    names = [item.name for item in asked.brief.pantry[1:]]
    keep = tuple(Said(f"keep {name}", Says.KEEP, frozenset({name})) for name in names)
    for least, expected in ((600.0, True), (900.0, False)):
        wanted = replace(asked.brief, targets=(Target("e", "energy_kcal", lower=least),))
        found = proposals(replace(asked, brief=wanted, said=(*asked.said, *keep)))
        assert bool(found) is expected
        assert all(32.6 < each.grams <= PARTS[1] * 32.6 for each in found)


def test_what_is_at_home_comes_first_and_what_has_to_be_bought_after_it(
    catalogue: Catalogue, proposals: Proposals
) -> None:
    oil = catalogue.food("sr28:04053")
    bought, mine = PantryItem("bought oil", oil, to_buy=True), PantryItem("oil of ours", oil)
    found = proposals(of(catalogue, "sr28:01001", bought, mine))
    assert [(each.candidate.item.name, each.candidate.is_at_home) for each in found] == [
        ("oil of ours", True),
        ("bought oil", False),
        ("Butter oil, anhydrous", False),
    ]
    assert len(found) == WANTED


def test_of_what_is_at_home_nothing_alike_is_fetched(catalogue: Catalogue, proposals: Proposals) -> None:
    """With olive oil at home no other oil is proposed; ghee is another kind of fat."""
    mine = PantryItem("oil of ours", catalogue.food("sr28:04053"))
    names = [each.candidate.item.name for each in proposals(of(catalogue, "sr28:01001", mine))]
    assert names == ["oil of ours", "Butter oil, anhydrous"]


def test_all_at_once_takes_a_food_of_its_own_for_each(
    catalogue: Catalogue, practical: tuple[Practical, ...], stand_ins: StandIns
) -> None:
    """Without milk coconut cream is first for cream, and all there is for cream cheese, which has it in the whole."""
    asked = of(catalogue, "sr28:01001")
    dairy = tuple(PantryItem(name, catalogue.food(f"sr28:{n}")) for name, n in (("cream", "01053"), ("soft", "01017")))
    amounts = tuple(BaseAmount(item.name, DISH, 50.0) for item in dairy)
    brief = replace(asked.brief, pantry=dairy, base=Base(amounts))
    asked = replace(asked, brief=brief, said=(Said("out", Says.LEAVE_OUT, frozenset({"cream", "soft"})),))
    eligible = Eligible(practical, allowed_without(("milk",)))
    search = Search(asked, None, eligible, stand_ins, lambda _, part: Placed(part.name))
    backend = open_backend("highs")
    found = search.found(backend, Deadline.after(20))
    assert {found[0].candidate.kind, found[-1].candidate.kind} == {"coconut cream"}
    together = search.together(found, backend, Deadline.after(20))
    assert together is not None
    chosen = [(each.item, each.candidate.kind) for each in together.each]
    assert chosen == [("cream", "coconut milk"), ("soft", "coconut cream")]


def test_what_is_held_back_for_need_is_let_in(catalogue: Catalogue, proposals: Proposals) -> None:
    held = PantryItem("held oil", catalogue.food("sr28:04053"))
    asked = of(catalogue, "sr28:01001", held)
    names = frozenset({"held oil"})
    asked = replace(asked, brief=replace(asked.brief, leave_out=names, only_if_needed=names))
    first = proposals(asked)[0]
    assert (first.candidate.item.name, first.candidate.is_at_home, first.grams > 0) == ("held oil", True, True)


def test_too_little_at_home_is_not_proposed(catalogue: Catalogue, proposals: Proposals) -> None:
    """Half of the 32.4 g that stand for the butter are 16.2 g."""
    oil = catalogue.food("sr28:04053")
    for on_hand, expected in ((16.0, False), (17.0, True)):
        found = proposals(of(catalogue, "sr28:01001", PantryItem("oil of ours", oil, on_hand_g=on_hand)))
        assert ("oil of ours" in {each.candidate.item.name for each in found}) is expected


def test_what_is_left_out_itself_stands_in_for_nothing(catalogue: Catalogue, proposals: Proposals) -> None:
    oil = PantryItem("oil of ours", catalogue.food("sr28:04053"))
    asked = of(catalogue, "sr28:01001", oil)
    out = Said("no oil", Says.LEAVE_OUT, frozenset({"oil of ours"}))
    excluded_oil = replace(asked, brief=replace(asked.brief, leave_out=frozenset({"oil of ours"})))
    for each in (replace(asked, said=(*asked.said, out)), excluded_oil):
        assert "oil of ours" not in {found.candidate.item.name for found in proposals(each)}


def test_all_that_is_left_out_is_replaced_at_once(
    catalogue: Catalogue, practical: tuple[Practical, ...], stand_ins: StandIns
) -> None:
    asked = of(catalogue, "sr28:01001")
    onion = Said("no onion", Says.LEAVE_OUT, frozenset({catalogue.food("sr28:11282").name}))
    asked = replace(asked, said=(*asked.said, onion))
    eligible = Eligible(practical, allowed_without(()))
    search = Search(asked, None, eligible, stand_ins, lambda _, part: Placed(part.name))
    backend = open_backend("highs")
    found = search.found(backend, Deadline.after(20))
    together = search.together(found, backend, Deadline.after(20))
    assert together is not None
    names = {each.item for each in together.each}
    assert names == {item.name for item in asked.brief.pantry if "Butter" in item.name or "Onion" in item.name}
    used = {q.item.name: q.grams for q in together.plan.dish.quantities}
    assert all(used[each.candidate.item.name] == each.grams > 0 for each in together.each)
    assert not names & used.keys()
    one = replace(search, asked=of(catalogue, "sr28:01001"))
    assert one.together(found, backend, Deadline.after(20)) is None


@pytest.mark.parametrize("allergen", ALLERGENS)
def test_no_proposal_contains_or_may_contain_an_excluded_allergen(
    catalogue: Catalogue, proposals: Proposals, allergen: str
) -> None:
    for seed in range(4):
        for each in proposals(random_dish(catalogue, 100 * ALLERGENS.index(allergen) + seed), allergen):
            food = each.candidate.item.food
            told = statement_of(PantryItem(food.name, food), allergen, RULES)
            assert told is Statement.NOT_BY_NATURE


def test_every_proposal_is_verified_and_has_a_plan_by_another_solver(
    catalogue: Catalogue, proposals: Proposals
) -> None:
    """The plan's own brief, with each amount of the proposal held at what was said."""
    found = [each for seed in range(6) for each in proposals(random_dish(catalogue, seed))]
    assert len(found) >= 6
    for each in found:
        assert verified(each.plan.dish) is each.plan.dish
        held = tuple(
            replace(item, at_least_g=each.grams, at_most_g=each.grams)
            if item.name == each.candidate.item.name
            else item
            for item in each.plan.brief.pantry
        )
        brief = replace(each.plan.brief, pantry=held, prefer=(Preference.BALANCED,), base=None)
        assert isinstance(solve(brief, open_backend("pulp-cbc")), Plan)
