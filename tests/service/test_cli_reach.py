"""`larderline reach` and `larderline breakdown` say what the service says."""

import json
from collections.abc import Callable
from pathlib import Path
from subprocess import CompletedProcess
from typing import Any

import httpx2
import pytest

from tests.service.asking import breakdown_of

Run = Callable[..., CompletedProcess[str]]

REACH = "openapi/examples/reach/salmon-for-one.json"
DISH = "openapi/examples/breakdowns/patties-with-a-card.json"


def test_what_a_pantry_can_do_is_printed_and_ends_with_0(larderline: Run) -> None:
    done = larderline("reach", REACH)
    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout.startswith("Salmon for the late guest (1 portion)\n")
    for heading in ("What can be reached while the other musts hold", "fat_share_percent over energy_kcal", "Reminder"):
        assert f"\n{heading}\n  " in done.stdout


def test_the_numbers_of_the_terminal_are_those_of_the_service(
    larderline: Run, client: httpx2.Client, examples: Path
) -> None:
    document = json.loads((examples / "reach" / "salmon-for-one.json").read_text())
    served = client.post("/v1/reach", json=document).json()
    told = json.loads(larderline("reach", "--json", REACH).stdout)
    text = larderline("reach", REACH).stdout
    for ours, theirs in zip(told["ranges"], served["ranges"], strict=True):
        ends = [ours[end]["value"] for end in ("least", "most")]
        assert ends == pytest.approx([theirs[end]["value"] for end in ("least", "most")])
        for end in ends:
            assert f"{round(end, 2):.6g} {ours['unit']}" in text
    first = told["frontier"]["most"][0]
    share = (first["a"] + first["b"] * first["start"]) / (first["c"] + first["d"] * first["start"])
    assert 0 < share < 100
    assert f"- most, from {round(first['start'], 2):.6g} kcal to " in text
    assert f": {round(share, 2):.6g} % to " in text


def test_two_amounts_are_shown_by_their_corners(larderline: Run) -> None:
    document = json.loads(Path(REACH).read_text())
    document["frontier"] = {"x": "energy_kcal", "y": "sodium_mg"}
    done = larderline("reach", "-", stdin=json.dumps(document))
    assert done.returncode == 0
    part = done.stdout.partition("\nCorners of what can be had of energy_kcal and sodium_mg\n")[2].partition("\n\n")[0]
    corners = json.loads(larderline("reach", "--json", "-", stdin=json.dumps(document)).stdout)["frontier"]["vertices"]
    assert len(part.splitlines()) == len(corners) >= 3


def test_what_is_the_same_at_both_ends_is_said_once(larderline: Run) -> None:
    steps = larderline("reach", "openapi/examples/reach/eggs-by-the-piece.json").stdout
    assert "- least, from 127.8 kcal to 170.73 kcal: 48.72 %\n" in steps
    conflict = larderline("reach", "openapi/examples/reach/conflict-lean-larder.json").stdout
    energy = next(line for line in conflict.replace("\n  ", " ").split(" - ") if line.startswith("energy_kcal"))
    assert energy.count("cannot be met together") == 1


def test_a_reach_that_cannot_be_asked_ends_with_2_and_says_where(larderline: Run) -> None:
    document = json.loads(Path(REACH).read_text())
    document["of"] = ["sodium"]
    done = larderline("reach", "-", stdin=json.dumps(document))
    assert (done.returncode, done.stdout) == (2, "")
    assert done.stderr.startswith("/of/0: ")


def test_the_numbers_of_a_dish_are_printed_and_end_with_0(larderline: Run, client: httpx2.Client) -> None:
    done = larderline("breakdown", DISH)
    assert (done.returncode, done.stderr) == (0, "")
    served = breakdown_of(client, json.loads(Path(DISH).read_text()))
    lines = done.stdout.splitlines()
    for quantity in served["quantities"]:
        assert f"  {quantity['name']}: {quantity['text']}" in lines
    assert f"the batch: {served['batch']['grams']:.1f} g, {served['batch']['energy_kcal']:.0f} kcal" in done.stdout
    flat = " ".join(done.stdout.split())
    for finding in served["findings"]:
        assert f"- {' '.join(finding['text'].split())}" in flat
    for portion in served["divided"]:
        assert f"  {portion['name']}: {portion['text']}, " in done.stdout


@pytest.mark.parametrize("command", ["reach", "breakdown"])
def test_an_unknown_field_is_refused_as_a_problem_document_with_json(larderline: Run, command: str) -> None:
    document: dict[str, Any] = json.loads(Path(REACH if command == "reach" else DISH).read_text())
    done = larderline(command, "--json", "-", stdin=json.dumps({**document, "wine": 1}))
    assert done.returncode == 2
    assert json.loads(done.stdout)["problems"][0]["pointer"] == "/wine"


def test_nothing_is_read_as_zero_where_a_nutrient_is_unknown(larderline: Run) -> None:
    label = {"kind": "label", "layout": "EU", "per": "100 g", "energy_kcal": 717, "fat_g": 81, "protein_g": 0.9}
    dish = {
        "title": "Butter",
        "ingredients": [{"name": "butter", "source": {**label, "carbohydrate_g": 0.1}, "amount": "10 g"}],
    }
    done = larderline("breakdown", "-", stdin=json.dumps(dish))
    assert done.returncode == 0, done.stderr
    assert "fibre unknown" in done.stdout
