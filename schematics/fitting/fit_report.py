"""Tables for the terminal of how a wearer fits every size."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from rich.console import RenderableType
from rich.text import Text

from schematics.checks.finding import Severity
from schematics.checks.ruled import SEVERITIES
from schematics.checks.rules.size_rules import Answer, size_rules
from schematics.checks.tape import Tape
from schematics.checks.wording import listed
from schematics.design.design import Design
from schematics.document.table import STYLES, columns, heading
from schematics.fitting.advice import Advice
from schematics.fitting.change_words import count_changes, effects
from schematics.fitting.fitting import Fitting, Instead
from schematics.fitting.gauge import made
from schematics.fitting.gauge_text import OwnGauge
from schematics.fitting.sizing import Point, SizeFit
from schematics.units import HAIR, Unit, format_both, in_fractions, round_half_up
from schematics.wearer.body import Body, BodyValue, Origin, Wearer

EASES: Mapping[str, str] = {
    "NECK-PASS": "neck stretched over head",
    "NECK-TIGHT": "neck at rest over neck",
    "NECK-SLIP": "shoulders over neck",
    "ARM-PASS": "band stretched over hand",
    "ARM-REST": "band at rest over wrist",
    "REACH-BAND": "band past the wrist",
    "SPREAD-ARMS": "spread over both arms",
    "GIRTH-EASE": "body over chest and arms",
    "HANG-KNEE": "hem above the knee",
    "HANG-WHERE": "hem below the waist",
}
"""What is to spare, by the code of the rule."""

MARKS: Mapping[Answer, str] = {Answer.GOOD: " ", Answer.UNKNOWN: "?", Answer.MIND: "~", Answer.STOP: "!"}
"""The mark of an answer in the table."""

LINE = 80
"""Letters in a line of the terminal."""

_ORIGINS = {
    Origin.OWN: "measured",
    Origin.CHART: "size chart",
    Origin.AGE_TABLE: "age table",
    Origin.ESTIMATE: "estimated",
}


def fitting_parts(
    design: Design, fitting: Fitting, gauge: OwnGauge | None, *, show_all: bool
) -> Iterator[RenderableType]:
    """The wearer, what is to spare in every size, the size advised and what would make it right."""
    yield heading(f"{design.title}, {design.construction} ({design.path})")
    yield Text()
    yield from wearer_parts(design, fitting.wearer)
    if gauge is not None:
        yield Text()
        yield from gauge_parts(design, gauge)
    yield Text()
    yield from ease_parts(fitting.fits, design.unit)
    yield Text()
    yield from _verdicts(fitting, show_all)
    yield from _advised(design, fitting)
    yield Text()


def wearer_parts(design: Design, wearer: Wearer) -> Iterator[RenderableType]:
    """What is known of the wearer as far as the rules need it, and where each length comes from."""
    yield heading(f"The wearer: {wearer.label}")
    needed = _needed(design)
    rows: list[list[Text | str]] = [
        [body.words, format_both(value.cm), _range(value, design.unit), _ORIGINS[value.origin]]
        for body in needed
        if (value := wearer.values.get(body)) is not None
    ]
    yield columns(rows)
    for held in dict.fromkeys(value.held for value in wearer.values.values() if value.held):
        yield columns([[f"There the age table's {held}, answers: it goes no further. Measure, if you can."]])
    missing = [body.words for body in needed if body not in wearer.values]
    if missing:
        yield columns(
            [[f"Not known: {listed(missing)}. What hangs on them is not checked: measure, or give an age."]]
        )


def _needed(design: Design) -> tuple[Body, ...]:
    needed = {body for rule in size_rules(design.limits) for body in rule.needs}
    return tuple(body for body in Body if body in needed or body is Body.HEIGHT)


def _range(value: BodyValue, unit: Unit) -> str:
    if value.high_cm - value.low_cm <= HAIR:
        return ""
    return f"{_printed(value.low_cm, unit)} to {_printed(value.high_cm, unit)}"


def _printed(length_cm: float, unit: Unit) -> str:
    """A finished length as it is printed, in one unit, which is left out."""
    if unit is Unit.IN:
        return in_fractions(length_cm / unit.to_cm(1.0), 4)
    return f"{round_half_up(length_cm, 0.5):.1f}"


def gauge_parts(design: Design, gauge: OwnGauge) -> Iterator[RenderableType]:
    """The maker's gauge against the pattern's."""
    over, span = design.unit.gauge_span
    yield heading(f"Your gauge, stitches and rows to {span}")
    rows = [
        [
            fabric.name,
            f"{over * own.stitches_per_cm:.4g} and {over * own.rows_per_cm:.4g}",
            f"the pattern has {over * fabric.stitches_per_cm:.4g} and {over * fabric.rows_per_cm:.4g}",
        ]
        for fabric, own in gauge.given
    ]
    yield columns(rows)
    if gauge.alike:
        yield columns(
            [
                [
                    f"You are taken to work {listed(gauge.alike)} as much tighter or looser; "
                    "swatch each and give it with --gauge 'NAME: ...' where it matters."
                ]
            ]
        )


def ease_parts(fits: Sequence[SizeFit], unit: Unit) -> Iterator[RenderableType]:
    """What is to spare at each point in each size, and how each rule answers."""
    yield heading(f"To spare, in {unit.words}")
    for some in _side_by_side([_eases(fit, unit) for fit in fits], max(map(len, EASES.values()))):
        yield columns(list(zip(["", *EASES.values()], *some, strict=True)), right=range(1, len(some) + 1))
    yield columns(
        [["! stops, ~ to mind, ? not known. Too much is no good either: see what is said of the size."]]
    )


def _eases(fit: SizeFit, unit: Unit) -> list[Text]:
    """A size's column: its name, then what is to spare by each of `EASES`."""
    points = {point.code: point for point in fit.points}
    return [Text(f"{fit.name} "), *(_ease(points[code], unit) for code in EASES)]


