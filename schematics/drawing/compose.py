"""What every sheet has in common: the setting it is drawn in, and the page made round it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TypeAlias

from schematics.checks.evaluation import WORRIES, Result
from schematics.checks.finding import Finding
from schematics.design.design import Design
from schematics.design.guessed import GUESSED
from schematics.drawing.ink.marks import Group
from schematics.drawing.ink.page import TitleBlock, page_groups
from schematics.drawing.ink.scale import FINE_STEPS, SCALES, STEPS
from schematics.drawing.ink.sheet import Paper, Sheet
from schematics.drawing.notes import stops_in_words

_GUESS = "* "

SheetScale: TypeAlias = tuple[int, Paper]
"""A scale and the paper, upright or turned, that a sheet may be tried at."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Setting:
    """A design worked out in all its sizes, and the paper its sheets are drawn on, upright or turned.

    ``scale`` (1:``scale``) is what all sheets share where that was asked for; None where each sheet has the
    largest at which what it shows fits. A ``draft`` need not have the very largest. With ``cloth`` sizes are
    hung on cloth, too. Compared by identity, so
    that what all sizes of a setting share can be remembered for it.
    """

    design: Design
    results: tuple[Result, ...]
    paper: Paper
    scale: int | None = None
    draft: bool = False
    cloth: bool = False

    @property
    def scales(self) -> tuple[int, ...]:
        """Scales a sheet may have, largest first; those of a common one start with it."""
        return STEPS if self.scale is None else tuple(each for each in SCALES if each >= self.scale)

    @property
    def papers(self) -> tuple[Paper, ...]:
        """The paper upright, then turned; upright alone where sheets are to be compared."""
        return (self.paper, self.paper.turned) if self.scale is None else (self.paper,)

    @property
    def sheet_scales(self) -> tuple[SheetScale, ...]:
        """Every scale on every paper, best first."""
        return self._on_papers(self.scales)

    @property
    def fine_sheet_scales(self) -> tuple[SheetScale, ...]:
        """The same in finer steps where sheets are not to be compared."""
        return self._on_papers(FINE_STEPS) if self.scale is None else self.sheet_scales

    def _on_papers(self, scales: Sequence[int]) -> tuple[SheetScale, ...]:
        return tuple((scale, paper) for scale in scales for paper in self.papers)


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawing:
    """What one sheet shows inside its frame, before it has a number.

    ``scale`` is None where nothing on the sheet is to scale, ``paper`` where it is the setting's;
    ``unplaced`` names what had no room. ``findings`` are for this sheet, besides the checks of
    its sizes.
    """

    groups: tuple[Group, ...]
    title: str
    description: str
    scale: int | None
    paper: Paper | None = None
    unplaced: tuple[str, ...] = ()
    findings: tuple[Finding, ...] = ()


def finish(setting: Setting, drawing: Drawing, result: Result | None, number: int, total: int) -> Sheet:
    """The drawing on its page: frame and title block; ``result`` is None for a sheet of all sizes."""
    design = setting.design
    results = setting.results if result is None else (result,)
    paper = drawing.paper or setting.paper
    title = TitleBlock(
        design=design.title,
        sheet=drawing.title,
        size="All sizes" if result is None else f"Size {result.size.name}",
        wearer=", ".join(size.name for size in design.sizes) if result is None else result.wearer.label,
        findings=tally(results, drawing.findings),
        gauge_heading=design.terms.text(gauge_heading(design)),
        gauges=gauges(design),
        terms=f"{design.terms.value} terms",
        date=design.date.isoformat() if design.date else "undated",
        number=number,
        total=total,
        scale=drawing.scale,
    )
    whose = "all sizes" if result is None else f"size {result.size.name}"
    stops = stops_in_words(results, design.terms)
    return Sheet(
        paper=paper,
        scale=drawing.scale,
        title=f"{design.title}, {whose}: {drawing.title}",
        description=" ".join(filter(None, (stops, drawing.description))),
        groups=(*drawing.groups, *page_groups(paper, title)),
        unplaced=drawing.unplaced,
    )


def tally(results: Sequence[Result], more: Sequence[Finding] = ()) -> str:
    """What the checks found, worst first: ``1 stop, 2 mind of 24 checks``, ``24 checks, none to mind``."""
    severities = [
        each.severity for findings in (*(result.findings for result in results), more) for each in findings
    ]
    checks = f"{len(severities)} check{'' if len(severities) == 1 else 's'}"
    counts = [(severities.count(each), each) for each in WORRIES]
    worries = ", ".join(f"{count} {severity}" for count, severity in counts if count)
    return f"{worries} of {checks}" if worries else f"{checks}, none to mind"


def gauges(design: Design) -> tuple[tuple[str, str], ...]:
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


def gauge_heading(design: Design) -> str:
    """What is written over the gauges; what a star means, where there is one."""
    guess = any(fabric.swatch.guessed for fabric in design.parts.fabrics.values())
    return f"Gauge, washed; {_GUESS}{GUESSED}" if guess else "Gauge, washed"
