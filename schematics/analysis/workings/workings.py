"""Every figure of a size worked out by hand, from swatches and counts to lengths, angles and areas."""

from __future__ import annotations

from itertools import groupby

from schematics.analysis.workings.ruler import Ruler
from schematics.analysis.workings.written import SheetPart, Writer
from schematics.analysis.yarn.need import PartYarn, yarn_need
from schematics.checks.evaluation import Result
from schematics.design.design import Design
from schematics.garment.amounts import ROWS, STITCHES, Given, Laid, total
from schematics.garment.constructions import CONSTRUCTIONS
from schematics.garment.constructions.base import counts_of
from schematics.garment.constructions.by_hand import HandSheet
from schematics.garment.garment import Piece
from schematics.wearer.body import Body
from schematics.wearer.expr import Expr, least


def workings(design: Design, worked: Result) -> tuple[SheetPart, ...]:
    """The working sheet of one size; a step uses only the spec and earlier steps."""
    construction, size = CONSTRUCTIONS[design.construction], worked.size
    sheet = HandSheet(
        size=size,
        parts=design.parts,
        garment=worked.garment,
        formulas=construction.formulas_of(size.body, design.parts),
        counts=counts_of(size),
        paths=worked.freedom.paths if worked.freedom else {},
    )
    writer = Writer(
        counts=sheet.counts,
        ruler=Ruler.of(design.parts, design.unit),
        spec_keys={finished: count for count, finished in construction.counts.items()},
    )
    sections: list[SheetPart] = []

    def close(title: str) -> None:
        """Write down what was put on the sheet since the last section, under a title."""
        new = tuple(sheet.steps.values())[sum(len(section.steps) for section in sections) :]
        sections.append(SheetPart(title=title, steps=tuple(map(writer.step, new))))

    for measure in sheet.formulas.measures:
        sheet.add(measure)
    close("Finished measurements")
    construction.shape_by_hand(sheet)
    sheet.add(sheet.formulas.drop)
    sheet.add(sheet.formulas.longest_drop)
    _areas(sheet)
    close("Shape and areas")
    _openings(sheet)
    close("How far neck and arm bands open")
    if sheet.paths:
        for path in construction.paths_by_hand(sheet):
            sheet.add(path)
        _freedom(sheet)
    armhole = worked.wearer.get(Body.ARMHOLE_DEPTH)
    if worked.garment.girths and armhole is not None:
        sheet.add(sheet.formulas.girth_top)
        sheet.add(sheet.formulas.girth_hem)
        construction.girth_by_hand(sheet)
        _girth(sheet, armhole.cm)
    close("Reach, spread and room")
    for part in yarn_need(design, worked.garment).parts:
        _yarn(sheet, part, worked.garment.piece(part.part))
    close("Yarn in the pieces, without joins and tails")
    return tuple(sections)


def _yarn(sheet: HandSheet, part: PartYarn, piece: Piece) -> None:
    """The stitches of a part, row by row, and their mass; nothing where they are not counted or weighed."""
    swatch, rows = part.fabric.weighed, piece.row_stitches
    if rows is None or swatch.mass_g is None:
        return
    key, times = part.part.replace(" ", "_"), piece.quantity
    name = f"the {part.part}" if times == 1 else f"both {part.part}s"
    runs: list[Expr] = []
    for stitches, same in groupby(rows):
        many = times * len(list(same))
        runs.append(Given(stitches, "sts") if many == 1 else Given(many, "") * Given(stitches, "sts"))
    counted = sheet.put(f"stitches.{key}", f"stitches of {name}", total(runs), "row by row", "sts")
    each = Given(swatch.mass_g, "g") / (Given(swatch.stitches, "sts") * Given(swatch.rows, ""))
    source = f"the mass of the swatch of {part.fabric.name} over its stitches times its rows, to each"
    sheet.put(f"mass.{key}", f"yarn in {name}", counted * each, source, "g")


_PANEL_AREA = "area.panel", "area of the centre panel"


def _areas(sheet: HandSheet) -> None:
    areas = [
        (*_PANEL_AREA, "panel.length", "panel.width"),
        ("area.neck_band", "area of the neck band", "neck_band.length", "neck_band.depth"),
        ("area.arm_band", "area of one arm band", "arm_band.length", "arm_band.depth"),
    ]
    if "panel.top" in sheet.steps:
        _panel_area(sheet)
        del areas[0]
    for key, name, long, wide in areas:
        sheet.put(key, name, sheet[long] * sheet[wide], "length times width or depth", "cm²")


def _panel_area(sheet: HandSheet) -> None:
    """Of a panel that tapers: trapezoids one above the other."""
    fabric, size = sheet.parts.centre_panel, sheet.size
    assert fabric.chart is not None
    rule, stitches = fabric.row_rule, size.panel_stitches
    setup, repeat, closing = fabric.chart.adds
    repeats = rule.repeats(size.panel_rows)
    areas = []
    for rows, added in (
        (rule.setup, setup), (rule.repeat * repeats, repeat * repeats), (rule.closing, closing),
    ):  # fmt: skip
        wide = (Given(stitches, "sts") + Given(stitches + added, "sts")) / 2
        if rows:
            areas.append(Laid(wide, STITCHES, fabric) * Laid(Given(rows, "rows"), ROWS, fabric))
        stitches += added
    words = "for set-up, repeats and closing: half of the stitches at both ends, times the rows"
    sheet.put(*_PANEL_AREA, total(areas), words, "cm²")


def _openings(sheet: HandSheet) -> None:
    formulas = sheet.formulas
    sheet.put("arm.edge", "edge under an arm band", formulas.arm.edge_cm.expr, "at rest")
    for key, ring in (("neck", formulas.neck), ("arm", formulas.arm)):
        edge, ribbing = sheet[f"{key}.edge"], sheet[f"{key}_band.length"]
        sheet.put(f"{key}.rest", f"{key} opening at rest", least(edge, ribbing), "the tighter decides")
        edge = sheet.put(
            f"{key}.edge_full",
            f"edge under the {key} band, at full stretch",
            ring.edge_full_cm.expr,
            "each length with what its fabric gives that way",
        )
        ribbing = sheet.put(
            f"{key}.band_full",
            f"{key} band at full stretch",
            ribbing * (1 + Given(ring.band.stretch_along, "")),
            f"the length with what {ring.band.name} gives along",
        )
        sheet.put(
            f"{key}.full", f"{key} opening at full stretch", least(edge, ribbing), "the tighter decides"
        )


def _freedom(sheet: HandSheet) -> None:
    if "way.reach" not in sheet.steps:
        return
    depth, source = sheet["arm_band.depth"], "with the depth of the band"
    sheet.put("reach", "reach, nape to band edge", sheet["way.reach"] + depth, source)
    for key in ("back", "front"):
        sheet.put(
            f"spread.{key}",
            f"spread across the {key}, band edge to band edge",
            2 * (sheet[f"way.{key}"] + depth),
            source,
        )


def _girth(sheet: HandSheet, armhole_cm: float) -> None:
    top, hem, depth = sheet["girth.top"], sheet["girth.hem"], Given(armhole_cm, "cm")
    widest = sheet["girth.widest" if "girth.widest" in sheet.steps else "drop"]
    if armhole_cm < sheet.value(widest) and sheet.value(top) < sheet.value(hem):
        at, words = top + (hem - top) * depth / widest, " below the neck edge, the armhole depth"
        sheet.put("girth.chest", "round the body at chest depth", at, (depth, words))
    else:
        sheet.put("girth.chest", "round the body at chest depth", hem, "as at the hem")
