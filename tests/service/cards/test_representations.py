"""One answer in many forms: the same numbers in each, and each readable by a library that knows the form."""

import csv
import io
import json
from html.parser import HTMLParser

import pypdf
import pytest
from markdown_it import MarkdownIt

from tests.service.asking import Document
from tests.service.cards.conftest import KINDS, Ask
from tests.service.cards.numbers import known, strangers

MEDIA_TYPES = {
    "html": "text/html; charset=utf-8",
    "markdown": "text/markdown; charset=utf-8",
    "csv": "text/csv; charset=utf-8",
    "recipe": "application/ld+json",
    "pdf": "application/pdf",
}


class _Words(HTMLParser):
    """The words that a reader sees or hears: texts, and the labels of pictures."""

    def __init__(self) -> None:
        super().__init__()
        self.words: list[str] = []
        self._hidden = False

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self._hidden = tag == "style" or (self._hidden and tag != "body")
        self.words += [value or "" for name, value in attrs if name == "aria-label"]

    def handle_endtag(self, tag: str) -> None:
        self._hidden = self._hidden and tag != "style"

    def handle_data(self, data: str) -> None:
        if not self._hidden:
            self.words.append(data)


def words_of_page(page: str) -> str:
    reader = _Words()
    reader.feed(page)
    return "\n".join(reader.words)


def words_of_markdown(text: str) -> str:
    tokens = MarkdownIt("commonmark").enable("table").parse(text)
    return "\n".join(child.content for token in tokens for child in token.children or () if child.type == "text")


def words_of_pdf(content: bytes) -> str:
    return "\n".join(page.extract_text() for page in pypdf.PdfReader(io.BytesIO(content)).pages)


def strings(value: object) -> list[str]:
    """Every text of a document, without the names of its fields."""
    if isinstance(value, dict):
        return [text for inner in value.values() for text in strings(inner)]
    if isinstance(value, list):
        return [text for inner in value for text in strings(inner)]
    return [str(value)]


def words(form: str, content: bytes) -> str:
    if form == "pdf":
        return words_of_pdf(content)
    text = content.decode()
    if form == "html":
        return words_of_page(text)
    if form == "markdown":
        return words_of_markdown(text)
    return "\n".join(strings(json.loads(text))) if form == "recipe" else text


def also_shown(answer: Document) -> set[float]:
    """What a card adds that is no number of the answer: the numbers of the steps, and of one portion."""
    plan = answer.get("answer", answer)
    steps = len(plan.get("method_steps", ())) + len(plan.get("components", ()))
    return {*map(float, range(1, steps + 1)), 1.0, *_derived_of_reach(answer)}


def _derived_of_reach(answer: Document) -> set[float]:
    """The corners of curves, counted from the pieces that the answer has: (a + b t) / (c + d t)."""
    frontier = answer.get("frontier") or {}
    return {
        abs((each["a"] + each["b"] * t) / (each["c"] + each["d"] * t))
        for each in (*frontier.get("least", ()), *frontier.get("most", ()))
        for t in (each["start"], each["stop"])
        if each["c"] + each["d"] * t
    }


@pytest.mark.parametrize("form", MEDIA_TYPES)
@pytest.mark.parametrize("kind", KINDS)
def test_every_number_in_every_form_is_a_number_of_the_answer(ask: Ask, kind: str, form: str) -> None:
    answer = ask(kind).json()
    response = ask(kind, format=form)
    assert response.status_code == 200, response.text
    is_json = form == "recipe" and kind in {"conflict", "reach"}
    assert response.headers["content-type"] == ("application/json" if is_json else MEDIA_TYPES[form])
    if is_json:
        return
    said = words(form, response.content)
    assert len(said) > 100
    assert strangers(said, known(answer) | also_shown(answer)) == []


@pytest.mark.parametrize("form", ["html", "markdown", "pdf"])
def test_the_numbers_that_matter_are_in_every_form_for_reading(ask: Ask, form: str) -> None:
    answer = ask("plan").json()
    said = words(form, ask("plan", format=form).content)
    portion = answer["portion"]
    for number in (f"{portion['energy_kcal']:.0f} kcal", *(f"{each['grams']:.1f} g" for each in answer["quantities"])):
        assert number in said
    for nutrient in ("fat_g", "protein_g", "available_carbohydrate_g"):
        assert f"{portion['nutrients'][nutrient]:.1f} g" in said
    for text in (answer["reminder"], *(each["text"] for each in answer["method_steps"])):
        assert " ".join(text.split()) in " ".join(said.split())


def test_the_quantities_are_read_back_by_the_standard_library(ask: Ask) -> None:
    answer = ask("plan").json()
    rows = list(csv.DictReader(io.StringIO(ask("plan", format="csv").text, newline="")))
    assert [row["name"] for row in rows] == [each["name"] for each in answer["quantities"]]
    assert [float(row["grams"]) for row in rows] == [each["grams"] for each in answer["quantities"]]
    assert [row["steps"] for row in rows] == [
        "" if each["steps"] is None else str(each["steps"]) for each in answer["quantities"]
    ]


def test_the_safe_temperature_stands_beside_the_step_that_reaches_it(ask: Ask) -> None:
    """71.2 °C: minced meat on the chart of FoodSafety.gov, 160 °F."""
    page = ask("plan", format="html").text
    step = page[page.index("Broil, and turn once.") :].partition("</li>")[0]
    assert "71.2 °C" in step
    assert "71.2 °C" not in page[page.index("Mix by hand") : page.index("Broil, and turn once.")]


def test_weights_energy_and_temperatures_are_said_in_the_reader_s_units(ask: Ask) -> None:
    answer = ask("plan").json()
    query = {"units": "us", "energy": "kJ", "temperature": "fahrenheit"}
    said = words_of_page(ask("plan", format="html", **query).text)
    assert f"{answer['portion']['energy_kj']:.0f} kJ" in said
    assert "464 °F" in said  # 240 °C
    beef = next(each["grams"] for each in answer["quantities"] if each["name"] == "ground beef")
    pounds, ounces = divmod(round(beef / 28.349523125, 2), 16)
    assert f"{pounds:.0f} lb {ounces:.2f} oz" in said


def test_nutrition_numbers_are_rounded_as_the_address_asks(ask: Ask) -> None:
    for layout, first in (("US", "energy_kcal"), ("EU", "energy_kj")):
        dishes = ask("plan", nutrition_as=layout).json(), ask("rework", nutrition_as=layout).json()["answer"]
        assert [dish["nutrition"][0]["name"] for dish in dishes] == [first, first]
    assert "As a label rounds it" in ask("plan", format="html", nutrition_as="EU").text


def test_accept_chooses_and_what_cannot_be_had_is_refused(ask: Ask) -> None:
    browser = "text/html,application/xhtml+xml,application/xml;q=0.9,*/*;q=0.8"
    assert ask("plan", {"Accept": browser}).headers["content-type"].startswith("text/html")
    assert ask("plan", {"Accept": "text/*;q=0.5, application/pdf"}).headers["content-type"] == "application/pdf"
    refused = ask("plan", {"Accept": "image/png"})
    assert refused.status_code == 406
    assert refused.json()["type"] == "/problems/not_acceptable"


def test_a_page_needs_nothing_from_elsewhere_and_runs_nothing(ask: Ask) -> None:
    response = ask("plan", format="html")
    assert response.headers["content-security-policy"].startswith("default-src 'none'")
    assert "<script" not in response.text
    assert "http" not in response.text.replace("http://www.w3.org/2000/svg", "")
