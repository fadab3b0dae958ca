"""The reference data: tables with their sources, and the scripts that build them. `solver` never imports this."""

from pathlib import Path


def reference_folder() -> Path:
    """The folder that holds `sources.csv` and one folder for each food table."""
    return Path(__file__).resolve().parent
