"""The example briefs that the product ships, as the API's documentation shows them."""

import json
from pathlib import Path

from fastapi.openapi.models import Example

#: Inside an installed product, and in the source tree.
_FOLDERS = (Path(__file__).parent / "examples", Path(__file__).parent.parent / "openapi" / "examples")


def examples_folder() -> Path:
    """Where the example briefs are. Raises FileNotFoundError when the product is incomplete."""
    for folder in _FOLDERS:
        if folder.is_dir():
            return folder
    raise FileNotFoundError(f"no example briefs in {_FOLDERS[0]} or {_FOLDERS[1]}")


def load_examples(folder: Path) -> dict[str, Example]:
    """File name without its ending to the brief in it, in the order of the names."""
    return {path.stem: _example(path) for path in sorted(folder.glob("*.json"))}


def examples_of(job: str = ".") -> dict[str, Example]:
    """The examples in the folder of a job, those that are refused last; plans, the main job, have the folder itself.

    Raises FileNotFoundError as `examples_folder` does.
    """
    folder = examples_folder()
    return load_examples(folder / job) | load_examples(folder / "refused" / job)


def _example(path: Path) -> Example:
    body = json.loads(path.read_text(encoding="utf-8"))
    return {"summary": body.get("brief", body)["title"], "value": body}
