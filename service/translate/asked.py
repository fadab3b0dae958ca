"""Everything that one request for a plan says: the brief, what it leaves out, and who eats it."""

from collections.abc import Collection
from dataclasses import dataclass, field, replace

from service.schemas.brief import BriefBody
from service.settings import Settings
from service.translate.at_home import held_notes
from service.translate.cautions import to_eater
from service.translate.exclude import refuse_needed, to_exclusions
from service.translate.method_steps import Method, method_of, refuse_methods
from service.translate.place import Place
from service.translate.reference import Reference
from service.translate.to_brief import to_brief
from solver.brief import Brief
from solver.cautions import curing_salt_problems
from solver.cautions.safe_temperatures import Profile
from solver.eater import Eater, therapy_problems
from solver.errors import UnusableBrief
from solver.exclusions import Excluded, Exclusion, excluded, notes
from solver.label_rounding import LabelLayout
from solver.limits import largest_g
from solver.usable_items import LEAST_STEP_G


@dataclass(frozen=True, slots=True)
class Asked:
    """A brief, and what the solver need not know. eater: None when nobody is described.

    excluded: the items that take no part, and why. exclusions: what was asked to be left out.
    notes: what stays in although nobody has said what is in it. body: as it was sent; None where it was not.
    """

    brief: Brief
    eater: Eater | None
    profile: Profile
    excluded: tuple[Excluded, ...]
    notes: tuple[str, ...]
    exclusions: tuple[Exclusion, ...] = ()
    say_worth: bool = False
    alternatives: int = 0
    layout: LabelLayout | None = None
    method: Method = field(default_factory=Method)
    body: BriefBody | None = None


def to_asked(body: BriefBody, reference: Reference, settings: Settings) -> Asked:
    """What a body asks for. Raises UnusableBrief with all problems."""
    root, eater = Place(), to_eater(body.eater)
    exclusions = to_exclusions(body.exclude, root / "exclude")
    refuse_methods(body, root)
    brief = to_brief(body, reference, settings, root)
    if brief is None:
        raise UnusableBrief(root.problems)
    root.problems.extend((*therapy_problems(brief, eater), *curing_salt_problems(brief)))
    asked = _asked(brief, exclusions, reference, root)
    settled = {item.name.strip() for item in body.pantry if item.already_in is not None}
    refuse_needed(asked.excluded, brief.pantry, root / "pantry", settled)
    _refuse_beyond(brief, settled, root / "pantry")
    if root.problems:
        raise UnusableBrief(root.problems)
    return replace(
        asked,
        eater=eater,
        profile=body.safe_temperatures,
        say_worth=body.say_worth,
        alternatives=body.alternatives,
        layout=None if body.nutrition_as is None else LabelLayout(body.nutrition_as),
        method=method_of(body.method_steps, body.dishes, body.pantry),
        body=body,
    )


def _asked(brief: Brief, exclusions: tuple[Exclusion, ...], reference: Reference, root: Place) -> Asked:
    out = excluded(brief.pantry, exclusions, reference.allergens)
    names = frozenset(each.item for each in out)
    held = brief.only_if_needed - names
    if len(names | held) == len(brief.pantry):
        detail = "Every item of the pantry is excluded, or held back unless it is needed."
        at = root / ("pantry" if held else "exclude")
        at.refuse("nothing_left", detail, "Take an entry out of exclude, or only_if_needed off an item, or add items.")
    told = notes(brief.pantry, exclusions, reference.allergens)
    told += held_notes(held)
    brief = replace(brief, leave_out=names | held, only_if_needed=held)
    return Asked(brief, None, "us consumer", out, told, exclusions)


def _refuse_beyond(brief: Brief, settled: Collection[str], place: Place) -> None:
    """Refuse what is said to be in already and is more, or less, than any kitchen can have weighed."""
    most = largest_g(brief)
    for index, item in enumerate(brief.pantry):
        if item.name in settled and not LEAST_STEP_G <= item.at_least_g <= most:
            detail = f"Of {item.name} less than {LEAST_STEP_G:g} g or more than {most / 1000:g} kg is in already."
            remedy = "Check the unit, or say how many portions the batch makes."
            (place / index / "already_in").refuse("not_an_amount", detail, remedy)
