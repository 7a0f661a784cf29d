"""What the changes do, as tables for the terminal."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator, Mapping, Sequence

from rich.console import RenderableType
from rich.padding import Padding
from rich.table import Table
from rich.text import Text

from schematics.analysis.sensitivity.effects import Effects, Length, Moved, Stand, effects
from schematics.analysis.sensitivity.swatch_changes import CHANGES, Change, Outlook, fabrics
from schematics.checks.evaluation import Result
from schematics.crochet.fabric import Fabric, Swatch
from schematics.design.design import Design
from schematics.document.table import STYLES, heading
from schematics.units import CM_PER_INCH, Unit, round_half_up

_STEP, _DECIMALS = {Unit.CM: 0.1, Unit.IN: 0.01}, {Unit.CM: 1, Unit.IN: 2}
"""What lengths are rounded to, and their decimals."""

_SHORT = {change: f"{change.by:+d} {change.counted.value.removesuffix('s')}" for change in CHANGES}
_STILL_CM = 0.005
"""What moves less is left blank."""


def sensitivity_parts(
    design: Design, results: Sequence[Result], worked: Sequence[Outlook]
) -> Iterator[RenderableType]:
    """A heading, then for each size and fabric what moves, and the findings whose verdict flips.

    Args:
        design: the design.
        results: its sizes as they are.
        worked: every change to every fabric, with the same sizes.
    """
    over = f"{4 if design.unit is Unit.IN else 10} {design.unit.value}"
    yield heading(f"{design.title}, {design.construction} ({design.path})")
    yield Text(
        f"What one stitch or row more or fewer in {over} of a swatch would do. The counts of "
        "the spec stay; stitches picked up along row ends follow the gauge. Lengths are in "
        f"{'inches' if design.unit is Unit.IN else 'cm'}; what does not move is left out."
    )
    for index, result in enumerate(results):
        for fabric in fabrics(design.parts):
            changed = {each.change: each for each in worked if each.fabric.name == fabric.name}
            outcomes = [
                (each.design, each.results[index]) if (each := changed.get(change)) else None
                for change in CHANGES
            ]
            yield Text()
            yield heading(f"Size {result.size.name}, swatch of {fabric.name}: {_used_for(design, fabric)}")
            yield from _fabric(design.unit, fabric, changed, effects(design, result, outcomes))
    yield Text()


def _used_for(design: Design, fabric: Fabric) -> str:
    parts = design.parts
    used = {
        "body": parts.body,
        "centre panel": parts.centre_panel,
        "neck band": parts.neck_band,
        "arm bands": parts.arm_bands,
    }
    return ", ".join(part for part, each in used.items() if each.name == fabric.name)


def _fabric(
    unit: Unit, fabric: Fabric, changed: Mapping[Change, Outlook], found: Effects
) -> Iterator[RenderableType]:
    swatches = [changed[change].swatch if change in changed else None for change in CHANGES]
    rows: list[list[Text | str]] = [
        ["", "now", *_SHORT.values()],
        ["stitches in the swatch", *_counts(fabric.swatch, swatches, lambda each: each.stitches)],
        ["rows in the swatch", *_counts(fabric.swatch, swatches, lambda each: each.rows)],
        *(_length_row(unit, each) for each in found.lengths),
    ]
    codes = Counter(each.code for each in found.findings)
    rows += [_finding_row(unit, each, place=codes[each.code] > 1) for each in found.findings]
    grid = Table.grid(padding=(0, 1))
    for index in range(len(rows[0])):
        grid.add_column(no_wrap=True, justify="right" if index else "left")
    for row in rows:
        grid.add_row(*row)
    yield Padding(grid, (0, 0, 0, 2), expand=False)
    for moved in found.findings:
        for change, stand in zip(CHANGES, moved.changed, strict=True):
            if stand is not None and _flips(moved, stand):
                yield Padding(_flip_line(change, moved, stand), (0, 0, 0, 4), expand=False)


def _counts(swatch: Swatch, changed: Sequence[Swatch | None], count: Callable[[Swatch], float]) -> list[str]:
    now, *others = ["-" if each is None else f"{count(each):.4g}" for each in (swatch, *changed)]
    return [now, *("" if each == now else each for each in others)]


def _length_row(unit: Unit, length: Length) -> list[Text | str]:
    apart = [None if each is None else each - length.now_cm for each in length.changed_cm]
    return [length.name, _shown(length.now_cm, unit), *(_shift(each, unit) for each in apart)]


def _finding_row(unit: Unit, moved: Moved, *, place: bool) -> list[Text | str]:
    where = f" {moved.place.removeprefix('seams ').removeprefix('seam ')}" if place else ""
    now = moved.now
    cells = [
        "-" if each is None else "" if not now.differs(each) else _stand(unit, each, told=_flips(moved, each))
        for each in moved.changed
    ]
    name = f"{moved.code}{where}, {moved.words}" if moved.words else f"{moved.code}{where}"
    return [name, _stand(unit, now, told=True), *cells]


def _stand(unit: Unit, stand: Stand, *, told: bool) -> Text:
    cell = Text("" if stand.figure_cm is None else _shown(stand.figure_cm, unit))
    if told:
        severity = stand.finding.severity
        cell.append(f" {severity.value}" if cell else severity.value, style=STYLES[severity])
    return cell


def _flip_line(change: Change, moved: Moved, stand: Stand) -> Text:
    before, after = moved.now.finding.severity, stand.finding.severity
    line = Text(f"{change.words}: {moved.code} from {before.value} to ")
    line.append(after.value, style=STYLES[after])
    return line.append(f": {stand.finding.sentence}")


def _flips(moved: Moved, stand: Stand) -> bool:
    return stand.finding.severity is not moved.now.finding.severity


def _shift(shift_cm: float | None, unit: Unit) -> str:
    if shift_cm is None:
        return "-"
    if abs(shift_cm) < _STILL_CM:
        return ""
    return f"{'+' if shift_cm > 0 else ''}{_shown(shift_cm, unit)}"


def _shown(length_cm: float, unit: Unit) -> str:
    value = round_half_up(length_cm / CM_PER_INCH if unit is Unit.IN else length_cm, _STEP[unit])
    return f"{value:.{_DECIMALS[unit]}f}"
