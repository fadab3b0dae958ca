"""A most amount that nobody set is told as such wherever a conflict names it."""

import json
from pathlib import Path

import httpx2

from service.schemas.answer import ConflictAnswer
from service.schemas.members import MemberAnswer
from service.translate.unasked import told_in_conflict
from tests.service.asking import answer_to

EGG = MemberAnswer(kind="most amount", name="egg", text="egg, at most 200 g for the batch")
STOCK = MemberAnswer(kind="most amount", name="stock", text="stock, at most 1 kg for the batch")
ON_HAND = MemberAnswer(kind="on hand", name="egg", text="egg, 300 g on hand")


def test_it_is_told_among_the_members_and_among_further_conflicts(client: httpx2.Client, examples: Path) -> None:
    brief = json.loads((examples / "conflict-with-what-to-buy.json").read_text())
    conflict = ConflictAnswer.model_validate(answer_to(client, brief))
    fields = {"members": [EGG, STOCK, ON_HAND], "other_conflicts": [[STOCK], [EGG]], "ways_out": None}
    found = told_in_conflict(conflict.model_copy(update=fields), frozenset({"egg"}))
    assert isinstance(found, ConflictAnswer)
    ours = "egg, at most 200 g for the batch, as nobody asks for more of it"
    assert [each.text for each in found.members] == [ours, STOCK.text, ON_HAND.text]
    assert [[each.text for each in group] for group in found.other_conflicts] == [[STOCK.text], [ours]]
