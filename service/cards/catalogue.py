"""Writes the catalogue of the words of the cards with the standard gettext tools: `python -m service.cards.catalogue`.

Translators start from it; Babel, which the tests install, reads the sources and writes the file.
"""

import io
from pathlib import Path

from service.cards.words import DOMAIN, LOCALE


def template() -> bytes:
    """The catalogue as it ought to be. Raises ImportError where Babel is not installed."""
    # A tool for whoever works on the product, which nobody who runs it needs.
    from babel.messages.catalog import Catalog  # noqa: PLC0415
    from babel.messages.extract import extract_from_dir  # noqa: PLC0415
    from babel.messages.pofile import write_po  # noqa: PLC0415

    catalogue = Catalog(project="Larderline", charset="utf-8", header_comment="# Words of the Larderline cards.")
    found = extract_from_dir(Path(__file__).parent, keywords={"say": None, "count": (1, 2)})
    for file, line, message, comments, context in found:
        catalogue.add(message, None, [(file, line)], auto_comments=comments, context=context)
    written = io.BytesIO()
    write_po(written, catalogue, width=120, no_location=True, omit_header=True, sort_output=True)
    return written.getvalue()


def main() -> None:
    """Write the file."""
    LOCALE.mkdir(exist_ok=True)
    (LOCALE / f"{DOMAIN}.pot").write_bytes(template())


if __name__ == "__main__":
    main()
