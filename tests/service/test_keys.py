"""Keys: who is let in, what is never written down, and that the service does not stand open by accident."""

import json
import re
from pathlib import Path
from typing import Any

import httpx2
import pytest
from fastapi import FastAPI
from fastapi.testclient import TestClient
from pydantic import ValidationError

from service.key_required import KeyRequired
from service.keys import Keys, KeysError, as_set, new_key, open_keys, refuse_to_stand_open
from service.settings import Settings
from tests.service.asking import refusal
from tests.service.conftest import Run, serving


def test_each_key_has_its_name_and_no_other_is_known() -> None:
    anna, bert = new_key(), new_key()
    keys = Keys(dict(as_set(name, key).split(":") for name, key in (("anna", anna), ("bert", bert))))
    assert (keys.name_of(anna), keys.name_of(bert)) == ("anna", "bert")
    assert [keys.name_of(other) for other in ("", anna[:-1], anna + "x", as_set("anna", anna))] == [None] * 4


def test_every_key_is_compared_whoever_calls_and_each_in_constant_time(monkeypatch: pytest.MonkeyPatch) -> None:
    compared: list[bytes] = []

    def compare(one: bytes, other: bytes) -> bool:
        compared.append(one)
        return one == other

    monkeypatch.setattr("hmac.compare_digest", compare)
    keys = Keys({name: as_set(name, name).partition(":")[2] for name in ("anna", "bert", "carl")})
    for presented in ("anna", "carl", "nobody"):
        keys.name_of(presented)
    assert len(compared) == 9


def test_what_is_longer_than_any_key_is_not_even_hashed() -> None:
    longest, longer = "k" * 200, "k" * 201
    keys = Keys({key: as_set("anna", key).partition(":")[2] for key in (longest, longer)})
    with TestClient(KeyRequired(FastAPI(), keys)) as client:
        for key, status in ((longest, 404), (longer, 401)):
            assert client.get("/v1/x", headers={"Authorization": f"Bearer {key}"}).status_code == status


def test_two_keys_of_one_name_stop_the_start() -> None:
    with pytest.raises(KeysError, match="same name"):
        open_keys(Settings(api_keys=(as_set("anna", "a"), as_set("anna", "b"))))


def test_keys_stand_in_the_settings_and_in_a_file(tmp_path: Path) -> None:
    one, other = new_key(), new_key()
    file = tmp_path / "keys"
    file.write_text(as_set("other", other) + "\n\n")
    keys = open_keys(Settings(api_keys=(as_set("one", one),), api_keys_file=file))
    assert (keys.name_of(one), keys.name_of(other)) == ("one", "other")


@pytest.mark.parametrize("wrong", ["plain-key", "name:abc", ":" + "0" * 64])
def test_a_key_that_is_not_hashed_stops_the_start(tmp_path: Path, wrong: str) -> None:
    with pytest.raises(ValidationError):
        Settings(api_keys=(wrong,))
    (tmp_path / "keys").write_text(wrong)
    with pytest.raises(KeysError) as refused:
        open_keys(Settings(api_keys_file=tmp_path / "keys"))
    assert wrong not in str(refused.value), "it may be a key"


@pytest.mark.parametrize("host", ["127.0.0.1", "127.8.0.1", "::1", "localhost"])
def test_this_machine_alone_needs_no_key(host: str) -> None:
    refuse_to_stand_open(Settings(), host)


@pytest.mark.parametrize("host", ["0.0.0.0", "::", "192.168.1.5", "kitchen.example", ""])  # noqa: S104  what is refused
def test_beyond_this_machine_it_wants_a_key_or_a_word(host: str) -> None:
    with pytest.raises(KeysError, match="LARDERLINE_API_KEYS"):
        refuse_to_stand_open(Settings(), host)
    refuse_to_stand_open(Settings(open_to_all=True), host)
    refuse_to_stand_open(Settings(api_keys=(as_set("a", "b"),)), host)


def test_it_does_not_start_open(larderline: Run) -> None:
    done = larderline("serve", "--host", "0.0.0.0", "--port", "0")  # noqa: S104  what is refused
    assert done.returncode == 1
    assert done.stderr.startswith("larderline: cannot start: 0.0.0.0 can be reached from other machines")


def test_what_the_key_command_prints_opens_the_door_and_the_log_knows_the_name_alone(
    larderline: Run, tmp_path: Path, salmon: dict[str, Any]
) -> None:
    said = larderline("key", "anna").stdout
    key, setting = (re.findall(rf"{word}:\s+(\S+)", said)[0] for word in ("once", "setting"))
    log = tmp_path / "log"
    with serving(log, api_keys=setting.partition("=")[2]) as (address, process):
        with httpx2.Client(base_url=address) as client:
            for wrong in ({}, {"Authorization": f"Bearer {key}x"}, {"Authorization": f"Basic {key}"}):
                refused = client.post("/v1/plans", json=salmon, headers=wrong)
                assert refusal(refused, 401)["type"] == "/problems/key_needed"
                assert refused.headers["www-authenticate"] == "Bearer"
            assert client.get("/v1/foods/sr28:01123").status_code == 401
            assert client.get("/metrics").status_code == 401
            assert [client.get(path).status_code for path in ("/healthz", "/readyz", "/docs", "/problems")] == [200] * 4
            let_in = client.post("/v1/plans", json=salmon, headers={"Authorization": f"Bearer {key}"})
            assert let_in.json()["outcome"] == "plan"
        process.terminate()
        process.wait(timeout=10)
    assert key not in log.read_text()
    lines = [json.loads(line) for line in log.read_text().splitlines()]
    assert [line["key"] for line in lines if line.get("status") == 200 and line["route"] == "/v1/plans"] == ["anna"]
