"""What `schematics hang` works out of each size: both models, and what they find."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from schematics.analysis.drape.plane_hang import Lengths, plane_lengths
from schematics.analysis.yarn.yarn_report import unweighed_words
from schematics.checks.cloth_findings import (
    ClothLength,
    DecidedFinding,
    HangLengths,
    TwoModels,
    cloth_findings,
)
from schematics.checks.evaluation import SEVERITIES, Result, case_of, worst
from schematics.checks.finding import Severity
from schematics.checks.rules import hang
from schematics.checks.wording import listed, sentence_case
from schematics.crochet.fabric import Fabric
from schematics.design.design import Design, Parts
from schematics.garment.cloth.cloth_error import ClothError
from schematics.garment.cloth.draping import Hung
from schematics.garment.cloth.material import ROUGHEST, SMOOTHEST, Feel, unmeasured
from schematics.garment.cloth.ranges import CORNERS, HungRanges, Ranged, ranges
from schematics.garment.cloth.worn_heights import Answers
from schematics.wearer.body_figure import FigureSize
from schematics.wearer.proportions import proportioned

NO_HEIGHT = (
    "The wearer's height is not known, so there is no body to hang it on: give height in the size's wearer "
    "block, or a child's age."
)
TOO_SHORT = "The garment is too short to hang on a body."
PLANE_ALONE = "so the plane model alone is told"

Hang = Callable[[Result, FigureSize, tuple[Feel, ...]], HungRanges]
"""Hangs a size on a body, with the usual feel and with those."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SizeHang:
    """One size: its ``lengths``, the ``findings`` on them, worst first, and how it ``hung``.

    ``lengths`` is None where neither model has any, ``hung`` where it is not hung on cloth; ``without`` then
    says why.
    """

    result: Result
    figure: FigureSize | None = None
    lengths: HangLengths | None = None
    hung: Hung | None = None
    findings: tuple[DecidedFinding, ...] = ()
    without: str = ""

    @property
    def verdict(self) -> Severity:
        """The worst severity of the findings."""
        return worst(each.finding.severity for each in self.findings)


def size_hangs(
    design: Design,
    results: Sequence[Result],
    advance: Callable[[float], None] = lambda _share: None,
    hang: Hang | None = None,
) -> tuple[SizeHang, ...]:
    """How each of the sizes hangs; ``advance`` is given the share that is done, 0 to 1."""
    hangs = []
    for number, result in enumerate(results, start=1):
        hangs.append(_size_hang(design, result, hang or _on_cloth))
        advance(number / len(results))
    return tuple(hangs)


def _on_cloth(result: Result, size: FigureSize, corners: tuple[Feel, ...]) -> HungRanges:
    return ranges(result.garment, size, corners=corners)


def _size_hang(design: Design, result: Result, hang: Hang) -> SizeHang:
    body = proportioned(result.wearer)
    if body is None:
        return SizeHang(result=result, without=NO_HEIGHT)
    plane = plane_lengths(design, result, body.size)
    if plane is None:
        return SizeHang(result=result, figure=body.size, without=TOO_SHORT)
    without = _unmeasured(design.parts)
    on_cloth: HungRanges | None = None
    if not without:
        try:
            on_cloth = hang(result, body.size, corners_of(design.parts))
        except ClothError as error:
            without = f"It cannot be hung on cloth, {PLANE_ALONE}: {error}."
    lengths = hang_lengths(result, body.size, plane, on_cloth)
    findings = cloth_findings(case_of(design, result), lengths)
    return SizeHang(
        result=result,
        figure=body.size,
        lengths=lengths,
        hung=None if on_cloth is None else on_cloth.settled.hung,
        findings=tuple(sorted(findings, key=lambda each: SEVERITIES.index(each.finding.severity))),
        without=without,
    )


def _fabrics(parts: Parts) -> tuple[Fabric, ...]:
    return tuple(parts.fabrics.values())


def _unmeasured(parts: Parts) -> str:
    """Why the cloth model cannot be used, in a sentence; empty where it can."""
    unweighed, rigid = unmeasured(_fabrics(parts))
    reasons = [unweighed_words(unweighed)] if unweighed else []
    if rigid:
        names, gives = listed(map(repr, rigid)), "gives" if len(rigid) == 1 else "give"
        reasons.append(f"how far {names} {gives} is not told (measure its stretch)")
    return f"{sentence_case(' and '.join(reasons))}, {PLANE_ALONE}." if reasons else ""


def corners_of(parts: Parts) -> tuple[Feel, ...]:
    """The ends of what is not known: of friction alone where all bending lengths are measured."""
    if all(each.weighed.bending_length_cm for each in _fabrics(parts)):
        return tuple(Feel(friction=each) for each in (SMOOTHEST, ROUGHEST))
    return CORNERS


def stiffness_guessed(parts: Parts) -> tuple[str, ...]:
    """The fabrics whose bending length was not measured."""
    return tuple(each.name for each in _fabrics(parts) if not each.weighed.bending_length_cm)


def hang_lengths(
    result: Result, size: FigureSize, plane: Lengths, on_cloth: HungRanges | None
) -> HangLengths:
    """Both models side by side; the knee is that of the worst end of the size, see `hang`."""
    cloth = {} if on_cloth is None else dict(_cloth_lengths(on_cloth, size.nape_height_cm))
    pairs = {name: TwoModels(length, cloth.get(name)) for name, length in plane.items()}
    figures = {finding.code: finding.figures for finding in result.findings}
    knee, waist = figures[hang.KNEE], figures[hang.WHERE]
    return HangLengths(
        **pairs,
        knee_cm=knee["worn_cm"] + knee["clearance_cm"],
        waist_cm=waist["waist_cm"],
        shoulder_cm=size.shoulder_breadth_cm / 2,
    )


def _cloth_lengths(on_cloth: HungRanges, nape_cm: float) -> Iterator[tuple[str, ClothLength]]:
    def below(ranged: Ranged, height: Callable[[Answers], float]) -> ClothLength:
        """From a height above the floor to a length below the nape: its ends change places."""
        ends = (ranged.highest, ranged.usual, ranged.lowest)
        return ClothLength(*(nape_cm - height(each) for each in ends))

    def in_order(ranged: Ranged, length: Callable[[Answers], float]) -> ClothLength:
        return ClothLength(*map(length, (ranged.lowest, ranged.usual, ranged.highest)))

    down, level = on_cloth.down, on_cloth.level
    yield "back", below(down, lambda each: each.hem_back_cm)
    yield "side", below(down, lambda each: each.hem_side_cm)
    yield "front", below(down, lambda each: each.hem_front_cm)
    yield "lowest", below(down, lambda each: each.hem_lowest_cm)
    yield "level_back", below(level, lambda each: each.hem_back_cm)
    yield "level_front", below(level, lambda each: each.hem_front_cm)
    yield "neck_back", in_order(down, lambda each: each.neck_back_cm)
    yield "neck_beside", in_order(down, lambda each: each.neck_beside_cm)
