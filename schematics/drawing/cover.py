"""The working sheets' cover: what it is, whom each size is for, figures compared first, the cautions."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from schematics.checks.evaluation import Result
from schematics.checks.wording import listed
from schematics.design.cautions import CAUTIONS
from schematics.document.lettering.text import LARGE, SMALL, line_pitch, shorten, text_width, wrap
from schematics.drawing.compose import Drawing, Setting, gauge_heading, gauges, tally
from schematics.drawing.ink.block import Block
from schematics.drawing.ink.marks import Line, Mark, Pen, Text
from schematics.drawing.ink.page import block_size, drawing_area
from schematics.drawing.ink.text_block import TextBlock
from schematics.garment.printed_lengths import finished_figure
from schematics.units import Unit

_TITLE_HEIGHT = 7.0
_WIDEST_NAME = 66.0
_ROW = 4.6
_OVER_CAUTIONS = 6.0

_HEADINGS = {
    2: "Finished measurements, in {first} with {second} below",
    1: "Finished measurements in {first}; in {second} on the sheet of all sizes",
    0: "Finished measurements: see the sheet of all sizes",
}


def draw_cover(setting: Setting) -> Drawing:
    """Title, materials, sizes and finished measurements, a column a size, and at the foot the cautions.

    Where both units do not fit under each other the second, then the whole table, are left to the
    sheet of all sizes, and the cover says so.
    """
    area = drawing_area(setting.paper)
    width = area.x1 - area.x0
    cautions = TextBlock("Cautions", width)
    cautions.add(caution.sentence for caution in CAUTIONS)
    foot = cautions.block("cautions", "cautions")
    bottom = area.y1 - block_size(foot)[1]
    for lines in (2, 1, 0):
        block = Block()
        block.add("cover", "cover", _marks(setting, width, lines))
        fits = area.y0 + 4 + block_size(block)[1] + _OVER_CAUTIONS <= bottom
        if fits:
            break
    return Drawing(
        groups=(*(block.at(area.x0, area.y0 + 4) if fits else ()), *foot.at(area.x0, bottom)),
        title="cover",
        description=f"Cover of {setting.design.title}: sizes and finished measurements.",
        scale=None,
        unplaced=() if fits else ("the cover",),
    )


def _marks(setting: Setting, width: float, lines: int) -> Iterator[Mark]:
    design = setting.design
    y = _TITLE_HEIGHT
    for line in wrap(design.title, width, _TITLE_HEIGHT, bold=True)[:2]:
        yield Text((0, y), line, _TITLE_HEIGHT, bold=True)
        y += line_pitch(_TITLE_HEIGHT)
    for words in (_materials(setting), _gauges(setting)):
        for line in wrap(words, width):
            yield Text((0, y), line)
            y += line_pitch(SMALL)
    y += 6
    yield Text((0, y), "Sizes", LARGE, bold=True)
    y += line_pitch(LARGE)
    for result in setting.results:
        yield Text((0, y), shorten(result.size.name, 22, bold=True), bold=True)
        yield Text((24, y), shorten(f"{result.wearer.label}; {tally([result])}", width - 24))
        y += _ROW
    y += 5
    first, second = (unit.words for unit in design.units)
    yield Text((0, y), _HEADINGS[lines].format(first=first, second=second), LARGE, bold=True)
    if not lines:
        return
    y += line_pitch(LARGE)
    names = _name_width(setting.results)
    columns = max(1, int((width - names) // _column_width(setting.results)))
    for start in range(0, len(setting.results), columns):
        part = setting.results[start : start + columns]
        yield from _table(part, y, names, design.units[:lines])
        y += _ROW * (lines * len(part[0].garment.finished) + 2.5)


def _materials(setting: Setting) -> str:
    yarn, hooks = setting.design.yarn, setting.design.parts.hooks
    facts = [f"Yarn: {yarn.name}"]
    if yarn.weight is not None:
        facts.append(f"yarn weight {yarn.weight}")
    if yarn.ball_mass_g is not None:
        length = f", {yarn.ball_length_m:g} m" if yarn.ball_length_m is not None else ""
        facts.append(f"balls of {yarn.ball_mass_g:g} g{length}")
    for hook, parts in hooks.items():
        if hook is not None:
            facts.append(f"hook {hook:g} mm" + (f" for {listed(parts)}" if len(hooks) > 1 else ""))
    return "; ".join(facts) + "."


def _gauges(setting: Setting) -> str:
    design = setting.design
    gauge = "; ".join(f"{name}: {words}" for name, words in gauges(design))
    return f"{design.terms.text(gauge_heading(design))}: {gauge}."


def _column_width(results: Sequence[Result]) -> float:
    lengths = [finished_figure(item, Unit.IN) for result in results for item in result.garment.finished]
    names = [shorten(result.size.name, 24) for result in results]
    return max(text_width(words, SMALL, bold=True) for words in [*lengths, *names]) + 4


def _name_width(results: Sequence[Result]) -> float:
    names = {item.name for result in results for item in result.garment.finished}
    return min(_WIDEST_NAME, max(text_width(name) for name in names)) + 3


def _table(results: Sequence[Result], y: float, names: float, units: Sequence[Unit]) -> Iterator[Mark]:
    """Names at the left, one column a size, right-aligned; one unit under the other."""
    column = _column_width(results)
    rights = [names + column * (i + 1) - 2 for i in range(len(results))]
    for right, result in zip(rights, results, strict=True):
        yield Text((right, y), shorten(result.size.name, 24, bold=True), anchor="end", bold=True)
    yield Line(((0, y + 1.6), (rights[-1] + 2, y + 1.6)), Pen.THIN)
    y += _ROW + 1.2
    for number, first in enumerate(results[0].garment.finished):
        yield Text((0, y), shorten(first.name, names - 3))
        for right, result in zip(rights, results, strict=True):
            item = result.garment.finished[number]
            for line, unit in enumerate(units):
                yield Text((right, y + _ROW * 0.9 * line), finished_figure(item, unit), anchor="end")
        y += _ROW * len(units)
