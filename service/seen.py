"""What of an answer is held against another one: read leniently, since it may have been saved by an older version."""

from collections.abc import Iterator
from dataclasses import dataclass

from pydantic import BaseModel, ConfigDict

#: Values that are so near to each other, relative to the larger or to 1, are the same: answers carry six decimals.
NEAR = 2e-6


class _Lenient(BaseModel):
    model_config = ConfigDict(extra="ignore", frozen=True, hide_input_in_errors=True)


class _Level(_Lenient):
    level: str
    value: float
    gap: float | None = None


class _Proof(_Lenient):
    levels: list[_Level] = []
    solver: str
    solver_version: str


class _Quantity(_Lenient):
    name: str
    component: str = ""
    grams: float


class _Target(_Lenient):
    id: str
    unit: str
    value: float | None
    at_least: float | None = None
    at_most: float | None = None


class _Member(_Lenient):
    kind: str
    name: str | None = None


@dataclass(frozen=True, slots=True)
class Number:
    """A number with how far another may be from it and be as good."""

    value: float | None
    open: float = 0.0

    def is_as(self, other: "Number") -> bool:
        """Whether they are the same, but for what is open."""
        if self.value is None or other.value is None:
            return self.value == other.value
        near = NEAR * max(1.0, abs(self.value), abs(other.value))
        return abs(self.value - other.value) <= near + max(self.open, other.open)


class SeenAnswer(_Lenient):
    """An answer to a brief. Lists are empty where this kind of answer has none."""

    outcome: str
    title: str = ""
    proof: _Proof
    quantities: list[_Quantity] = []
    targets: list[_Target] = []
    cost: float | None = None
    members: list[_Member] = []

    @property
    def solver(self) -> str:
        """Who solved it."""
        return f"{self.proof.solver} {self.proof.solver_version}"

    def levels(self) -> dict[str, Number]:
        """What each level reaches; its gap is open, since the optimum is anywhere in it."""
        return {f"level {each.level}": Number(each.value, abs(each.gap or 0.0)) for each in self.proof.levels}

    def bands(self) -> dict[str, Number]:
        """What was asked for, as it was read."""
        ends = [
            (f"{each.id} {which}, {each.unit}", end)
            for each in self.targets
            for which, end in (("at least", each.at_least), ("at most", each.at_most))
        ]
        return {what: Number(end) for what, end in ends}

    def amounts(self) -> dict[str, Number]:
        """What to weigh out, g."""
        return {f"{each.name} in {each.component or 'the dish'}, g": Number(each.grams) for each in self.quantities}

    def comes_to(self) -> dict[str, Number]:
        """What the targets have, and the cost."""
        return {**{f"{each.id}, {each.unit}": Number(each.value) for each in self.targets}, "cost": Number(self.cost)}

    def conflict(self) -> frozenset[str]:
        """What cannot be had together."""
        return frozenset(f"{each.kind} {each.name}" if each.name else each.kind for each in self.members)


class SeenRework(_Lenient):
    """A dish made anew."""

    answer: SeenAnswer


class _End(_Lenient):
    value: float | None
    gap: float | None = None


class _Range(_Lenient):
    id: str
    unit: str
    least: _End
    most: _End


class _Point(_Lenient):
    x: float
    y: float


class _Piece(_Lenient):
    start: float
    stop: float
    a: float
    b: float
    c: float
    d: float


class _Frontier(_Lenient):
    vertices: list[_Point] = []
    least: list[_Piece] = []
    most: list[_Piece] = []

    def numbers(self) -> Iterator[tuple[str, float]]:
        """Each with a name."""
        for kind in ("vertices", "least", "most"):
            for place, each in enumerate(getattr(self, kind)):
                yield from ((f"frontier, {kind} {place + 1}, {name}", value) for name, value in each)


class SeenReach(_Lenient):
    """What a pantry can do."""

    title: str = ""
    ranges: list[_Range] = []
    frontier: _Frontier | None = None
    solver: str
    solver_version: str

    def reaches(self) -> dict[str, Number]:
        """The ends of every range, and what draws the frontier."""
        ends = {
            f"{which} of {each.id}, {each.unit}": Number(end.value, abs(end.gap or 0.0))
            for each in self.ranges
            for which, end in (("least", each.least), ("most", each.most))
        }
        drawn = self.frontier.numbers() if self.frontier else ()
        return ends | {name: Number(value) for name, value in drawn}
