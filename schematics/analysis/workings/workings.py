"""Every figure of a size worked out by hand, from swatches and counts to lengths, angles and areas."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from schematics.analysis.workings.arithmetic import Sum, number, smallest, total
from schematics.analysis.workings.flared_by_hand import Flared
from schematics.analysis.workings.folded_by_hand import Folded
from schematics.analysis.workings.mitred_by_hand import Mitred
from schematics.analysis.workings.ruler import Ruler
from schematics.analysis.workings.working_sheet import Run, Section, Shape, Sheet, Step
from schematics.checks.evaluation import Result
from schematics.design.design import Design
from schematics.garment.constructions import CONSTRUCTIONS
from schematics.garment.constructions.base import STITCHES
from schematics.garment.garment import Finished
from schematics.wearer.body import Body

SHAPES: Mapping[str, Shape] = MappingProxyType({"flared": Flared(), "mitred": Mitred(), "folded": Folded()})
"""How each construction is worked out, by its word."""


def workings(design: Design, worked: Result) -> tuple[Section, ...]:
    """The working sheet of one size; a step uses only the spec and earlier steps.

    Of a construction that is not in `SHAPES`, the sheet has the measurements that are single counts.
    """
    sheet = Sheet(design=design, worked=worked, ruler=Ruler.of(design.parts, design.unit))
    shape = SHAPES.get(design.construction)
    _finished(sheet, shape)
    sections = [sheet.section("Finished measurements")]
    if shape is not None:
        _shape(sheet, shape)
        sections.append(sheet.section("Shape and areas"))
        _openings(sheet, shape)
        sections.append(sheet.section("How far neck and arm bands open"))
        _freedom(sheet, shape)
        sections.append(sheet.section("Reach, spread and room"))
    return tuple(sections)


def _finished(sheet: Sheet, shape: Shape | None) -> None:
    derived, lengths = (shape.derived(sheet), dict(shape.lengths(sheet))) if shape else ({}, {})
    if shape:
        lengths["neck.edge"] = total(_length(sheet, run) for run in _neck_runs(sheet, shape)), ""
    keys = _spec_keys(sheet.design)
    for each in sheet.worked.garment.finished:
        length, source = lengths.get(each.key) or (_single_count(sheet, each), keys.get(each.key, ""))
        if length is None:
            continue
        count = derived.get(each.key)
        sheet.add(
            Step(
                key=each.key,
                name=each.name,
                sum=length,
                unit=sheet.length_unit,
                source="" if count else source,
                swatch=each.fabric or "",
                derived=count,
                finished=True,
            )
        )


def _single_count(sheet: Sheet, finished: Finished) -> Sum | None:
    """The length of a measurement that is one count of one fabric; None of any other."""
    if finished.count is None or finished.counted is None or finished.fabric is None:
        return None
    parts = sheet.design.parts
    fabrics = {each.name: each for each in (parts.body, parts.centre_panel, parts.neck_band, parts.arm_bands)}
    count = number(finished.count, finished.counted.value)
    return sheet.ruler.length(count, finished.counted, fabrics[finished.fabric])


def _spec_keys(design: Design) -> dict[str, str]:
    """The key within a size of the count behind a finished measurement."""
    counts = CONSTRUCTIONS[design.construction].counts
    return {finished: count for count, finished in counts.items()}


def _shape(sheet: Sheet, shape: Shape) -> None:
    shape.shape(sheet)
    for key, name, long, wide in (
        ("area.panel", "area of the centre panel", "panel.length", "panel.width"),
        ("area.neck_band", "area of the neck band", "neck_band.length", "neck_band.depth"),
        ("area.arm_band", "area of one arm band", "arm_band.length", "arm_band.depth"),
    ):
        sheet.area(key, name, sheet[long] * sheet[wide], "length times width or depth")


def _openings(sheet: Sheet, shape: Shape) -> None:
    parts = sheet.design.parts
    arm = shape.arm(sheet)
    sheet.length("arm.edge", "edge under an arm band", _length(sheet, arm), "at rest")
    for key, runs, band in (
        ("neck", _neck_runs(sheet, shape), parts.neck_band),
        ("arm", (arm,), parts.arm_bands),
    ):
        edge, ribbing = sheet[f"{key}.edge"], sheet[f"{key}_band.length"]
        sheet.length(
            f"{key}.rest", f"{key} opening at rest", smallest([edge, ribbing]), "the tighter decides"
        )
        edge = sheet.length(
            f"{key}.edge_full",
            f"edge under the {key} band, at full stretch",
            total(_length(sheet, run) * _give(run.fabric.stretch(run.counted)) for run in runs),
            "each length with what its fabric gives that way",
        )
        ribbing = sheet.length(
            f"{key}.band_full",
            f"{key} band at full stretch",
            ribbing * _give(band.stretch_along),
            f"the length with what {band.name} gives along",
        )
        sheet.length(
            f"{key}.full", f"{key} opening at full stretch", smallest([edge, ribbing]), "the tighter decides"
        )


def _freedom(sheet: Sheet, shape: Shape) -> None:
    garment, two = sheet.worked.garment, number(2)
    if sheet.worked.freedom is not None:
        shape.ways(sheet)
        depth = sheet["arm_band.depth"]
        with_band = {key: sheet[f"way.{key}"] + depth for key in ("reach", "back", "front")}
        source = "with the depth of the band"
        sheet.length("reach", "reach, nape to band edge", with_band["reach"], source)
        for key in ("back", "front"):
            sheet.length(
                f"spread.{key}",
                f"spread across the {key}, band edge to band edge",
                two * with_band[key],
                source,
            )
    armhole = sheet.worked.wearer.get(Body.ARMHOLE_DEPTH)
    if garment.girths and armhole is not None:
        shape.girth(sheet)
        top, hem = sheet["girth.top"], sheet["girth.hem"]
        depth = sheet.given(armhole.cm)
        widest = sheet["girth.widest" if "girth.widest" in sheet.steps else "drop"]
        between = depth.value < widest.value and top.value < hem.value
        at = top + (hem - top) * depth / widest if between else hem
        source = f"{depth.text} below the neck edge, the armhole depth" if between else "as at the hem"
        sheet.length("girth.chest", "round the body at chest depth", at, source)


def _neck_runs(sheet: Sheet, shape: Shape) -> tuple[Run, ...]:
    panel = Run(
        count=number(sheet.size.panel_stitches, "sts"),
        counted=STITCHES,
        fabric=sheet.design.parts.centre_panel,
    )
    return (*shape.neck(sheet), panel)


def _length(sheet: Sheet, run: Run) -> Sum:
    return sheet.ruler.length(run.count, run.counted, run.fabric)


def _give(stretch: float) -> Sum:
    return number(1) + number(stretch)
