"""A card as a page: for the screen, light and dark, and for one sheet of paper; it needs no script and nothing else."""

import base64
import hashlib
from dataclasses import dataclass

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup

from service.cards.card import PLACES, AnySection, Card
from service.cards.drawing import Drawing
from service.cards.svg import svg


@dataclass(frozen=True, slots=True)
class Pages:
    """Draws cards as pages. style_source: their style sheet, as a source of a Content-Security-Policy (CSP Level 3)."""

    environment: Environment
    style: Markup
    style_source: str

    @property
    def policy(self) -> str:
        """Allows just the style sheet."""
        return (
            "default-src 'none'; frame-ancestors 'none'; base-uri 'none'; form-action 'none'; img-src data:; "
            f"style-src {self.style_source}"
        )

    def page(self, card: Card) -> str:
        """A whole HTML document."""
        template = self.environment.get_template("card.html")
        return template.render(card=card, style=self.style, places=PLACES, kind=_kind, svg=_svg)


def open_pages(folder: str) -> Pages:
    """folder: where the templates lie. Raises FileNotFoundError when the product is incomplete."""
    environment = Environment(
        loader=FileSystemLoader(folder),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    source, _, _ = FileSystemLoader(folder).get_source(environment, "card.css")
    style = source.strip()
    digest = base64.b64encode(hashlib.sha256(style.encode()).digest()).decode()
    return Pages(environment, Markup(style), f"'sha256-{digest}'")  # noqa: S704  our own file


def _kind(section: AnySection) -> str:
    return type(section).__name__.lower()


def _svg(drawing: Drawing) -> Markup:
    return Markup(svg(drawing))  # noqa: S704  every text in it is escaped there
