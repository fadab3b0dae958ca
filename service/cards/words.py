"""The words of the cards, in the reader's language: all of them pass through `say`, so that one catalogue holds them.

The catalogue is `locale/larderline.pot`, written by `python -m service.cards.catalogue` with the standard gettext
tools. English is the language of the sources; a translation is a `locale/LANGUAGE/LC_MESSAGES/larderline.mo`.
"""

import gettext
from dataclasses import dataclass, field
from pathlib import Path

DOMAIN = "larderline"

LOCALE = Path(__file__).parent / "locale"


@dataclass(frozen=True, slots=True)
class Words:
    """The words of one language. language: a BCP 47 tag."""

    language: str = "en"
    catalogue: gettext.NullTranslations = field(default_factory=gettext.NullTranslations)

    def say(self, text: str, **values: object) -> str:
        """A text with its values, `{name}` for each."""
        return self.catalogue.gettext(text).format(**values)

    def count(self, one: str, many: str, n: float, **values: object) -> str:
        """A text that depends on a number, which it may show as `{n}`."""
        return self.catalogue.ngettext(one, many, 1 if n == 1 else 2).format(n=n, **values)


def words_of(language: str, folder: Path = LOCALE) -> Words:
    """The words of a language; English where there is no catalogue of it."""
    found = gettext.translation(DOMAIN, folder, [language], fallback=True)
    return Words(language if isinstance(found, gettext.GNUTranslations) else "en", found)
