"""How numbers go out."""


def rounded(value: float) -> float:
    """Six decimals: fine enough that sums recompute, free of floating-point tails."""
    return round(value, 6)


def maybe_rounded(value: float | None) -> float | None:
    """The same, where there is a value."""
    return None if value is None else rounded(value)
