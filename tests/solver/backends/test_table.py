"""The one table of backends."""

import subprocess
import sys

import pytest

from solver.backends import BACKENDS, open_backend
from solver.errors import BackendError
from tests.solver.backends.every_backend import on_every_backend


def test_the_default_and_its_referees_are_in_the_table() -> None:
    assert list(BACKENDS) == ["highs", "scipy-highs", "pulp-cbc"]


@on_every_backend
def test_a_backend_goes_by_its_name_in_the_table_and_knows_its_version(backend: str) -> None:
    opened = open_backend(backend)
    assert opened.name == backend
    assert any(character.isdigit() for character in opened.version)


def test_an_unknown_name_is_an_error_that_lists_the_names() -> None:
    with pytest.raises(BackendError, match=r"'glop'.*highs, scipy-highs, pulp-cbc"):
        open_backend("glop")


def test_opening_the_default_imports_neither_referee() -> None:
    asked = "import sys; from solver.backends import open_backend; open_backend('highs'); print(*sys.modules)"
    answer = subprocess.run([sys.executable, "-c", asked], capture_output=True, text=True, check=True)
    assert not {"pulp", "scipy"} & set(answer.stdout.split())
    assert "highspy" in answer.stdout.split()
