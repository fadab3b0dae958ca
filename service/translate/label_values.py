"""The values of a printed label: what each number or text may stand for, and how it is read."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from service.schemas.labels import EuLabel, UsLabel
from service.translate.place import Place
from solver.errors import AmountError
from solver.label_rounding import Interval, Printed, Rounding, may_stand_for
from solver.label_text import number_printed, read_printed

#: As much as a number may be.
_MOST = 1_000_000.0

#: More grams of one thing than this many times the weight are no rounding but another unit.
_WRONG_UNIT = 10.0


@dataclass(frozen=True, slots=True)
class Value:
    """One value of a label: as printed, and everything that may be printed so."""

    printed: Printed
    interval: Interval

    def read(self, *, small_as_most: bool = False) -> float:
        """The number to count with. A zero or "less than" is none, or the most that it may be."""
        if self.printed.is_small:
            return self.interval.high if small_as_most else 0.0
        return self.printed.number


@dataclass(frozen=True, slots=True)
class Layout:
    """How a layout prints. rounding: by field name, "polyols" for those; decimal_comma: as in `read_printed`."""

    rounding: Mapping[str, Rounding]
    decimal_comma: bool

    def values(self, fields: Mapping[str, float | str], place: Place, row: str | None = None) -> dict[str, Value]:
        """Each field that can be read; the others are refused at `place`. row: of `rounding`, for all of them."""
        values: dict[str, Value] = {}
        for name, given in fields.items():
            printed = self._printed(given, name.rpartition("_")[2], place / name)
            if printed is not None:
                values[name] = Value(printed, may_stand_for(printed, self.rounding.get(row or name)))
        return values

    def _printed(self, given: float | str, unit: str, place: Place) -> Printed | None:
        if not isinstance(given, str):
            return number_printed(given)
        try:
            printed = read_printed(given, unit, decimal_comma=self.decimal_comma)
        except AmountError as error:
            place.refuse_amount(error)
            return None
        if printed.number > _MOST:
            place.refuse("out_of_range", f"More than {_MOST:g}.", "Compare the value with the label.")
            return None
        return printed


def printed_fields(label: UsLabel | EuLabel, names: Iterable[str]) -> dict[str, float | str]:
    """The fields of a label that are given."""
    given = {name: getattr(label, name) for name in names}
    return {name: value for name, value in given.items() if value is not None}


def read_values(label: UsLabel | EuLabel, values: Mapping[str, Value], bounded: Iterable[str]) -> dict[str, float]:
    """The numbers to count with. bounded: those whose zero is read as the most that it may be, as the label asks."""
    upper = frozenset(bounded if label.read_zero_as == "upper bound" else ())
    return {name: value.read(small_as_most=name in upper) for name, value in values.items()}


def refuse_wrong_unit(values: Mapping[str, Value], weight_g: float, place: Place) -> None:
    """Refuse many times more grams of something than the whole weight. Less than that is only warned of."""
    for name, value in values.items():
        if name.endswith("_g") and value.interval.low > _WRONG_UNIT * weight_g:
            detail = f"More than {_WRONG_UNIT:g} times the whole weight that the label states its values for."
            (place / name).refuse("exceeds_weight", detail, "Compare the value, its unit and the weight.")


def within_room(values: Mapping[str, Value], names: Iterable[str], weight_g: float) -> dict[str, Value]:
    """The values, small ones of `names` limited to what protein and fat leave room for: 1 g of oil holds no 0.5 g."""
    others = (values[name].interval.low for name in ("protein_g", "fat_g") if name in values)
    room = max(0.0, weight_g - sum(others))
    small = {name: values[name] for name in names if name in values and values[name].printed.is_small}
    limited = {
        name: replace(value, interval=Interval(0.0, min(room, value.interval.high))) for name, value in small.items()
    }
    return dict(values) | limited


def zero_remark(
    values: Mapping[str, Value], names: Mapping[str, str], weight_g: float, read_as: str
) -> tuple[str, ...]:
    """How small values were read, in one sentence; none where there are none. names: field to the word for it."""
    small = [name for name in names if name in values and values[name].printed.is_small]
    if not small:
        return ()
    words = " and ".join(names[name] for name in small)
    most = max(values[name].interval.high for name in small)
    if read_as == "zero":
        return (f'{words}: 0 or "less than" is read as none, as asked; {weight_g:g} g may hold {most:g} g.',)
    return (f'{words}: 0 or "less than" is read as the upper bound, {most:g} g in {weight_g:g} g.',)
