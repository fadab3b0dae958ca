"""Every number of how far the plate may be off, in the plan that is read by hand, counted anew by `patties_off`."""

import json
import math
import re
from typing import Any

import pytest

from tests.service.conftest import Run
from tests.service.patties_by_hand import Patties, energy, fat_share
from tests.service.patties_figures import CURVE_ROWS, UNSTATED
from tests.service.patties_off import off
from tests.service.printed_plan import BRIEF, chosen_in, numbers, sections_of


@pytest.fixture(scope="module")
def sections(larderline: Run) -> dict[str, str]:
    return sections_of(larderline("plan", BRIEF).stdout)


@pytest.fixture(scope="module")
def answer(larderline: Run) -> dict[str, Any]:
    document: dict[str, Any] = json.loads(larderline("plan", "--json", BRIEF).stdout)
    return document


@pytest.fixture(scope="module")
def chosen(sections: dict[str, str]) -> Patties:
    return chosen_in(sections)


def test_how_far_the_plate_may_be_off_is_counted_anew(sections: dict[str, str], chosen: Patties) -> None:
    body = " ".join(sections["The plate may be off"].split())
    kcal, fat, share = (off(chosen, of) for of in (energy, lambda macros: macros[1], fat_share))
    assert numbers(body) == [
        *(f"-{kcal[0] / 4:.1f}", f"+{kcal[1] / 4:.1f} kcal"),
        *(f"-{fat[0] / 4:.1f}", f"+{fat[1] / 4:.1f} g"),
        *(f"-{share[0]:.1f}", f"+{share[1]:.1f} percentage"),
        *(f"{chosen.rendered:.1f} g", f"{chosen.kept_half:.1f} g"),
        *(f"{chosen.cooked:.1f} g", f"{chosen.cooked_half:.1f} g"),
        *(f"{CURVE_ROWS} pairs", f"{chosen.other_percent:.0f} %"),
    ]
    (not_counted,) = re.findall(r"Not counted[^.]*\.", body)
    names = (*UNSTATED, "farm cheese")
    assert [name in not_counted for name in names] == [True, True, True, True, False]
    named = ("cooking, patties", "label rounding, farm cheese", "label tolerance, farm cheese")
    others = ("standard error, ground beef", "standard error, egg", "standard error, onion")
    by_size = sorted((*named, *others), key=lambda name: -max(off(chosen, fat_share, name)))
    assert re.findall(r"- ([a-z ]+, [a-z ]+):", body) == by_size[:3], "the three largest, the largest first"


def test_the_sources_of_error_are_each_what_they_do_and_combine_by_root_sum_of_squares(
    answer: dict[str, Any], chosen: Patties
) -> None:
    answered = answer["plate_may_be_off"]
    for source in answered["sources"]:
        name = f"{source['kind']}, {source['about']}"
        by_hand = [end / 4 for end in off(chosen, energy, name)]
        assert [source["energy_kcal"]["below"], source["energy_kcal"]["above"]] == pytest.approx(by_hand, abs=1e-5), (
            name
        )
        points = source["fat_share_points"]
        assert [points["below"], points["above"]] == pytest.approx(off(chosen, fat_share, name), abs=1e-5), name
    for side in ("below", "above"):
        together = math.hypot(*(source["energy_kcal"][side] for source in answered["sources"]))
        assert answered["portion"]["energy_kcal"][side] == pytest.approx(together, abs=1e-5)
        share = math.hypot(*(source["fat_share_points"][side] for source in answered["sources"]))
        assert answered["fat_share_points"][side] == pytest.approx(share, abs=1e-5)
        assert answered["batch"]["energy_kcal"][side] == pytest.approx(4 * together, abs=1e-4)
