"""Builds the cooking table `cooking/` anew: `python -m reference_data.build_cooking [--out FOLDER]`.

The same food table gives the same bytes; a test proves it. Read on in `from_pairs`: matching, exclusions, leaving_out,
mixes, tables.
"""

import argparse
from pathlib import Path

from reference_data import reference_folder
from reference_data.from_pairs.tables import all_tables
from solver.catalogue import load_catalogue


def build(out: Path) -> None:
    """Write every cooking table into the folder `out`, which is made if it is missing."""
    out.mkdir(parents=True, exist_ok=True)
    for name, text in all_tables(load_catalogue(reference_folder() / "sr28")).items():
        (out / name).write_bytes(text.encode())


def main() -> None:
    """Read the command line and build."""
    parser = argparse.ArgumentParser(prog="python -m reference_data.build_cooking", description=__doc__.split(":")[0])
    parser.add_argument("--out", type=Path, default=reference_folder() / "cooking", help="default: as committed")
    build(parser.parse_args().out)


if __name__ == "__main__":
    main()
