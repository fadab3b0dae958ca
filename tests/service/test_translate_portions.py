"""Divisions as they come in, what is refused of them, and the portions as they go out."""

from typing import Any

import pytest
from pydantic import TypeAdapter, ValidationError

from service.problem_pages.page import Page
from service.problem_pages.portions import PORTIONS
from service.schemas.portions import DivisionBody
from service.translate.place import Place
from service.translate.portions import to_division, to_portions
from service.validation import path_of
from solver.outcome import Totals
from solver.portion_shares import Asked, ByEnergy, ByPieces, ByShares, ByWeight, Equal
from solver.portions import Division, divide

BODY: TypeAdapter[DivisionBody] = TypeAdapter(DivisionBody)
SOUP = Totals(grams=1000.0, energy_kcal=1500.0, energy_kj=6200.0, values={"fat_g": 120.0, "zinc_mg": None}, lacking={})


def division(body: dict[str, Any]) -> Division | None:
    """The division, which must not be refused."""
    place = Place(("division",))
    found = to_division(BODY.validate_python(body), place)
    assert place.problems == []
    return found


def refusals(body: dict[str, Any]) -> list[tuple[str, str]]:
    place = Place(("division",))
    assert to_division(BODY.validate_python(body), place) is None
    return [(problem.pointer, problem.code) for problem in place.problems]


def paths(body: dict[str, Any]) -> list[tuple[str | int, ...]]:
    """Paths in the document of what the schema refuses."""
    with pytest.raises(ValidationError) as caught:
        BODY.validate_python(body)
    return [path_of(error["loc"], body) for error in caught.value.errors()]


@pytest.mark.parametrize(
    ("body", "how"),
    [
        ({"kind": "equal", "portions": 4}, Equal(4)),
        (
            {
                "kind": "weight",
                "portions": [{"name": "guest", "weight": "250 g"}, {"name": "cook", "weight": "0.2 kg"}],
            },
            ByWeight((Asked("guest", 250.0), Asked("cook", 200.0))),
        ),
        (
            {"kind": "weight", "portions": [{"name": "guest", "weight": {"value": 250, "unit": "g"}}]},
            ByWeight((Asked("guest", 250.0),)),
        ),
        (
            {"kind": "pieces", "cut_into": 8, "eats": [{"name": "guest", "pieces": 3}]},
            ByPieces(8, (Asked("guest", 3),)),
        ),
        (
            {"kind": "shares", "portions": [{"name": "a", "parts": 2}, {"name": "b", "parts": 1.5}]},
            ByShares((Asked("a", 2), Asked("b", 1.5))),
        ),
        ({"kind": "energy", "portions": [{"name": "a", "energy_kcal": 600}]}, ByEnergy((Asked("a", 600),))),
    ],
)
def test_every_kind_of_division_is_read(body: dict[str, Any], how: object) -> None:
    assert division(body) == Division(how)  # type: ignore[arg-type]


def test_the_scale_of_the_kitchen_is_read() -> None:
    assert division({"kind": "equal", "portions": 2, "scale": "0.1 g"}) == Division(Equal(2), 0.1)


@pytest.mark.parametrize(
    ("weight", "code"),
    [("1 cup", "no_density"), ("a lot", "unreadable_amount"), ("0 g", "not_positive"), ("3 slices", "unknown_measure")],
)
def test_a_weight_that_is_none_is_refused_at_its_portion(weight: str, code: str) -> None:
    body = {"kind": "weight", "portions": [{"name": "a", "weight": "9 g"}, {"name": "b", "weight": weight}]}
    assert refusals(body) == [("/division/portions/1/weight", code)]


def test_a_name_that_cannot_be_printed_is_refused() -> None:
    body = {"kind": "pieces", "cut_into": 2, "eats": [{"name": "a\nb", "pieces": 1}]}
    assert refusals(body) == [("/division/eats/0/name", "not_printable")]


@pytest.mark.parametrize(
    ("body", "path"),
    [
        ({"kind": "equal", "portions": 0}, ("portions",)),
        ({"kind": "pieces", "cut_into": 8, "eats": [{"name": "a", "pieces": 0}]}, ("eats", 0, "pieces")),
        ({"kind": "pieces", "cut_into": 8, "eats": [], "pieces": 8}, ("pieces",)),
        ({"kind": "weight", "portions": [{"name": "a", "weight": 250}]}, ("portions", 0, "weight")),
        ({"kind": "shares", "portions": [{"name": "a", "parts": 0}]}, ("portions", 0, "parts")),
        ({"kind": "energy", "portions": [{"name": "a", "energy_kcal": "600"}]}, ("portions", 0, "energy_kcal")),
    ],
)
def test_what_the_schema_refuses_has_a_path_that_the_document_has(
    body: dict[str, Any], path: tuple[str | int, ...]
) -> None:
    assert path in paths(body)


def test_portions_go_out_with_what_to_weigh_and_what_is_in_them() -> None:
    asked = division({"kind": "pieces", "cut_into": 3, "eats": [{"name": "guest", "pieces": 1}]})
    assert asked is not None
    guest, left = to_portions(divide(SOUP, (), asked))
    assert (guest.name, guest.share, guest.pieces, guest.leftover) == ("guest", 0.333333, 1, False)
    assert (guest.weigh_out_g, guest.text) == (333, "333 g")
    assert guest.totals.grams == 333.333333
    assert guest.totals.nutrients == {"fat_g": 40.0, "zinc_mg": None}
    assert (left.name, left.pieces, left.leftover, left.text) == ("leftovers", 2, True, "667 g")


def test_heavy_portions_are_written_out() -> None:
    heavy = Totals(grams=12_345_678.0, energy_kcal=1.0, energy_kj=4.0, values={}, lacking={})
    (whole,) = to_portions(divide(heavy, (), Division(Equal(1), 0.1)))
    assert whole.text == "12345678 g"


@pytest.mark.parametrize("page", PORTIONS.values(), ids=list(PORTIONS))
def test_every_page_says_what_why_and_how_to_mend(page: Page) -> None:
    assert all(text.endswith(".") for text in (page.what, page.why, page.mend))
