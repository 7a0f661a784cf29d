"""What every sheet has in common: the setting it is drawn in, and the page made round it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from schematics.checks.evaluation import SEVERITIES, Result, worst
from schematics.checks.finding import Severity
from schematics.design.design import Design
from schematics.design.guessed import GUESSED
from schematics.drawing.ink.marks import Group
from schematics.drawing.ink.page import TitleBlock, page_groups
from schematics.drawing.ink.sheet import Paper, Sheet

_GUESS = "* "

_VERDICTS = {
    Severity.STOP: "does not work yet",
    Severity.MIND: "works, mind the notes",
    Severity.GOOD: "all good",
}


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Setting:
    """A design worked out in all its sizes, and the paper and scale (1:``scale``) all sheets share.

    Compared by identity, so that what all sizes of a setting share can be remembered for it.
    """

    design: Design
    results: tuple[Result, ...]
    paper: Paper
    scale: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawing:
    """What one sheet shows inside its frame, before it has a number.

    ``scale`` is that of the drawing where it is not the setting's, and None where nothing on the
    sheet is to scale; ``unplaced`` names what found no room.
    """

    groups: tuple[Group, ...]
    title: str
    description: str
    scale: int | None
    unplaced: tuple[str, ...] = ()


def finish(setting: Setting, drawing: Drawing, result: Result | None, number: int, total: int) -> Sheet:
    """The drawing on its page: frame, cautions, title block; ``result`` is None for a sheet of all sizes."""
    design = setting.design
    results = setting.results if result is None else (result,)
    title = TitleBlock(
        design=design.title,
        sheet=drawing.title,
        size="All sizes" if result is None else f"Size {result.size.name}",
        wearer=", ".join(size.name for size in design.sizes) if result is None else result.wearer.label,
        verdict=_VERDICTS[worst(each.verdict for each in results)],
        findings=_tally(results),
        gauge_heading=design.terms.text(_gauge_heading(design)),
        gauges=_gauges(design),
        units="cm and inches",
        terms=f"{design.terms.value} terms",
        date=design.date.isoformat() if design.date else "undated",
        number=number,
        total=total,
        scale=drawing.scale,
    )
    whose = "all sizes" if result is None else f"size {result.size.name}"
    return Sheet(
        paper=setting.paper,
        scale=drawing.scale,
        title=f"{design.title}, {whose}: {drawing.title}",
        description=drawing.description,
        groups=(*drawing.groups, *page_groups(setting.paper, title)),
        unplaced=drawing.unplaced,
    )


def _tally(results: Sequence[Result]) -> str:
    """How many findings of each severity, worst first: ``1 stop, 2 mind, 11 good``."""
    severities = [finding.severity for result in results for finding in result.findings]
    counts = [(severities.count(each), each) for each in SEVERITIES]
    return ", ".join(f"{count} {severity}" for count, severity in counts if count)


def _gauges(design: Design) -> tuple[tuple[str, str], ...]:
    """Each fabric's name and gauge: ``rib``, ``10 sts x 11 rows over 10 x 10 cm``; a star for a guess."""
    per = design.unit.to_cm(1)
    return tuple(
        (
            f"{_GUESS if fabric.swatch.guessed else ''}{fabric.name}",
            f"{fabric.swatch.stitches:.4g} sts x {fabric.swatch.rows:.4g} rows over "
            f"{fabric.swatch.width_cm / per:.4g} x {fabric.swatch.height_cm / per:.4g} {design.unit}",
        )
        for fabric in design.parts.fabrics.values()
    )


def _gauge_heading(design: Design) -> str:
    guess = any(fabric.swatch.guessed for fabric in design.parts.fabrics.values())
    return f"Gauge, washed; {_GUESS}{GUESSED}" if guess else "Gauge, washed"
