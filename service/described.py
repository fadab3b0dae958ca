"""What the contract says beyond what the framework writes: where the service is, who may call, names of choices."""

from collections.abc import Iterator
from typing import Any

from service.problems import by_status
from service.schemas.problem import MEDIA_TYPE

#: The layer that looks at keys lets everybody pass where none are set, and never looks at the other addresses.
_WITH_KEY = "/v1/"

_NEEDS_KEY = "A key is needed here, and none that is known came with the request."


def describe(document: dict[str, Any]) -> None:
    """Complete an OpenAPI document in place; once or twice is the same."""
    document["servers"] = [{"url": "/", "description": "The service that this document came from."}]
    document["components"]["securitySchemes"] = {
        "key": {"type": "http", "scheme": "bearer", "description": "Needed only where the service has keys set."}
    }
    document["security"] = [{}, {"key": []}]
    for path, operations in document["paths"].items():
        for operation in operations.values():
            _describe_keys(operation, needed=path.startswith(_WITH_KEY))
            for parameter in operation.get("parameters", ()):
                _name_choice(parameter["schema"])
    for schema in _fields(document["components"]["schemas"]):
        _name_choice(schema)


def _describe_keys(operation: dict[str, Any], *, needed: bool) -> None:
    if not needed:
        operation["security"] = []
        return
    example = by_status(401, _NEEDS_KEY).model_dump(exclude_none=True)
    schema = {"$ref": "#/components/schemas/ProblemDocument"}
    refusal = {"description": _NEEDS_KEY, "content": {MEDIA_TYPE: {"schema": schema, "example": example}}}
    operation["responses"] = dict(sorted({**operation["responses"], "401": refusal}.items()))


def _fields(schemas: dict[str, Any]) -> Iterator[dict[str, Any]]:
    for schema in schemas.values():
        yield from schema.get("properties", {}).values()


def _name_choice(field: dict[str, Any]) -> None:
    """Words or an object that may be null get the field's title: generators name a type of its own after it."""
    for choice in field.get("anyOf", ()):
        if ("enum" in choice or choice.get("type") == "object") and "title" in field:
            choice["title"] = field["title"]
