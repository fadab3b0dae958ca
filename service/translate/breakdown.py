"""From a dish as it is to its breakdown, and out again."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace

from service.schemas.breakdown_body import BreakdownBody
from service.settings import Settings, variable
from service.translate.cautions import to_eater
from service.translate.components import to_components
from service.translate.declared import DeclaredFor, to_declared
from service.translate.dish_body import ingredients_of, spoons_of, words_of
from service.translate.dish_source import to_dishes
from service.translate.method_steps import Method, method_of, refuse_methods
from service.translate.names import refuse_unknown, refuse_unprintable
from service.translate.place import Place
from service.translate.portions import to_division
from service.translate.reference import Reference
from solver.breakdown import Breakdown, break_down
from solver.brief import Brief, EnergyBasis
from solver.cautions.safe_temperatures import Profile
from solver.dish_pot import spoon_problems
from solver.eater import Eater
from solver.errors import Problem, UnusableBrief
from solver.label_rounding import LabelLayout
from solver.limits import largest_g
from solver.nutrients import COLUMN
from solver.outcome import Quantity
from solver.pantry import Step
from solver.portions import Division, Portion, divide
from solver.scaling import scaled_dish
from solver.usable_components import component_problems
from solver.used import in_kitchen


@dataclass(frozen=True, slots=True)
class GivenDish:
    """A dish as it is, and what is asked of its numbers. brief: without targets; its pantry is what is in the dish.

    scaling: what the cook has to know of how it was scaled.
    """

    brief: Brief
    quantities: tuple[Quantity, ...]
    spoons: Mapping[str, int]
    division: Division | None
    declared: DeclaredFor | None
    layout: LabelLayout | None
    eater: Eater | None
    profile: Profile
    method: Method = field(default_factory=Method)
    scaling: tuple[str, ...] = ()

    def broken_down(self) -> Breakdown:
        """Its numbers. Raises UnusableBrief where more is spooned back than ran out."""
        cooked = in_kitchen(self.quantities, self.spoons, self.brief).cooked
        problems = tuple(spoon_problems(self.brief.components, cooked))
        if problems:
            raise UnusableBrief(problems)
        return break_down(self.quantities, self.spoons, self.brief)

    def divided(self, breakdown: Breakdown) -> tuple[Portion, ...]:
        """Its portions. Raises UnusableBrief where there is not enough to divide."""
        if self.division is None:
            return ()
        return divide(breakdown.dish.batch, breakdown.dish.cooked, self.division, at="/division")


def to_given_dish(body: BreakdownBody, reference: Reference, settings: Settings) -> GivenDish:
    """The dish that a body describes. Raises UnusableBrief with all problems."""
    root = Place()
    refuse_unprintable(body.title, root / "title")
    refuse_methods(body, root)
    if len(body.ingredients) > settings.pantry_limit:
        detail = f"There are more than {settings.pantry_limit} ingredients ({variable('pantry_limit')})."
        (root / "ingredients").refuse("too_many", detail, "Put some of them into dishes of their own.")
    for nutrient in body.count_missing_as:
        refuse_unknown(nutrient, COLUMN, "unknown_nutrient", root / "count_missing_as" / nutrient)
    counted = {nutrient: amount for nutrient, amount in body.count_missing_as.items() if nutrient in COLUMN}
    dishes = to_dishes(body.dishes or [], reference, counted, root / "dishes")
    components = to_components(body.components or [], root / "components", reference.cooking)
    spoons = spoons_of(body.components or [], root / "components")
    limited = body.ingredients[: settings.pantry_limit]
    quantities = ingredients_of(limited, components, dishes, reference, root / "ingredients")
    declared = None if body.declared is None else to_declared(body.declared, root / "declared")
    division = None if body.division is None else to_division(body.division, root / "division")
    if root.problems:
        raise UnusableBrief(root.problems)
    settled = tuple(_settled(quantity) for quantity in quantities)
    brief = Brief(
        title=body.title.strip(),
        portions=body.portions,
        pantry=tuple(quantity.item for quantity in settled),
        targets=(),
        prefer=(),
        energy_basis=EnergyBasis(body.energy_basis),
        count_missing_as=counted,
        components=components,
    )
    _refuse_impossible(brief)
    wanted = body.portions if body.scale_to is None else body.scale_to
    scaled = scaled_dish(settled, spoons, brief, wanted, words_of(limited, settled))
    return GivenDish(
        brief=scaled.brief,
        quantities=scaled.quantities,
        spoons=scaled.spoons,
        division=division,
        declared=declared,
        layout=None if body.nutrition_as is None else LabelLayout(body.nutrition_as),
        eater=to_eater(body.eater),
        profile=body.safe_temperatures,
        method=method_of(body.method_steps, body.dishes, body.ingredients),
        scaling=scaled.notes,
    )


def _settled(quantity: Quantity) -> Quantity:
    """The same as an item of which just that is there: what is given is never rounded."""
    grams = quantity.grams
    item = replace(
        quantity.item,
        on_hand_g=grams,
        at_least_g=grams,
        at_most_g=grams,
        step=Step(round(grams, 6), "g", grams),
        placed=(quantity.placed,),
    )
    return replace(quantity, item=item, steps=1)


def _refuse_impossible(brief: Brief) -> None:
    """Raise UnusableBrief for amounts that no kitchen has, and for components that contradict what went in."""
    of_components = (
        replace(problem, pointer=problem.pointer.replace("/pantry/", "/ingredients/", 1))
        for problem in component_problems(brief)
    )
    problems = [*_too_heavy(brief), *of_components]
    if problems:
        raise UnusableBrief(problems)


def _too_heavy(brief: Brief) -> Iterator[Problem]:
    most = largest_g(brief)
    for number, item in enumerate(brief.pantry):
        if item.at_least_g > most:
            detail = f"{item.name} is more than the {most / 1000:g} kg that {brief.portions} portions may hold of it."
            remedy = "Check the unit, or say how many portions the dish makes."
            yield Problem(f"/ingredients/{number}/amount", "not_an_amount", detail, remedy)
