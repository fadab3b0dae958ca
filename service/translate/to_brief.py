"""From the body of a request to the solver's brief. Everything that is wrong is found, not only the first thing."""

from collections.abc import Mapping

from service.schemas.brief import BriefBody
from service.settings import Settings, variable
from service.translate.at_home import held_back
from service.translate.choices import to_choices
from service.translate.components import to_components
from service.translate.dish_source import to_dishes
from service.translate.groups import Groups
from service.translate.holds import to_holds
from service.translate.names import refuse_unknown, refuse_unprintable
from service.translate.pantry import to_pantry
from service.translate.place import Place
from service.translate.reference import Reference
from service.translate.rework_base import to_base
from service.translate.rules import to_rules
from service.translate.targets import to_targets
from solver.brief import Brief, EnergyBasis, Preference
from solver.nutrients import COLUMN


def to_brief(body: BriefBody, reference: Reference, settings: Settings, root: Place) -> Brief | None:
    """The brief; None when something is refused at places under `root`."""
    refuse_unprintable(body.title, root / "title")
    _refuse_beyond_limits(body, settings, root)
    for nutrient in body.count_missing_as:
        refuse_unknown(nutrient, COLUMN, "unknown_nutrient", root / "count_missing_as" / nutrient)
    dishes = to_dishes(body.dishes or [], reference, _known(body.count_missing_as), root / "dishes")
    components = to_components(body.components or [], root / "components", reference.cooking)
    pantry = to_pantry(body.pantry[: settings.pantry_limit], components, dishes, reference, root / "pantry")
    targets = to_targets(body.targets[: settings.target_limit], root / "targets")
    groups = Groups(pantry, reference.allergens)
    rules = to_rules(body.rules, groups, components, reference.trade_rules, root / "rules")
    choices = to_choices(body.choices, groups, root / "choices")
    holds = to_holds(body.holds_within, root / "holds_within")
    base = to_base(body.base, pantry, components, root / "base")
    _refuse_repeated_preferences(body, root / "prefer")
    if root.problems:
        return None
    return Brief(
        title=body.title.strip(),
        portions=body.portions,
        pantry=pantry,
        targets=targets,
        prefer=tuple(Preference(name) for name in body.prefer),
        energy_basis=EnergyBasis(body.energy_basis),
        count_missing_as=body.count_missing_as,
        time_limit_s=body.time_limit_s,
        components=components,
        rules=rules,
        choices=choices,
        collagen_part=body.collagen_at_most_percent / 100,
        base=base,
        holds=holds,
        only_if_needed=held_back(body.pantry),
    )


def _known(count_missing_as: Mapping[str, float]) -> dict[str, float]:
    return {nutrient: amount for nutrient, amount in count_missing_as.items() if nutrient in COLUMN}


def _refuse_beyond_limits(body: BriefBody, settings: Settings, place: Place) -> None:
    if len(body.pantry) > settings.pantry_limit:
        detail = f"The pantry has more than {settings.pantry_limit} items ({variable('pantry_limit')})."
        (place / "pantry").refuse("too_many", detail, "Leave out what will not be used.")
    if len(body.targets) > settings.target_limit:
        detail = f"There are more than {settings.target_limit} targets ({variable('target_limit')})."
        (place / "targets").refuse("too_many", detail, "Keep those that matter.")
    if body.time_limit_s > settings.time_limit_ceiling_s:
        ceiling = f"{settings.time_limit_ceiling_s:g} s ({variable('time_limit_ceiling_s')})"
        detail = f"The longest time limit here is {ceiling}."
        (place / "time_limit_s").refuse("time_limit_too_long", detail, "Ask for less time.")


def _refuse_repeated_preferences(body: BriefBody, place: Place) -> None:
    for index, name in enumerate(body.prefer):
        if name in body.prefer[:index]:
            (place / index).refuse("repeated", "This preference comes twice.", "Name each preference once.")
