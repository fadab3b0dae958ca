"""The contract that is committed: the one that the service serves, and complete enough to be read alone."""

import json
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import httpx2
import pytest

from service.openapi import COMMAND, FILE, document_text

Document = dict[str, Any]

#: How a description may name what a number counts or measures.
UNITS = (
    r"kcal|kJ|%|percent|grams?|kg|g|mg|ug|s|seconds|min|years|money|share|ratio|unit|measure|currency|status|how many"
    r"|priority|degrees|one gram|portions"
)


def committed() -> Document:
    document: Document = json.loads(FILE.read_text(encoding="utf-8"))
    return document


def operations() -> Iterator[tuple[str, Document]]:
    for path, methods in committed()["paths"].items():
        for method, operation in methods.items():
            yield f"{method} {path}", operation


def fields() -> Iterator[tuple[str, Document]]:
    for model, schema in committed()["components"]["schemas"].items():
        for name, field in schema.get("properties", {}).items():
            yield f"{model}.{name}", field


def kinds(schema: Document) -> set[str]:
    """The JSON types that a field may have."""
    choices = schema.get("anyOf", []) + schema.get("oneOf", [])
    return {schema.get("type", "")} | {kind for choice in choices for kind in kinds(choice)}


def test_the_committed_file_says_what_the_code_says() -> None:
    written = FILE.read_text(encoding="utf-8") if FILE.exists() else ""
    assert written == document_text(), f"openapi/openapi.json has drifted from the code. Mend it with: {COMMAND}"


def test_the_service_serves_what_is_committed(client: httpx2.Client) -> None:
    assert client.get("/openapi.json").json() == committed(), f"Mend it with: {COMMAND}"


def test_every_operation_says_what_it_is_for() -> None:
    groups = {group["name"] for group in committed()["tags"] if group["description"]}
    for name, operation in operations():
        assert operation["summary"], name
        assert operation["description"], name
        assert re.fullmatch(r"[a-z]+(_[a-z]+)*", operation["operationId"]), name
        assert len(operation["tags"]) == 1, name
        assert set(operation["tags"]) <= groups, name
        assert all(parameter.get("description") for parameter in operation.get("parameters", [])), name


def test_operations_are_told_apart_by_their_id() -> None:
    ids = [operation["operationId"] for _, operation in operations()]
    assert sorted(ids) == sorted(set(ids))


def test_every_refusal_is_a_problem_document_and_says_when_it_comes() -> None:
    refusals = [
        (f"{name} {status}", response)
        for name, operation in operations()
        for status, response in operation["responses"].items()
        if status >= "400"
    ]
    assert len(refusals) >= 7
    for name, response in refusals:
        schema = response["content"]["application/problem+json"]["schema"]
        assert schema == {"$ref": "#/components/schemas/ProblemDocument"}, name
        assert len(response["description"]) > 20, name


def test_every_field_has_a_description() -> None:
    bare = [name for name, field in fields() if not field.get("description")]
    assert bare == []


def test_every_plain_field_has_an_example() -> None:
    """Other fields are objects, lists of objects, or have one value only."""
    plain = {"string", "number", "integer", "boolean"}
    bare = [
        name for name, field in fields() if kinds(field) & plain and not field.get("examples") and "const" not in field
    ]
    assert bare == []


def test_every_number_has_a_unit_in_its_name_or_description() -> None:
    numbers = [(name, field) for name, field in fields() if kinds(field) & {"number", "integer"}]
    assert len(numbers) > 40
    unit = re.compile(rf"(?<![a-z])({UNITS})(?![a-z])", re.IGNORECASE)
    bare = [name for name, field in numbers if not unit.search(name.replace("_", " ") + " " + field["description"])]
    assert bare == []


FOLDERS = {"/v1/plans": ".", "/v1/breakdowns": "breakdowns", "/v1/reach": "reach", "/v1/reworks": "reworks"}


@pytest.mark.parametrize(("path", "folder"), FOLDERS.items())
def test_every_file_of_the_examples_is_offered_by_its_name(examples: Path, path: str, folder: str) -> None:
    offered = committed()["paths"][path]["post"]["requestBody"]["content"]["application/json"]["examples"]
    found = (file for place in (folder, f"refused/{folder}") for file in (examples / place).glob("*.json"))
    files = {file.stem: json.loads(file.read_text(encoding="utf-8")) for file in found}
    assert {name: example["value"] for name, example in offered.items()} == files
