"""The surface of the contract: what a client may rely on, from an OpenAPI document."""

from collections.abc import Iterator, Mapping
from typing import Any, TypeAlias

Schema: TypeAlias = dict[str, Any]

#: Every operation, parameter and field to what it may be: types, schemas, and the words of a choice.
Surface: TypeAlias = Mapping[str, list[str]]


def surface(document: Schema) -> Surface:
    """The surface of a contract."""
    return {name: sorted(kinds) for name, kinds in (*_operations(document), *_fields(document))}


def _operations(document: Schema) -> Iterator[tuple[str, set[str]]]:
    for path, operations in document["paths"].items():
        for method, operation in operations.items():
            name = f"{method.upper()} {path}"
            yield name, {operation["operationId"], *(each for each in operation["responses"] if each.startswith("2"))}
            for each in operation.get("parameters", ()):
                yield f"{name} {each['name']}", set(_kinds(each["schema"]))


def _fields(document: Schema) -> Iterator[tuple[str, set[str]]]:
    for name, schema in document["components"]["schemas"].items():
        yield from ((f"{name}.{field}", set(_kinds(kind))) for field, kind in schema.get("properties", {}).items())


def needed(document: Schema) -> list[str]:
    """The fields that a request must have."""
    schemas = document["components"]["schemas"]
    incoming = [name for name in schemas if name.endswith(("Body", "Source"))]
    return sorted(f"{name}.{field}" for name in incoming for field in schemas[name].get("required", ()))


def _kinds(schema: Schema) -> Iterator[str]:
    if "$ref" in schema:
        yield str(schema["$ref"]).rpartition("/")[2]
    elif "enum" in schema or "const" in schema:
        yield from (f"'{word}'" for word in schema.get("enum", [schema.get("const")]))
    elif "anyOf" in schema or "oneOf" in schema:
        for each in schema.get("anyOf") or schema["oneOf"]:
            yield from _kinds(each)
    elif schema.get("type") == "array":
        yield from (f"list of {kind}" for kind in _kinds(schema.get("items", {})))
    else:
        yield str(schema.get("type", "anything"))


def broken(before: Surface, after: Surface) -> list[str]:
    """What a client may have relied on and is not there any more. One kind or word more breaks nothing: see CHANGES."""
    return [name for name, kinds in before.items() if not set(kinds) <= set(after.get(name, ()))]
