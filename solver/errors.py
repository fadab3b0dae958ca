"""Everything that can go wrong inside the solver, as one tree.

LarderlineError
├── UnusableBrief        the brief contradicts itself or names what does not exist; the caller can mend it
├── AmountError          a text is no amount, or its unit has no known weight for this food; becomes a `Problem`
├── ReferenceDataError   a table of reference data is damaged or has the wrong shape
├── ProgramError         a linear programme holds NaN, infinity or a coefficient out of range (our fault)
├── BackendError         a solver crashed, refused an option or answered nonsense
└── VerificationError    an answer did not survive being recomputed; it must not leave the house

A conflict is not an error: it is an answer (see `outcome`).
"""

from collections.abc import Iterable
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Problem:
    """One thing to mend in a brief.

    pointer: RFC 6901 JSON pointer to the field ("" is the whole document).
    code: stable snake_case code, part of the contract.
    detail: what is wrong, in one sentence; remedy: how to mend it.
    """

    pointer: str
    code: str
    detail: str
    remedy: str


class LarderlineError(Exception):
    """Root of the tree."""


class UnusableBrief(LarderlineError):  # noqa: N818  it is the brief that is unusable, not an error in the code
    """The brief cannot be posed. Carries at least one `Problem`, all that were found."""

    def __init__(self, problems: Iterable[Problem]) -> None:
        self.problems = tuple(problems)
        super().__init__("; ".join(f"{p.pointer}: {p.detail}" for p in self.problems))


class AmountError(LarderlineError):
    """An amount cannot be read or weighed. code, detail, remedy: as in `Problem`."""

    def __init__(self, code: str, detail: str, remedy: str) -> None:
        self.code, self.detail, self.remedy = code, detail, remedy
        super().__init__(f"{detail} {remedy}")


class ReferenceDataError(LarderlineError):
    """A table of reference data is damaged."""


class ProgramError(LarderlineError):
    """A linear programme is malformed."""


class BackendError(LarderlineError):
    """A solver failed or answered outside its own vocabulary."""


class VerificationError(LarderlineError):
    """A plan or proof did not survive recomputation."""
