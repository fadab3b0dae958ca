"""Where the contract repeats a word of the solver, the two must be the same; the layers stay apart otherwise."""

import ast
from pathlib import Path
from typing import get_args

import pytest

from reference_data import reference_folder
from service.schemas.answer import LevelAnswer
from service.schemas.brief import BriefBody, TargetBody
from service.schemas.labels import EuLabel, PlainLabel, PolyolAmounts, UsLabel
from service.schemas.members import MemberAnswer
from service.settings import Settings
from service.translate import label_eu, label_us
from service.translate.members import _SENTENCES
from solver.backends import BACKENDS
from solver.brief import EnergyBasis, Preference
from solver.nutrients import COLUMN
from solver.outcome import Checked, MemberKind, ProofStatus
from solver.polyols import load_polyols
from solver.targets import Per

SERVICE = Path(__file__).parents[2] / "service"


@pytest.mark.parametrize(
    ("field", "words"),
    [
        (BriefBody.model_fields["energy_basis"], EnergyBasis),
        (TargetBody.model_fields["per"], Per),
        (LevelAnswer.model_fields["status"], ProofStatus),
        (LevelAnswer.model_fields["checked"], Checked),
        (MemberAnswer.model_fields["kind"], MemberKind),
    ],
)
def test_the_words_of_a_field_are_those_of_the_solver(field: object, words: object) -> None:
    assert list(get_args(field.annotation)) == [word.value for word in words]  # type: ignore[attr-defined]  # rows of several kinds


def test_the_preferences_are_those_of_the_solver() -> None:
    (preference,) = get_args(BriefBody.model_fields["prefer"].annotation)
    assert list(get_args(preference)) == [preference.value for preference in Preference]


def test_the_backends_of_the_settings_are_those_of_the_solver() -> None:
    assert set(get_args(Settings.model_fields["backend"].annotation)) == set(BACKENDS)


def test_the_named_nutrients_of_a_label_are_nutrients() -> None:
    assert PlainLabel.model_fields.keys() - {"kind", "per", "contains", "without"} <= COLUMN.keys()


@pytest.mark.parametrize(("label", "fields"), [(UsLabel, label_us.FIELDS), (EuLabel, label_eu.FIELDS)])
def test_every_value_of_a_printed_label_is_read(label: type[UsLabel | EuLabel], fields: tuple[str, ...]) -> None:
    others = {"kind", "layout", "serving", "per", "density_g_per_ml", "polyols", "allulose_g", "contains", "without"}
    assert set(fields) == label.model_fields.keys() - others - {"count_polyols_as", "read_zero_as"}


def test_the_kinds_of_polyols_are_those_of_the_table() -> None:
    kinds = load_polyols(reference_folder() / "polyols.csv")
    assert {name.removesuffix("_g") for name in PolyolAmounts.model_fields} | {"allulose"} == kinds.keys()


def test_every_kind_of_member_has_a_sentence() -> None:
    assert set(_SENTENCES) == set(MemberKind)


def modules_imported_by(path: Path) -> set[str]:
    nodes = list(ast.walk(ast.parse(path.read_text())))
    direct = {alias.name for node in nodes if isinstance(node, ast.Import) for alias in node.names}
    return direct | {node.module or "" for node in nodes if isinstance(node, ast.ImportFrom)}


@pytest.mark.parametrize("path", sorted((SERVICE / "schemas").glob("*.py")), ids=lambda path: path.name)
def test_schemas_know_nothing_of_the_solver(path: Path) -> None:
    assert not [name for name in modules_imported_by(path) if name.split(".")[0] == "solver"]


@pytest.mark.parametrize("path", sorted((SERVICE / "translate").glob("*.py")), ids=lambda path: path.name)
def test_translators_know_nothing_of_http(path: Path) -> None:
    assert not [name for name in modules_imported_by(path) if name.split(".")[0] in {"fastapi", "starlette"}]


def test_the_foods_and_nutrients_of_the_solver_are_known_to_translators_alone() -> None:
    worlds = {"solver.foods", "solver.nutrients", "solver.quantities", "solver.pantry", "solver.targets"}
    outside = [path for path in SERVICE.rglob("*.py") if path.parent.name != "translate"]
    assert not [path.name for path in outside if modules_imported_by(path) & worlds]
