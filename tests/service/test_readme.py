"""What the README says in numbers and names is what the product does."""

import re
from pathlib import Path

import pytest

from service.cli import EXIT_STATUS
from solver.quantities import QUANTITIES
from solver.targets_default import default_within

ROOT = Path(__file__).parents[2]


@pytest.fixture(scope="module")
def readme() -> str:
    return (ROOT / "README.md").read_text()


def test_it_lists_everything_a_target_may_be_of(readme: str) -> None:
    listed = readme.partition("A target may be `of`")[2].partition("##")[0]
    assert re.findall(r"`(\w+)`", listed) == [quantity.name for quantity in QUANTITIES]


def test_its_default_widths_are_those_of_the_solver(readme: str) -> None:
    width = readme.partition("**Default `within`**")[2].partition("- **")[0]
    share, ratio, energy, amount = (float(number) for number in re.findall(r"[\d.]*\d", width))
    assert default_within("fat_share_percent", 70) == share
    assert default_within("ketogenic_ratio", 4) == ratio
    assert default_within("energy_kcal", 600) == pytest.approx(600 * energy / 100)
    assert default_within("protein_g", 30) == pytest.approx(30 * amount / 100)


def test_its_exit_statuses_are_those_of_the_command_line(readme: str) -> None:
    rows = re.findall(r"\| `(\w+)` \|.*\| (\d) \|", readme)
    assert {outcome: int(status) for outcome, status in rows} == EXIT_STATUS


def test_the_files_that_it_names_exist(readme: str) -> None:
    named = set(re.findall(r"(?:openapi|service)/[\w./-]*\w", readme))
    assert named
    assert all((ROOT / name).exists() for name in named)
