"""How bands and numbers are said, in answers and in the terminal."""


def number(value: float, unit: str = "") -> str:
    """At most six significant digits, as a person writes them; the unit behind it, "1" (a ratio) as ": 1"."""
    digits = f"{value:.6g}"
    if "e" in digits:
        digits = f"{value:.0f}" if value >= 1 else "0"
    if unit == "{piece}":
        return f"{digits} piece" if value == 1 else f"{digits} pieces"
    return f"{digits} : 1" if unit == "1" else f"{digits} {unit}".rstrip()


def band(at_least: float | None, at_most: float | None, unit: str) -> str:
    """A band in words: "74 to 76 %", "at least 35 g", "at most 5 g"."""
    if at_least is None:
        return f"at most {number(at_most or 0.0, unit)}"
    if at_most is None:
        return f"at least {number(at_least, unit)}"
    return f"{number(at_least)} to {number(at_most, unit)}"
