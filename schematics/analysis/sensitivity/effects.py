"""What a change does to one size: measurements that come out otherwise, findings that move or flip."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from schematics.checks import EXPLANATIONS
from schematics.checks.evaluation import Result, case_of
from schematics.checks.finding import Finding
from schematics.checks.rules.judging import judges
from schematics.design.design import Design
from schematics.units import NEAR


@dataclass(frozen=True, slots=True, kw_only=True)
class FindingFigure:
    """One finding, and the length it is about, where there is one."""

    finding: Finding
    figure_cm: float | None

    def differs(self, other: FindingFigure) -> bool:
        """Whether the verdict or the length is another."""
        if self.finding.severity is not other.finding.severity:
            return True
        one, two = self.figure_cm, other.figure_cm
        if one is None or two is None:
            return one is not two
        return abs(one - two) > NEAR


@dataclass(frozen=True, slots=True, kw_only=True)
class Length:
    """One finished measurement now, and under each change; None where the change is passed over."""

    key: str
    name: str
    now_cm: float
    changed_cm: tuple[float | None, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Moved:
    """One finding now, and under each change; ``words`` say what its length is."""

    code: str
    place: str
    words: str
    now: FindingFigure
    changed: tuple[FindingFigure | None, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Effects:
    """What the changes do to one size: only what moves under one of them."""

    lengths: tuple[Length, ...]
    findings: tuple[Moved, ...]


def effects(design: Design, now: Result, changed: Sequence[tuple[Design, Result] | None]) -> Effects:
    """The effects of each change on one size, in the order of ``changed``."""
    lengths = [finished_cm(now), *(None if each is None else finished_cm(each[1]) for each in changed)]
    first, *rest = lengths
    names = {each.key: each.name for each in now.garment.finished} | {"drop": "centre back, neck to hem"}
    figures = _finding_figures(design, now)
    others = [None if each is None else _finding_figures(*each) for each in changed]
    return Effects(
        lengths=tuple(
            Length(
                key=key,
                name=names[key],
                now_cm=length,
                changed_cm=tuple(None if each is None else each[key] for each in rest),
            )
            for key, length in (first or {}).items()
            if any(each is not None and abs(each[key] - length) > NEAR for each in rest)
        ),
        findings=tuple(
            Moved(
                code=key[0],
                place=key[1],
                words=EXPLANATIONS[key[0]].tracked[1],
                now=figure,
                changed=tuple(None if each is None else each.get(key) for each in others),
            )
            for key, figure in figures.items()
            if any(each is not None and key in each and figure.differs(each[key]) for each in others)
        ),
    )


def finished_cm(result: Result) -> dict[str, float]:
    """The finished measurements by key, the centre-back length among them as a pattern prints it."""
    garment = result.garment
    return {each.key: each.length_cm for each in garment.finished} | {"drop": garment.drop_cm}


def _finding_figures(design: Design, result: Result) -> dict[tuple[str, str], FindingFigure]:
    case, ruled = case_of(design, result), judges(design.limits)
    figures: dict[tuple[str, str], FindingFigure] = {}
    for finding in result.findings:
        name, _ = EXPLANATIONS[finding.code].tracked
        if finding.code in ruled:
            figure: float | None = float(ruled[finding.code].figure(name, case.inputs))
        else:
            figure = finding.figures.get(name)
        if figure is not None and not math.isfinite(figure):
            figure = None
        figures[finding.code, finding.place] = FindingFigure(finding=finding, figure_cm=figure)
    return figures
