"""Writes the OpenAPI document into the source tree: `python -m service.openapi`.

The file is for readers and client generators that have no service at hand; the service itself makes it anew.
"""

import json
from pathlib import Path

from service.app import create_app
from service.settings import Settings

#: The command that mends a file that no longer says what the service says.
COMMAND = "python -m service.openapi"

FILE = Path(__file__).parent.parent / "openapi" / "openapi.json"


def document_text() -> str:
    """The document as the file holds it: the same text for the same code."""
    return json.dumps(create_app(Settings()).openapi(), indent=2, ensure_ascii=False) + "\n"


if __name__ == "__main__":
    FILE.write_text(document_text(), encoding="utf-8")
