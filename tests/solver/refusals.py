"""Reading what is wrong with a brief that is refused."""

from collections.abc import Callable

import pytest

from solver.brief import Brief
from solver.errors import Problem, UnusableBrief
from solver.usable import refuse_unusable


def problems(asked: Brief, refuse: Callable[[Brief], None] = refuse_unusable) -> list[Problem]:
    """Every problem of a brief, which must have some; each says how to mend it."""
    with pytest.raises(UnusableBrief) as refused:
        refuse(asked)
    found = list(refused.value.problems)
    assert all(problem.detail.endswith(".") and problem.remedy.endswith(".") for problem in found)
    return found


def only_problem(asked: Brief, refuse: Callable[[Brief], None] = refuse_unusable) -> tuple[str, str, str]:
    """Pointer, code and detail."""
    (problem,) = problems(asked, refuse)
    return problem.pointer, problem.code, problem.detail
