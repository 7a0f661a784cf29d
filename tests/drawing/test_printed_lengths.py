"""One length has one figure in each unit wherever it is printed: on sheets, in tables and in sentences.

Only a sentence that holds two lengths against each other may be finer, where it would else misstate the
difference.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest

from schematics.analysis.grading_report import grading_document
from schematics.analysis.measurements import measurements
from schematics.analysis.sensitivity.sensitivity_tables import sensitivity_document
from schematics.analysis.workings.workings_tables import workings_document
from schematics.checks.evaluation import Result, evaluate
from schematics.design.design import Design
from schematics.document.document import Quantity, plain
from schematics.document.writers import file_content
from schematics.drawing.bare.rooms import cropped
from schematics.drawing.ink.marks import Group, Text
from schematics.drawing.ink.sheet import BareInk
from schematics.drawing.ink.svg import to_svg
from schematics.fitting.fit_report import finished_sections
from schematics.fitting.gauge import size_at_gauge
from schematics.fitting.page.fit_page import fit_page
from schematics.fitting.progress import piece_progress, row_stitches
from schematics.fitting.progress_report import OwnPiece, progress_document
from schematics.fitting.sizing import size_fit
from schematics.grading.grade import grade
from schematics.grading.reasons import rows
from schematics.pattern import figures
from schematics.reading.design_file import read_design, read_draft
from schematics.units import Unit
from tests.drawing.bare_reading import read_table
from tests.drawing.sheets import Drawn, sample, sample_of
from tests.examples import thorough
from tests.shipped import demos, shipped_design, shipped_results, shipped_text

Found = tuple[str, str, str, str, str]
"""Size, measurement, unit, the figure as printed, and where."""

_CM, _IN = r"(\d+(?:\.\d+)?) cm", r"((?:\d+ )?\d+(?:/\d+)?) in\b"
_BOTH = rf"{_CM} \({_IN}\)"


def words(group: Group) -> str:
    return " ".join(mark.words for mark in group.marks if isinstance(mark, Text))


def both(size: str, key: str, where: str, text: str) -> Iterator[Found]:
    """The first length of either unit in a text."""
    for unit, pattern in (("cm", _CM), ("in", _IN)):
        match = re.search(pattern, text)
        assert match, (where, key, text)
        yield size, key, unit, match[1], where


def of_sheets(pages: Sequence[Drawn], results: Sequence[Result]) -> Iterator[Found]:
    finished = {result.size.name: {each.key: each for each in result.garment.finished} for result in results}
    for page in pages:
        size = page.result.size.name if page.result else ""
        for group in page.sheet.groups:
            text = words(group)
            if page.stem == "pieces" and group.name in finished[size]:
                yield from both(size, group.name, "pieces", text)
            elif text and (page.stem, group.name) == ("assembly", "arm band"):
                yield from both(size, "arm_band.length", "assembly", text)
            elif (page.stem, group.name) == ("assembly", "drop"):
                yield from both(size, "drop with neck band", "assembly", text)
            elif page.stem == "worn" and group.name in ("reach", "spread", "hem to knee", "band"):
                side = " front" if "front" in text else ""
                yield from both(size, group.name + side, "worn", text)
            elif page.stem == "cover" and group.name == "cover":
                yield from of_cover(group, page.design.units, results)
            elif group.kind == "table":
                yield from of_table(group, results)
        if page.stem == "pieces":
            for key, each in finished[size].items():
                told = page.sheet.description.partition(f"{each.name} ")[2]
                yield from both(size, key, "description of pieces", told)


def of_cover(group: Group, units: Sequence[Unit], results: Sequence[Result]) -> Iterator[Found]:
    """The first unit level with a measurement's name, the second a little below."""
    texts = [mark for mark in group.marks if isinstance(mark, Text)]
    figures = [mark for mark in texts if mark.anchor == "end" and not mark.bold]
    for each in results[0].garment.finished:
        (level,) = (mark.at[1] for mark in texts if mark.words == each.name)
        for unit, least, most in zip(units, (-0.1, 0.1), (0.1, 4.5), strict=True):
            row = sorted(
                (mark for mark in figures if least < mark.at[1] - level < most), key=lambda mark: mark.at
            )
            for result, mark in zip(results, row, strict=unit is units[0]):
                yield result.size.name, each.key, unit.value, mark.words, "cover"


