"""All words of the cards are in one catalogue, and a card in another language has no English word of ours left."""

import re
import subprocess
import sys
from pathlib import Path

from babel.messages.mofile import write_mo
from babel.messages.pofile import read_po

from service.cards.catalogue import template
from service.cards.formats import card_of
from service.cards.markdown import markdown
from service.cards.reader import Reader
from service.cards.words import DOMAIN, LOCALE, words_of
from service.schemas.answer import PlanAnswer
from tests.service.cards.conftest import Ask


def test_the_catalogue_is_what_the_sources_say() -> None:
    assert (LOCALE / f"{DOMAIN}.pot").read_bytes() == template(), "run python -m service.cards.catalogue"


def test_the_command_writes_it() -> None:
    before = (LOCALE / f"{DOMAIN}.pot").read_bytes()
    subprocess.run([sys.executable, "-m", "service.cards.catalogue"], cwd=LOCALE.parents[2], check=True, timeout=60)
    assert (LOCALE / f"{DOMAIN}.pot").read_bytes() == before


def marked_catalogue(folder: Path) -> None:
    """A language in which every text of ours stands between guillemets."""
    with (LOCALE / f"{DOMAIN}.pot").open("rb") as file:
        catalogue = read_po(file, locale="eo")
    for message in catalogue:
        if isinstance(message.id, tuple):
            message.string = tuple(f"«{text}»" for text in message.id)
        elif message.id:
            message.string = f"«{message.id}»"
    target = folder / "eo" / "LC_MESSAGES"
    target.mkdir(parents=True)
    with (target / f"{DOMAIN}.mo").open("wb") as file:
        write_mo(file, catalogue)


def test_headings_and_titles_are_all_translated(ask: Ask, tmp_path: Path) -> None:
    marked_catalogue(tmp_path)
    answer = PlanAnswer.model_validate(ask("plan").json())
    card = card_of(answer, Reader(words=words_of("eo", tmp_path)))
    assert card.language == "eo"
    components = {each.name for each in answer.components}
    headings = [section.heading for section in card.sections if section.heading and section.heading not in components]
    assert len(headings) > 8
    assert [heading for heading in headings if not heading.startswith("«")] == []
    assert re.search("«[0-9]+ portions»|«{n} portions»", markdown(card)) or "«4 portions»" in card.lead


def test_english_stands_in_for_a_language_without_a_catalogue() -> None:
    assert words_of("tlh").language == "en"
    assert words_of("tlh").say("fat") == "fat"
