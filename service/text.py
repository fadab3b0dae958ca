"""An answer as text for the terminal. It rounds for reading; the amounts to weigh out are printed exactly."""

from collections.abc import Iterator, Sequence

from service.schemas.answer import Answer, ConflictAnswer, PlanAnswer, ProofAnswer, UndecidedAnswer
from service.schemas.dish import DishAnswer, QuantityAnswer, TargetAnswer, TotalsAnswer
from service.schemas.rules import RuleAnswer
from service.text_bars import bar_rows
from service.text_beside import alternative_lines, in_the_way_lines, needed, no_food_lines, way_out_lines, worth_line
from service.text_cooking import cooking_lines
from service.text_holds import carried_line, worst_lines
from service.text_method import step_lines
from service.text_off import off_lines
from service.text_part import part
from service.text_shares import share_lines
from service.words import band, number

#: Printed for every dish; what the targets name comes after them.
_NUTRIENTS = ("protein_g", "fat_g", "available_carbohydrate_g", "fibre_g")


def readable(answer: Answer, *, bars: bool = False) -> str:
    """The answer as lines of text. bars: with small bars, for a terminal."""
    return "\n".join(_lines(answer, bars=bars)) + "\n"


def _lines(answer: Answer, *, bars: bool) -> Iterator[str]:
    yield f"{answer.title} ({answer.portions} {'portion' if answer.portions == 1 else 'portions'})"
    match answer:
        case PlanAnswer():
            yield from _dish(answer)
            yield from _table("At a glance", bar_rows(answer) if bars else [], numbers=0)
            yield from part("Wishes that are missed", in_the_way_lines(answer.in_the_way))
            yield from part("Proof", [*_levels(answer.proof), _solved_by(answer.proof)])
            yield from part("What it is worth", map(worth_line, answer.worth or ()))
            if answer.alternatives is not None:
                yield from part("Other good plans", alternative_lines(answer.alternatives))
        case ConflictAnswer():
            yield from _conflict(answer)
            yield from part("Proof", [f"no plan: {answer.checked}", _solved_by(answer.proof)])
        case UndecidedAnswer():
            yield from part("Undecided", [answer.reason, answer.advice])
    yield from part("Left out", (f"{left.name}: no value for {', '.join(left.lacks)}" for left in answer.left_out))
    yield from part("Excluded", (f"{each.name}: {each.why}" for each in answer.excluded))
    yield from part("Mind", answer.warnings)
    yield from part("Cautions", (f"- {each.text} ({each.trigger})" for each in answer.cautions))
    if isinstance(answer, PlanAnswer):
        yield from part("The plate may be off", off_lines(answer.plate_may_be_off))
        yield from part("Exactness", [answer.exactness])
    yield from part("Reminder", [answer.reminder])


def _conflict(answer: ConflictAnswer) -> Iterator[str]:
    heading = "No plan meets the brief. These cannot be had together:"
    yield from part(heading, (f"- {member.text}" for member in answer.members))
    yield f"  {needed(answer)}"
    for other in answer.other_conflicts:
        yield from part("Nor can these, apart from that:", (f"- {member.text}" for member in other))
    if answer.tolerance_carried is not None:
        yield from part("What the pantry can carry", [carried_line(answer.tolerance_carried)])
    if answer.ways_out is not None:
        yield from part("Ways out, each confirmed by a plan", way_out_lines(answer.ways_out))
        yield from part("No food can help here", no_food_lines(answer.ways_out))
    if answer.nearest is not None:
        yield ""
        yield "The nearest dish, which misses what is marked:"
        yield from _dish(answer.nearest)


def _dish(dish: DishAnswer) -> Iterator[str]:
    yield from _table("Weigh out, before cooking, for the whole batch", _quantity_rows(dish))
    yield from part("Cook", cooking_lines(dish))
    if isinstance(dish, PlanAnswer):
        yield from part("Method", step_lines(dish.method_steps))
    yield from _table("What it comes to", _total_rows(dish), numbers=2)
    yield from part(
        "Of the energy",
        share_lines(dish.energy_distribution_percent, dish.ketogenic_ratio, dish.ketogenic_ratio_reason),
    )
    if isinstance(dish, PlanAnswer):
        yield from _table("As a label rounds it", [(line.title, line.text or "unknown") for line in dish.nutrition])
    yield from _table("Targets", [_target_row(target) for target in dish.targets])
    yield from part("At their worst, within what they hold for", worst_lines(dish.targets))
    yield from _table("Rules", [_rule_row(rule) for rule in dish.rules])