def of_table(group: Group, results: Sequence[Result]) -> Iterator[Found]:
    """All its values, which bare drawings have in a table alike."""
    table = read_table(to_svg(cropped([group], "Table", "Measurements.", ink=BareInk(name="table"))))
    keys = {each.name: each.key for each in results[0].garment.finished}
    for letter, name in table.names.items():
        for result in results:
            for unit in ("cm", "in"):
                value = table.value(letter, unit, result.size.name)
                yield result.size.name, keys[name], unit, value, "sizes"


def of_size_strings(
    key: str, strings: Sequence[str], results: Sequence[Result], where: str
) -> Iterator[Found]:
    """Centimetres, then inches, of every size: ``72.5 (80, 86)``."""
    for unit, string in zip(("cm", "in"), strings, strict=True):
        for result, figure in zip(results, re.split(r" \(|, ", string.rstrip(")")), strict=True):
            yield result.size.name, key, unit, figure, where


def of_files(design: Design, results: Sequence[Result]) -> Iterator[Found]:
    for size in measurements(design, results)["sizes"]:
        for each in size["finished"]:
            yield size["name"], each["key"], "cm", str(each["cm_printed"]), "measurements.json"
            yield size["name"], each["key"], "in", each["inches_printed"], "measurements.json"
    for section in sensitivity_document(design, results).sections:
        size = re.match(r"Size (.+)(?:, swatch of |: how sure each verdict is$)", str(section.heading))
        assert size
        if str(section.heading).endswith("each verdict is"):
            continue
        keys = {each.name: each.key for each in results[0].garment.finished}
        for moved in section.tables:
            for name, now, *_ in moved.rows:
                if name in keys:
                    assert isinstance(now, Quantity)
                    yield size[1], keys[str(name)], design.unit.value, str(now.words), "sensitivity"
    markdown = file_content(figures(design, results), "md").decode()
    for each in results[0].garment.finished:
        match = re.search(rf"^\| {each.name} \| ([^|]+) \| ([^|]+) \|", markdown, re.MULTILINE)
        assert match, each.name
        yield from of_size_strings(each.key, match.groups(), results, "figures.md")
    for section in workings_document(design, results).sections:
        size = re.match(r"Size (.+) \(line", str(section.heading))
        names = {each.name: each.key for each in results[0].garment.finished}
        for table in section.blocks:
            for row in getattr(table, "rows", ()):
                if size and row[0] in names:
                    yield from both(size[1], names[row[0]], "workings", row[2])


def of_page(design: Design, results: Sequence[Result]) -> Iterator[Found]:
    html = fit_page(design, results)
    cells = (
        r'data-label="cm">([^<]+)</td><td role="cell" data-label="in">([^<]+)</td>.*?data-finished="([^"]+)"'
    )
    for cm, inches, key, size in re.findall(cells + r' data-size="([^"]+)"', html):
        yield size, key, "cm", cm, "fit.html"
        yield size, key, "in", inches, "fit.html"


ACROSS_AND_UP = {
    "body": ("body.hem", "body.depth"),
    "centre panel": ("panel.width", "panel.length"),
    "neck band": ("neck_band.depth", "neck_band.length"),
    "arm band": ("arm_band.depth", "arm_band.length"),
}
"""What the last row of a piece measures, and the piece up its rows; a folded body has neither."""


def of_progress(design: Design, results: Sequence[Result]) -> Iterator[Found]:
    """Pieces that are finished, and the finished lengths at the pattern's gauge."""
    for result in results:
        keys = {each.key for each in result.garment.finished}
        for piece, measured in ACROSS_AND_UP.items():
            rows = len(row_stitches(result.size, result.garment, piece))
            now = piece_progress(design, result.size, piece, rows)
            own = OwnPiece(width_cm=None, height_cm=None, weighed_g=None)
            document = progress_document(design, result.size.name, now, own, None, ())
            cells = {str(row[0]): str(row[1]) for row in document.sections[0].tables[0].rows}
            for key, row in zip(measured, ("along the last row", "up the rows"), strict=True):
                if key in keys:
                    yield from both(result.size.name, key, "progress", cells[row])
        fit = size_fit(design, size_at_gauge(design, result.size), result.wearer)
        (section,) = finished_sections(design, [fit])
        for each, (_, at_gauge, in_pattern) in zip(
            result.garment.finished, section.tables[0].rows, strict=True
        ):
            for cell in (at_gauge, in_pattern):
                assert isinstance(cell, Quantity)
                yield result.size.name, each.key, design.unit.value, str(cell.words), "fit"


