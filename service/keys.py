"""Who may call: keys with names, of which only hashes are known here.

A key is 32 random bytes, so nobody can search for what has its SHA-256. `larderline key NAME` shows one once.
"""

import hashlib
import hmac
import ipaddress
import secrets
from collections.abc import Mapping
from types import MappingProxyType

from service.settings import Settings, variable
from solver.errors import LarderlineError


class KeysError(LarderlineError):
    """The file of keys cannot be read, or the service would be open where nobody said that it may."""


class Keys:
    """The keys that are let in; without any, everybody is."""

    def __init__(self, hashes: Mapping[str, str]) -> None:
        self._hashes = MappingProxyType({name: bytes.fromhex(digest) for name, digest in hashes.items()})

    def __bool__(self) -> bool:
        return bool(self._hashes)

    def name_of(self, presented: str) -> str | None:
        """Whose key it is; None when it is nobody's. Every hash is compared, each in constant time."""
        digest = hashlib.sha256(presented.encode()).digest()
        found = [name for name, known in self._hashes.items() if hmac.compare_digest(known, digest)]
        return found[0] if found else None


def new_key() -> str:
    """A key that nobody can guess."""
    return secrets.token_urlsafe(32)


def as_set(name: str, key: str) -> str:
    """A key as the setting holds it."""
    return f"{name}:{hashlib.sha256(key.encode()).hexdigest()}"


def open_keys(settings: Settings) -> Keys:
    """The keys of the settings and of the file that they name. Raises KeysError."""
    written = [*settings.api_keys, *_lines(settings)]
    try:
        listed = Settings.model_validate({"api_keys": tuple(written)}).api_keys
    except ValueError:
        raise KeysError(f"{variable('api_keys_file')}: a line of it is no key of the form name:hash") from None
    pairs = [key.split(":") for key in listed]
    if len({name for name, _ in pairs}) < len(pairs):
        raise KeysError("two keys have the same name")
    return Keys(dict(pairs))


def _lines(settings: Settings) -> list[str]:
    if settings.api_keys_file is None:
        return []
    try:
        lines = settings.api_keys_file.read_text(encoding="utf-8").split("\n")
    except (OSError, UnicodeDecodeError):
        raise KeysError(f"{settings.api_keys_file} cannot be read") from None
    return [line.strip() for line in lines if line.strip()]


def refuse_to_stand_open(settings: Settings, host: str) -> None:
    """Raise KeysError for an address beyond this machine without a key, unless it is said to be open."""
    if not (_is_local(host) or open_keys(settings) or settings.open_to_all):
        raise KeysError(
            f"{host} can be reached from other machines: set a key ({variable('api_keys')}; `larderline key NAME` "
            f"makes one), or say {variable('open_to_all')}=true"
        )


def _is_local(host: str) -> bool:
    try:
        return ipaddress.ip_address(host).is_loopback
    except ValueError:
        return host == "localhost"
