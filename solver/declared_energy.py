"""Declared energy against the declared macronutrients, by every way of `declared_slices`, and kJ against kcal.

A finding is a number that no way explains, or, with the code "energy_basis", the news that not every way does.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from solver.declared_finding import Finding, Follows, compare, in_words, overlap
from solver.declared_numbers import FIELDS, Declared, Known
from solver.declared_slices import bases, carbohydrate_energy, energy_slices, total
from solver.energy import KJ_PER_KCAL, REGULATION_KCAL, REGULATION_KJ, Factors
from solver.label_audit import LEAST_KJ_PER_KCAL, MOST_KJ_PER_KCAL
from solver.label_rounding import Interval


def energy_findings(declared: Declared) -> Iterator[Finding]:
    """Energy in kcal and in kJ, each against the macronutrients; kJ against kcal; and energy from one of them."""
    for about in ("energy_kcal", "energy_kj"):
        if declared.has(about):
            yield from _energy(declared, about)
    yield from _kj_against_kcal(declared)
    yield from _from_one(declared)


def _energy(declared: Declared, about: str) -> Iterator[Finding]:
    ways = _totals(declared, about)
    finding = compare("energy_differs", about, declared, ways, _excuse(declared))
    if finding is None:
        yield from _which_basis(declared, about, ways)
    elif finding.rounding_explains:
        yield finding
    else:
        yield _with_cause(declared, about, finding)


def _totals(declared: Declared, about: str) -> list[Follows]:
    """What the macronutrients come to by each way that has all it needs."""
    ways = []
    for basis in bases(declared):
        slices = energy_slices(declared, basis.kj if about == "energy_kj" else basis.kcal)
        if slices is not None:
            ways.append(Follows(basis.way, total(slices)))
    return ways


def _excuse(declared: Declared) -> str:
    missing = [FIELDS[name].title for name in ("fibre_g", "alcohol_g", "polyols_g") if not declared.has(name)]
    causes = [f"it holds {' or '.join(missing)} not declared"] if missing else []
    causes += ["it was counted with other factors"] if declared.factors is None else []
    return f", unless {' or '.join(causes)}" if causes else ""


def _which_basis(declared: Declared, about: str, ways: Sequence[Follows]) -> Iterator[Finding]:
    """No fault: the energy fits, but not by every way of counting; the finding says by which."""
    stated, unit = declared.known(about), FIELDS[about].unit
    others = [way for way in ways if not overlap(stated.interval, way.known.interval)]
    fits = tuple(way.way for way in ways if way not in others)
    if others:
        yield Finding(
            code="energy_basis",
            about=about,
            declared=declared.text(about),
            follows=in_words(others, unit),
            by=max(abs(way.known.value - stated.value) for way in others),
            unit=unit,
            rounding_explains=False,
            text=f"energy of {declared.text(about)} fits when counted as {' or '.join(fits)}; it comes to "
            f"{in_words(others, unit)}, which rounding cannot explain.",
            fits=fits,
        )


def _with_cause(declared: Declared, about: str, finding: Finding) -> Finding:
    """A finding that rounding does not explain, with the slip that would."""
    stated = declared.known(about).interval
    if about == "energy_kj" and declared.has("energy_kcal"):
        converted = declared.known("energy_kcal").times(KJ_PER_KCAL)
        if overlap(stated, converted.interval):
            hint = " It is the kcal times 4.184; kJ are counted with factors of their own."
            return replace(finding, code="kj_converted", text=finding.text + hint)
    on_top = _fibre_on_top(declared, REGULATION_KJ if about == "energy_kj" else REGULATION_KCAL)
    if on_top is not None and overlap(stated, on_top.interval):
        hint = " It fits if nothing is taken off for fibre: the EU states carbohydrate without fibre, the US with it."
        return replace(finding, code="fibre_taken_off", text=finding.text + hint)
    return finding


def _fibre_on_top(declared: Declared, factors: Factors) -> Known | None:
    """Energy by the regulation if fibre was wrongly taken off, or is to be, from carbohydrate that had none in it."""
    slices = energy_slices(declared, factors)
    if slices is None or declared.known_or_none("fibre_g").value <= 0:
        return None
    if declared.states_total:
        carbohydrate = carbohydrate_energy(declared, factors, is_total=False)
    else:
        carbohydrate = slices["carbohydrate"] + declared.known("fibre_g").times(factors.carbohydrate)
    return None if carbohydrate is None else total({**slices, "carbohydrate": carbohydrate})


def _kj_against_kcal(declared: Declared) -> Iterator[Finding]:
    """A kcal is 4 kJ where it comes from fibre and up to 4.25 where it comes from carbohydrate or protein."""
    if declared.has("energy_kcal", "energy_kj"):
        kcal, kj = declared.known("energy_kcal"), declared.known("energy_kj")
        counted = Interval(kcal.interval.low * LEAST_KJ_PER_KCAL, kcal.interval.high * MOST_KJ_PER_KCAL)
        if not overlap(kj.interval, counted):
            way = Follows("the kcal at 4 to 4.25 kJ each", Known(kcal.value * KJ_PER_KCAL, counted))
            finding = compare("kj_against_kcal", "energy_kj", declared, [way])
            yield from () if finding is None else (finding,)


def _from_one(declared: Declared) -> Iterator[Finding]:
    """Energy that is declared for one macronutrient alone."""
    for one in ("protein", "fat", "carbohydrate"):
        about = f"energy_from_{one}_kcal"
        if declared.has(about):
            ways = {basis.way: _slice(declared, one, basis.kcal) for basis in bases(declared)}
            counted = [Follows(way, known) for way, known in ways.items() if known is not None]
            finding = compare("energy_from_one_differs", about, declared, counted)
            yield from () if finding is None else (finding,)


def _slice(declared: Declared, one: str, factors: Factors) -> Known | None:
    if one == "carbohydrate":
        return carbohydrate_energy(declared, factors, is_total=declared.states_total)
    factor = factors.protein if one == "protein" else factors.fat
    return declared.known(f"{one}_g").times(factor) if declared.has(f"{one}_g") else None
