"""What is at home, what has to be bought, and what is held back unless it is needed."""

from collections.abc import Collection, Sequence

from service.schemas.brief import PantryItemBody
from service.translate.place import Place


def refuse_unsuited(body: PantryItemBody, place: Place) -> None:
    """Refuse an item that is to be bought and there, or held back and needed."""
    there = [name for name in ("on_hand", "already_in") if getattr(body, name) is not None]
    there += ["only_if_needed"] if body.only_if_needed else []
    if body.to_buy and there:
        detail = f"What has to be bought is not at home, and {there[0]} says that it is."
        (place / "to_buy").refuse("to_buy_and_at_home", detail, f"Leave out to_buy or {there[0]}.")
    needed = [name for name in ("at_least", "already_in") if getattr(body, name) is not None]
    if body.only_if_needed and needed:
        detail = f"It takes no part unless it is needed, and {needed[0]} needs it."
        (place / "only_if_needed").refuse("held_and_needed", detail, f"Leave out only_if_needed or {needed[0]}.")


def held_back(bodies: Sequence[PantryItemBody]) -> frozenset[str]:
    """Names of the items that take no part unless they are needed."""
    return frozenset(body.name.strip() for body in bodies if body.only_if_needed)


def held_notes(held: Collection[str]) -> tuple[str, ...]:
    """That items were held back."""
    return (f"Held back, since they are only for need: {', '.join(sorted(held))}.",) if held else ()