def of_grading(spec: Path, unit: Unit) -> Iterator[Found]:
    graded = grade(read_draft(spec))
    design = replace(graded.design, unit=unit)
    document = grading_document(
        replace(graded, design=design), evaluate(design), [size.name for size in design.sizes]
    )
    sections = [each for each in document.sections if plain(each.heading).startswith("Size ")]
    for case, section in zip(graded.search.cases, sections, strict=True):
        for line, (_, _, finished, *_) in zip(rows(graded, case), section.tables[0].rows, strict=True):
            if isinstance(finished, Quantity):
                pattern = _CM if unit is Unit.CM else _IN
                match = re.fullmatch(pattern, str(finished.words))
                assert match, finished
                yield case.size.name, line.measurement, unit.value, match[1], "grade"


def of_sentences(design: Design, results: Sequence[Result]) -> Iterator[Found]:
    unit = design.unit.value
    length = _CM if design.unit is Unit.CM else _IN
    patterns = {
        "reach": ("REACH-BAND", rf"the arm band ends {length} from the centre back neck"),
        "band": ("REACH-BAND", rf"the band ends {length} (?:above the wrist|over the hand)"),
        "spread": ("SPREAD-ARMS", rf"spans {length} across the back"),
        "spread front": ("SPREAD-ARMS", rf"and {length} across the front"),
        "hem to knee": ("HANG-WHERE", rf"{length} (?:above|below) the knee"),
    }
    for result in results:
        for key, (code, pattern) in patterns.items():
            for finding in result.findings:
                if finding.code == code and (match := re.search(pattern, finding.sentence)):
                    yield result.size.name, key, unit, match[1], code


IN_INCHES = ("kelp", "first-draft", "saltmarsh")
"""Specs that are told of in inches, the others in centimetres; the last two are written in centimetres."""


KEPT = {"first-draft": ("8",), "driftwood": ("2", "L")}
"""Sizes of their specs that are graded and told of in another unit."""


def in_unit(spec: Path, unit: Unit) -> tuple[Design, Sequence[Result], Iterator[Found]]:
    """A design in that unit, its sizes, and what its sheets say; in its own unit those of all its sizes."""
    design = replace(read_design(spec), unit=unit)
    results = evaluate(design)
    if unit is shipped_design(spec.stem).unit:
        return design, results, of_sheets(sample(spec.stem), shipped_results(spec.stem))
    return design, results, of_sheets(sample_of(design, results), results)


def number(figure: str) -> Fraction:
    return sum(map(Fraction, figure.split()), Fraction(0))


@pytest.mark.slow
@pytest.mark.parametrize("name", demos("first-draft"))
def test_every_length_has_one_figure_in_each_unit(name: str, tmp_path: Path) -> None:
    spec = tmp_path / f"{name}.yaml"
    spec.write_text(shipped_text(name, *KEPT.get(name, ())), "utf-8")
    unit = Unit.IN if name in IN_INCHES else Unit.CM
    design, results, on_sheets = in_unit(spec, unit)
    found: dict[tuple[str, str, str], dict[Fraction, set[str]]] = defaultdict(lambda: defaultdict(set))
    everywhere = (
        *on_sheets,
        *of_files(design, results),
        *of_page(design, results),
        *of_progress(design, results),
        *of_grading(spec, unit),
        *of_sentences(design, results),
    )
    for size, key, of_unit, figure, where in everywhere:
        found[size, key, of_unit][number(figure)].add(where)
    unlike = {name: dict(figures) for name, figures in found.items() if len(figures) > 1}
    assert not unlike
    hem = found[results[0].size.name, results[0].garment.finished[0].key, "cm"]
    (places,) = hem.values()
    assert places >= {"pieces", "description of pieces", "sizes", "measurements.json", "workings"}
    assert "cover" in places or thorough()  # of all sizes the cover may have no room for them, and says so
    assert places >= {"fit.html", "figures.md"}
    depth = found[results[0].size.name, "neck_band.depth", unit.value]
    assert set.union(*depth.values()) >= {"sensitivity", "progress", "fit", "pieces"}
    assert "grade" in set.union(*depth.values())
    reach = found[results[0].size.name, "reach", unit.value]
    assert set.union(*reach.values()) == {"worn", "REACH-BAND"}
