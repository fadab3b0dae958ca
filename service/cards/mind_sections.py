"""What has to be minded: cautions, allergens, warnings, how exact the numbers are, and the reminder."""

from collections.abc import Iterator, Sequence

from service.cards.card import AnySection, Notes, Table
from service.cards.reader import Reader
from service.cards.titles import title_of
from service.schemas.allergens import AllergenAnswer
from service.schemas.cautions import CautionAnswer
from service.schemas.declared import NutritionLineAnswer
from service.schemas.plate_off import PlateOffAnswer


def cautions(found: Sequence[CautionAnswer], reader: Reader) -> Iterator[AnySection]:
    """Every caution with what set it off; never complete."""
    if found:
        texts = tuple(f"{each.text} ({each.trigger})" for each in found)
        yield Notes(reader.say("Cautions"), "below", texts, "loud")


def allergens(found: Sequence[AllergenAnswer], reader: Reader) -> Iterator[AnySection]:
    """What is contained, and what nobody knows. Unknown is never "free from"."""
    contained = [f"{each.allergen} ({', '.join(each.items)})" for each in found if each.statement == "contains"]
    unknown = [each.allergen for each in found if each.statement == "unknown"]
    texts = []
    if contained:
        texts.append(reader.say("Contains: {allergens}.", allergens=", ".join(contained)))
    if unknown:
        texts.append(
            reader.say("Unknown, which is never free from: {allergens}. Read the labels.", allergens=", ".join(unknown))
        )
    yield Notes(reader.say("Allergens"), "below", tuple(texts), "small")


def nutrition(lines: Sequence[NutritionLineAnswer], reader: Reader) -> Iterator[AnySection]:
    """Numbers rounded as a label prints them, where they were asked for."""
    if lines:
        unknown = reader.say("unknown")
        rows = tuple((line.title, unknown if line.text is None else line.text) for line in lines)
        yield Table(reader.say("As a label rounds it"), "right", (reader.say("line"), reader.say("amount")), rows)


def warnings(texts: Sequence[str], reader: Reader) -> Iterator[AnySection]:
    """What was assumed, and what to mind before cooking."""
    if texts:
        yield Notes(reader.say("Mind"), "below", tuple(texts), "small")


def exactness(off: PlateOffAnswer, reader: Reader) -> Iterator[AnySection]:
    """Exact for these inputs, how far the plate may be off, and of what nobody says how far that is."""
    unsaid = [f"{title_of(of, reader)} ({', '.join(names)})" for of, names in off.nothing_stated_for.items() if names]
    texts = [off.text]
    if unsaid:
        texts.append(reader.say("Not counted, since no source says how far it is off: {of}.", of="; ".join(unsaid)))
    yield Notes(reader.say("Exact for these inputs; the plate may be off"), "below", tuple(texts), "small")


def reminder(text: str) -> Iterator[AnySection]:
    """That medical diets need a professional."""
    yield Notes("", "below", (text,), "loud")