def _quantity_rows(dish: DishAnswer) -> list[tuple[str, ...]]:
    several = len({each.component for each in dish.quantities}) > 1
    return [(each.name, each.text, _aside(each), *((each.component,) if several else ())) for each in dish.quantities]


def _aside(each: QuantityAnswer) -> str:
    if each.as_purchased_grams is not None:
        return f"{each.as_purchased_grams:.0f} g as purchased"
    grams = () if each.text.endswith(" g") else (f"{each.grams:.1f} g",)
    return ", ".join((*grams, *(() if each.about is None else (each.about,))))


def _total_rows(dish: DishAnswer) -> list[tuple[str, ...]]:
    named = (target.of for target in dish.targets if target.of in dish.batch.nutrients and target.of != "energy_kcal")
    rows: list[tuple[str, ...]] = [
        ("", "a portion", "the batch"),
        ("weight", f"{dish.portion.grams:.1f} g", f"{dish.batch.grams:.1f} g"),
        ("energy", f"{dish.portion.energy_kcal:.0f} kcal", f"{dish.batch.energy_kcal:.0f} kcal"),
        ("", f"{dish.portion.energy_kj:.0f} kJ", f"{dish.batch.energy_kj:.0f} kJ"),
    ]
    names = dict.fromkeys((*_NUTRIENTS, *named))
    rows += [(_title(name), _amount(dish.portion, name), _amount(dish.batch, name)) for name in names]
    if dish.cost is not None:
        rows.append(("cost", "", f"{dish.cost:.2f}"))
    return rows


def _title(name: str) -> str:
    return name.rpartition("_")[0].replace("_", " ")


def _amount(totals: TotalsAnswer, name: str) -> str:
    value = totals.nutrients.get(name)
    if value is None:
        return "unknown"
    at_least = "at least " if name in totals.lacking else ""
    return f"{at_least}{value:.1f} {name.rpartition('_')[2]}"


def _target_row(target: TargetAnswer) -> tuple[str, ...]:
    value = "undefined" if target.value is None else number(round(target.value, 2), target.unit)
    wanted = band(target.at_least, target.at_most, target.unit)
    wish = "" if target.priority is None else f"wish {target.priority}"
    return (target.id, value, wanted, _verdict(target), wish)


def _rule_row(rule: RuleAnswer) -> tuple[str, ...]:
    value = "undefined" if rule.value is None else number(round(rule.value, 4), rule.unit)
    wish = "" if rule.priority is None else f"wish {rule.priority}"
    return (rule.id, value, band(rule.at_least, rule.at_most, rule.unit), _verdict(rule), wish)


def _verdict(target: TargetAnswer | RuleAnswer) -> str:
    if target.met:
        return "met, at its limit" if target.binding else "met"
    if target.miss is None:
        return f"not met: {target.reason}"
    unit = "percentage points" if target.unit == "%" else target.unit
    digits = 4 if isinstance(target, RuleAnswer) else 2
    return f"MISSED by {number(round(target.miss, digits), unit)}"


def _levels(proof: ProofAnswer) -> Iterator[str]:
    for level in proof.levels:
        gap = "" if level.gap is None else f", gap {max(level.gap, 0.0):.6f}".rstrip("0").rstrip(".")
        yield f"{level.level}: {level.status.replace('_', ' ')}{gap} ({level.checked})"


def _solved_by(proof: ProofAnswer) -> str:
    return f"solved by {proof.solver} {proof.solver_version} in {proof.seconds:.2f} s"


def _table(heading: str, rows: Sequence[tuple[str, ...]], numbers: int = 1) -> Iterator[str]:
    """Aligned columns under a heading: names to the left, then so many columns of numbers to the right."""
    if not rows:
        return
    widths = [max(map(len, column)) for column in zip(*rows, strict=True)]
    yield ""
    yield heading
    for row in rows:
        cells = (
            cell.rjust(width) if 1 <= place <= numbers else cell.ljust(width)
            for place, (cell, width) in enumerate(zip(row, widths, strict=True))
        )
        yield ("  " + "  ".join(cells)).rstrip()
