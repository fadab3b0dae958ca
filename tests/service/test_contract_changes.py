"""Nothing that a client relies on goes away without a step of the version, and every change is recorded."""

import json
import re
from pathlib import Path

from tests.service.surface import broken, needed, surface

OPENAPI = Path(__file__).parents[2] / "openapi"

DOCUMENT = json.loads((OPENAPI / "openapi.json").read_text())

#: What the contract promised when its version was last stepped; it changes with the version alone.
PROMISED = json.loads((OPENAPI / "promised.json").read_text())


def test_a_step_of_the_version_promises_anew() -> None:
    assert PROMISED["version"] == DOCUMENT["info"]["version"]


def test_nothing_that_was_promised_is_gone() -> None:
    assert broken(PROMISED["surface"], surface(DOCUMENT)) == []


def test_no_request_that_was_whole_lacks_anything_now() -> None:
    known = {name.partition(".")[0] for name in PROMISED["surface"]}
    new = [field for field in needed(DOCUMENT) if field not in PROMISED["needed"]]
    assert [field for field in new if field.partition(".")[0] in known] == []


def test_every_change_is_recorded() -> None:
    record = (OPENAPI / "CHANGES.md").read_text()
    assert re.search(rf"^## Version {DOCUMENT['info']['version']}$", record, re.MULTILINE)
    added = [name for name in surface(DOCUMENT) if name not in PROMISED["surface"] and " " not in name]
    fields = {field for field in added if field.partition(".")[0] in {n.partition(".")[0] for n in PROMISED["surface"]}}
    schemas = {field.partition(".")[0] for field in added} - {field.partition(".")[0] for field in fields}
    assert [name for name in sorted(fields | schemas) if f"`{name}`" not in record] == []


def test_a_field_that_goes_a_kind_that_changes_and_a_word_that_is_dropped_are_noticed() -> None:
    before = {"A.gone": ["string"], "A.changed": ["number"], "A.fewer": ["'x'", "'y'"], "A.more": ["'x'"]}
    after = {"A.changed": ["string"], "A.fewer": ["'x'"], "A.more": ["'x'", "'y'"]}
    assert broken(before, after) == ["A.gone", "A.changed", "A.fewer"]
