"""What is declined: a child's therapy without a prescription, or with a gap in it. Common practice, no source."""

import pytest

from solver.eater import Eater, therapy_problems
from solver.targets import Target
from tests.solver.larder import brief

RATIO = Target("ketogenic_ratio", "ketogenic_ratio", lower=4.0, upper=4.0)
ENERGY = Target("energy_kcal", "energy_kcal", aim=300, within=5, lower=295, upper=305)
PROTEIN = Target("protein_g", "protein_g", aim=6, within=0.1, lower=5.9, upper=6.1)
CHILD = Eater(age_years=5, conditions=("ketogenic_therapy",))


def share(aim: float) -> Target:
    return Target("fat", "fat_share_percent", aim=aim, within=1, lower=aim - 1, upper=aim + 1)


@pytest.mark.parametrize(
    ("eater", "targets"),
    [
        (CHILD, (ENERGY,)),
        (Eater(conditions=("ketogenic_therapy",)), (ENERGY,)),
        (Eater(age_years=17), (ENERGY, RATIO)),
        (Eater(age_years=17), (share(80),)),
    ],
)
def test_a_childs_therapy_is_declined_without_a_prescription(eater: Eater, targets: tuple[Target, ...]) -> None:
    (problem,) = therapy_problems(brief(targets=targets), eater)
    assert (problem.pointer, problem.code) == ("/eater", "therapy_without_prescription")
    assert "clinic" in problem.remedy


@pytest.mark.parametrize(
    ("eater", "targets"),
    [
        (None, (RATIO,)),
        (Eater(), (RATIO,)),
        (Eater(age_years=18), (RATIO,)),
        (Eater(age_years=40, conditions=("ketogenic_therapy",)), (RATIO,)),
        (Eater(age_years=17), (share(79),)),
        (Eater(age_years=17), (Target("fat", "fat_share_percent", upper=90),)),
    ],
)
def test_what_is_no_childs_therapy_is_planned(eater: Eater | None, targets: tuple[Target, ...]) -> None:
    assert therapy_problems(brief(targets=targets), eater) == ()


def test_a_prescription_says_ratio_energy_and_protein() -> None:
    prescribed = Eater(age_years=5, conditions=("ketogenic_therapy",), prescribed=True)
    assert therapy_problems(brief(targets=(RATIO, ENERGY, PROTEIN)), prescribed) == ()
    (problem,) = therapy_problems(brief(targets=(RATIO,)), prescribed)
    assert (problem.pointer, problem.code) == ("/eater/prescribed", "prescription_incomplete")
    assert "the energy or the protein" in problem.detail


def test_a_wish_prescribes_nothing() -> None:
    prescribed = Eater(age_years=5, conditions=("ketogenic_therapy",), prescribed=True)
    wish = Target("protein_g", "protein_g", lower=6, priority=1)
    (problem,) = therapy_problems(brief(targets=(RATIO, ENERGY, wish)), prescribed)
    assert problem.code == "prescription_incomplete"
