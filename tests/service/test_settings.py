import pytest
from pydantic import ValidationError

from service.settings import Settings, misspelt, variable


def test_every_setting_is_read_from_the_variable_of_its_name(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("LARDERLINE_PANTRY_LIMIT", "7")
    assert variable("pantry_limit") == "LARDERLINE_PANTRY_LIMIT"
    assert Settings().pantry_limit == 7


@pytest.mark.parametrize(
    ("name", "near"),
    [("LARDERLINE_PANTRY_LIMITS", "LARDERLINE_PANTRY_LIMIT"), ("larderline_prot", "LARDERLINE_PORT")],
)
def test_a_misspelt_variable_is_met_with_the_nearest(name: str, near: str) -> None:
    assert list(misspelt({name: "1"})) == [f"{name}: there is no such setting; did you mean {near}?"]


def test_a_variable_like_no_setting_is_named_all_the_same() -> None:
    assert list(misspelt(["LARDERLINE_QQQQ"])) == ["LARDERLINE_QQQQ: there is no such setting"]


def test_variables_of_others_and_settings_in_any_case_pass() -> None:
    assert list(misspelt(["PATH", "LARDER", "LARDERLINE_PORT", "larderline_port"])) == []


def test_origins_are_separated_by_commas(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("LARDERLINE_CORS_ORIGINS", "https://kitchen.example, http://localhost:5173")
    assert Settings().cors_origins == ("https://kitchen.example", "http://localhost:5173")


@pytest.mark.parametrize("origin", ["kitchen.example", "https://kitchen.example/", "file:///x", "https://a@b"])
def test_what_is_no_origin_stops_the_start(origin: str) -> None:
    with pytest.raises(ValidationError, match="is no origin"):
        Settings(cors_origins=(origin,))


@pytest.mark.parametrize(("workers", "each"), [(1, 4), (2, 2), (3, 1), (8, 1)])
def test_workers_share_the_cores(workers: int, each: int, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("os.cpu_count", lambda: 4)
    assert Settings(workers=workers).solves_at_once == each