def _side_by_side(found: Sequence[Sequence[Text]], words: int) -> Iterator[Sequence[Sequence[Text]]]:
    """The columns in tables no wider than a line, whose first column is ``words`` wide."""
    room = LINE - 2 - words
    table: list[Sequence[Text]] = []
    taken = 0
    for column in found:
        width = 2 + max(len(cell) for cell in column)
        if table and taken + width > room:
            yield table
            table, taken = [], 0
        table.append(column)
        taken += width
    yield table


def _ease(point: Point, unit: Unit) -> Text:
    figure = "-" if point.ease_cm is None else _short(point.ease_cm, unit)
    style = STYLES[SEVERITIES[point.answer]] if point.answer is not Answer.GOOD else ""
    return Text(f"{figure}{MARKS[point.answer]}", style=style)


def _short(length_cm: float, unit: Unit) -> str:
    """To 1/8 in or 0.1 cm; to a whole one where that would be wider than a column."""
    if unit is Unit.IN:
        return in_fractions(length_cm / unit.to_cm(1.0), 8)
    rounded = round_half_up(length_cm, 0.1)
    return f"{rounded:.1f}" if abs(rounded) < 100 else f"{round_half_up(length_cm, 1):.0f}"


def _verdicts(fitting: Fitting, show_all: bool) -> Iterator[RenderableType]:
    """The advised size's findings in full, the others' in a line, or all in full."""
    for fit in fitting.fits:
        in_full = show_all or fit is fitting.advised
        worst = fit.told[0].severity if fit.told else Severity.GOOD
        line = Text(f"Size {fit.name}: ", style="bold")
        line.append(worst.value, style=STYLES[worst])
        line.append(" as far as is known" if fit.unknown else "", style="not bold")
        codes = ", ".join(dict.fromkeys(each.code for each in fit.told))
        line.append(f" ({codes})" if codes and not in_full else "", style="not bold")
        yield line
        if in_full and fit.told:
            yield columns(
                [
                    [Text(each.severity.value, style=STYLES[each.severity]), each.code, each.sentence]
                    for each in fit.told
                ]
            )


def _advised(design: Design, fitting: Fitting) -> Iterator[RenderableType]:
    yield Text()
    name = fitting.advised.name
    work = f"As far as is known, work size {name}" if fitting.advised.unknown else f"Work size {name}"
    if fitting.right:
        yield heading(f"{work}.")
    elif fitting.wearable:
        yield heading(f"{work}, and mind what is said of it.")
    else:
        yield heading(f"No size fits as it is; size {name} comes nearest.")
    if fitting.other_sizes:
        sizes = listed(fitting.other_sizes)
        yield columns([[f"What is not measured leaves it open: it could be {sizes} as well. Measure it."]])
    if fitting.right:
        return
    if fitting.advice is None:
        yield columns([["Nothing small makes it right."]])
        return
    yield from advice_parts(design, fitting.advice)


def advice_parts(design: Design, advice: Advice) -> Iterator[RenderableType]:
    """The changed counts, what they do, and what the checks say of them."""
    before, after = advice.before.made, advice.after.made
    size = before.size.name
    if advice.right:
        yield heading(f"The smallest changes found that make size {size} right")
    else:
        yield heading(f"Nothing small makes it right; this would make size {size} better")
    changes = count_changes(before.size, after.size, design)
    yield columns([["-", each.words] for each in changes])
    told = ", ".join(each.words(Tape(design.unit)) for each in effects(before, after))
    yield columns([[f"Together: {told}."]] if told else [["Together they change no length by 0.05 cm."]])
    left = {each.code: each.severity for each in reversed(advice.after.told)}
    if left:
        words = listed(f"{code} ({severity})" for code, severity in reversed(left.items()))
        yield columns([[f"Checked again; still there: {words}."]])
    else:
        yield columns([["Checked again: nothing is left that stops or is to be minded for this wearer."]])


def instead_parts(design: Design, found: Sequence[Instead], gauge: OwnGauge) -> Iterator[RenderableType]:
    """Which size to work at a maker's gauge to come out right, for each size of the pattern."""
    yield heading(f"{design.title}, {design.construction} ({design.path})")
    yield Text()
    yield from gauge_parts(design, gauge)
    yield Text()
    yield heading("What each size comes to, on the wearer it is meant for")
    header: list[Text | str] = ["size", "as it is", "work instead", "which is then"]
    rows: list[list[Text | str]] = [
        [
            each.meant,
            Text(each.as_it_is.verdict.value, style=STYLES[each.as_it_is.verdict]),
            each.instead.name,
            Text(each.instead.verdict.value, style=STYLES[each.instead.verdict]),
        ]
        for each in found
    ]
    yield columns([header, *rows])
    yield Text()


def finished_parts(design: Design, fits: Sequence[SizeFit]) -> Iterator[RenderableType]:
    """The finished lengths of each size as it is made and as the pattern has it."""
    for fit in fits:
        yield heading(f"Size {fit.name} finished, in {design.unit.words}")
        pattern = {each.key: each.length_cm for each in made(design, fit.made.size).garment.finished}
        header: list[Text | str] = ["", "at your gauge", "in the pattern"]
        rows: list[list[Text | str]] = [
            [
                each.name,
                _printed(each.length_cm, design.unit),
                _printed(pattern[each.key], design.unit),
            ]
            for each in fit.made.garment.finished
        ]
        yield columns([header, *rows], right=(1, 2))
        yield Text()
