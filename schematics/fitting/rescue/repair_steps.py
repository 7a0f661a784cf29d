"""What a maker does to mend a finished poncho, step by step."""

from __future__ import annotations

import math
from collections.abc import Iterator

from schematics.checks.wording import listed
from schematics.crochet.charts.chart_fault import count_words
from schematics.crochet.fabric import Counted
from schematics.design.design import Design
from schematics.drawing.assembly.steps import steps_by_piece
from schematics.fitting.rescue.repairs import BODY, Repair
from schematics.garment.constructions import CONSTRUCTIONS
from schematics.garment.garment import ArmsOn

_PANEL = "centre panel"
_BANDS = {"neck band": "the neck band", "arm band": "both arm bands"}


def repair_steps(design: Design, repair: Repair) -> tuple[str, ...]:
    """What to do in turn, a sentence or a few each."""
    return (*_taken_apart(repair), *_body(design, repair), *_panel(design, repair), *_joined(design, repair))


def _taken_apart(repair: Repair) -> Iterator[str]:
    bands = [words for name, words in _BANDS.items() if name in repair.pieces]
    if bands:
        them = "it" if bands == [_BANDS["neck band"]] else "them"
        yield f"Open the join of {listed(bands)} and unpick {them}, back to the edge."
    seams = []
    if repair.pieces & {BODY, _PANEL}:
        seams.append("the seams between body and panel")
    if _opens_sides(repair):
        seams.append("the side seams")
    if seams:
        yield f"Unpick {listed(seams)}."


def _opens_sides(repair: Repair) -> bool:
    """Whether there are side seams, and they end elsewhere afterwards."""
    old, new = repair.before.at_gauge, repair.after.at_gauge
    at_side = old.garment.arm.on is ArmsOn.SIDES and bool(steps_by_piece(new.garment)[BODY])
    return at_side and (old.size.arms, old.size.body) != (new.size.arms, new.size.body)


def _body(design: Design, repair: Repair) -> Iterator[str]:
    if BODY not in repair.pieces:
        return
    construction = CONSTRUCTIONS[design.construction]
    old, new = (construction.rows_worked(each.at_gauge.size.body) for each in (repair.before, repair.after))
    if len(new) < len(old):
        stitches, _ = new[-1]
        yield (
            f"Rip the body back from its last row by {count_words(len(old) - len(new), 'row')}, to row "
            f"{len(new)}; it then ends with {count_words(stitches)}."
        )
    else:
        more = (len(new) - len(old)) // (1 if new[: len(old)] == old else 2)
        yield construction.longer_words.format(more=more, rows=len(new))


def _panel(design: Design, repair: Repair) -> Iterator[str]:
    old, new = (each.at_gauge.garment.piece(_PANEL) for each in (repair.before, repair.after))
    rows, was = (len(each.row_stitches or ()) for each in (new, old))
    if not repair.panel_stays:
        size = f"{count_words(new.foundation_stitches)}, {count_words(rows, 'row')}"
        yield f"Work the panel anew: {size}. {_gauge(design, repair, _PANEL)}".rstrip()
    elif rows < was:
        left = count_words(rows, "row")
        yield f"Rip the panel back from its top, to {left}, and end it as its pattern does."
    elif rows > was:
        yield f"Work on at the top of the panel, as its pattern goes, to {count_words(rows, 'row')}."


def _joined(design: Design, repair: Repair) -> Iterator[str]:
    garment = repair.after.at_gauge.garment
    steps = steps_by_piece(garment)
    if repair.pieces & {BODY, _PANEL}:
        yield from steps[_PANEL]
    for name in _BANDS:
        if name in repair.pieces:
            yield " ".join((*steps[name], _gauge(design, repair, name))).rstrip()
    if _opens_sides(repair):
        yield from steps[BODY]


def _gauge(design: Design, repair: Repair, name: str) -> str:
    """At which gauge a piece is worked anew that came out at another; empty where it keeps its own."""
    if name not in repair.at_pattern_gauge:
        return ""
    over, (_, span) = design.unit.gauge_figure, design.unit.gauge_span
    new, old = (each.at_gauge.garment.piece(name).fabric for each in (repair.after, repair.before))
    patterns, own = ([each.gauge(counted) for counted in Counted] for each in (new, old))
    hook = "larger" if math.prod(own) > math.prod(patterns) else "smaller"
    work, old_ones = ("them", "the old ones have") if name == "arm band" else ("it", "the old one has")
    return (
        f"Work {work} at the pattern's gauge, {over(patterns[0])} stitches and {over(patterns[1])} rows to "
        f"{span}; {old_ones} {over(own[0])} and {over(own[1])}, so try a {hook} hook."
    )
