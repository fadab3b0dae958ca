"""From the body of a request to the solver's brief. Everything that is wrong is found, not only the first thing."""

from service.schemas.brief import BriefBody
from service.search.index import FoodSearch
from service.settings import Settings, variable
from service.translate.names import refuse_unknown, refuse_unprintable
from service.translate.pantry import to_pantry
from service.translate.place import Place
from service.translate.targets import to_targets
from solver.brief import Brief, EnergyBasis, Preference
from solver.catalogue import Catalogue
from solver.errors import UnusableBrief
from solver.nutrients import COLUMN


def to_brief(body: BriefBody, catalogue: Catalogue, settings: Settings, search: FoodSearch | None = None) -> Brief:
    """The brief. Raises UnusableBrief with all problems. search: finds the nearest to foods that are unknown."""
    root = Place()
    refuse_unprintable(body.title, root / "title")
    _refuse_beyond_limits(body, settings, root)
    pantry = to_pantry(body.pantry[: settings.pantry_limit], catalogue, root / "pantry", search)
    targets = to_targets(body.targets[: settings.target_limit], root / "targets")
    _refuse_repeated_preferences(body, root / "prefer")
    for nutrient in body.count_missing_as:
        refuse_unknown(nutrient, COLUMN, "unknown_nutrient", root / "count_missing_as" / nutrient)
    if root.problems:
        raise UnusableBrief(root.problems)
    return Brief(
        title=body.title.strip(),
        portions=body.portions,
        pantry=pantry,
        targets=targets,
        prefer=tuple(Preference(name) for name in body.prefer),
        energy_basis=EnergyBasis(body.energy_basis),
        count_missing_as=body.count_missing_as,
        time_limit_s=body.time_limit_s,
    )


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
