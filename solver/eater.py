"""Who eats: what cautions need to know of a person, and what the product declines to choose for one.

A therapy's ratio, energy and protein come from the clinic or not at all. Nothing here is a diagnosis; a person who is
not described is taken for an adult, and the cautions say so where it matters.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from solver.brief import Brief
from solver.errors import Problem

#: The condition that is a therapy.
KETOGENIC_THERAPY = "ketogenic_therapy"

#: Conditions and medicines that need a clinic's eye in this way of eating, by their code.
CONDITIONS = (
    KETOGENIC_THERAPY,
    "sglt2_inhibitor",
    "insulin",
    "sulphonylurea",
    "blood_pressure_medicine",
    "kidney_disease",
    "pancreatitis",
    "fat_oxidation_disorder",
    "carnitine_disorder",
    "pyruvate_carboxylase_deficiency",
    "porphyria",
)

#: Below this age a person is a child here, years.
ADULT_YEARS = 18

#: From this fat share on a brief for a child is a therapy, percent of macro energy: about a ratio of 2 to 1 (81.8 %).
THERAPY_FAT_SHARE = 80.0

#: What a prescription has to say, each by one of these targets.
PRESCRIBED = (
    ("the ratio", ("ketogenic_ratio", "fat_share_percent", "fat_g")),
    ("the energy", ("energy_kcal",)),
    ("the protein", ("protein_g",)),
)


@dataclass(frozen=True, slots=True)
class Eater:
    """One person. None: not said. conditions: codes of `CONDITIONS`. meals_per_day: how many such portions make a day.

    prescribed: ratio, energy and protein in the brief come from a clinic.
    """

    age_years: float | None = None
    weight_kg: float | None = None
    pregnant: bool = False
    lactating: bool = False
    conditions: tuple[str, ...] = ()
    meals_per_day: float | None = None
    prescribed: bool = False

    @property
    def is_child(self) -> bool:
        """Whether the age is known and below 18 years."""
        return self.age_years is not None and self.age_years < ADULT_YEARS

    @property
    def may_be_child(self) -> bool:
        """Whether nothing says that the person is grown up."""
        return self.age_years is None or self.is_child


def is_therapy(brief: Brief, eater: Eater) -> bool:
    """Whether the brief treats somebody: a declared therapy, or therapeutic targets for a child.

    A therapy for somebody of unknown age is taken for a child's.
    """
    if KETOGENIC_THERAPY in eater.conditions:
        return True
    return eater.is_child and any(_is_therapeutic(brief))


def therapy_problems(brief: Brief, eater: Eater | None) -> tuple[Problem, ...]:
    """Why the numbers of a child's therapy are not chosen here; none when a clinic chose all of them."""
    if eater is None or not eater.may_be_child or not is_therapy(brief, eater):
        return ()
    if not eater.prescribed:
        return (_DECLINED,)
    given = {target.of for target in brief.targets if target.priority is None}
    missing = [what for what, targets in PRESCRIBED if not given & set(targets)]
    return (_incomplete(missing),) if missing else ()


def _is_therapeutic(brief: Brief) -> Iterator[bool]:
    for target in brief.targets:
        asked = max(target.lower or 0.0, target.aim or 0.0)
        yield target.of == "ketogenic_ratio" or (target.of == "fat_share_percent" and asked >= THERAPY_FAT_SHARE)


_DECLINED = Problem(
    "/eater",
    "therapy_without_prescription",
    "Ketogenic therapy of a child, or of somebody whose age is not said, is not planned without a prescription.",
    "Ask the clinic for the ratio, the energy and the protein of each meal, give them as targets, and say "
    '"prescribed": true. For an adult, give the age.',
)


def _incomplete(missing: list[str]) -> Problem:
    return Problem(
        "/eater/prescribed",
        "prescription_incomplete",
        f"The prescription does not say {' or '.join(missing)}, and none is chosen here.",
        "Give what the clinic prescribed for the meal as targets without a priority: ketogenic_ratio, energy_kcal and "
        "protein_g.",
    )
