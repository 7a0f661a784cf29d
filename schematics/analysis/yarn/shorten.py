"""What to shorten so that a stash does: fewer rows, checked as a size of its own."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from schematics.analysis.changed_counts import CountChange, count_changes
from schematics.analysis.side_effects import Effect, SeverityChange, effects, severity_changes
from schematics.analysis.yarn.need import YarnNeed, yarn_need
from schematics.analysis.yarn.stash import StashVerdict, colour_verdicts, stash_verdict
from schematics.checks.evaluation import Result, evaluate
from schematics.design.design import Design, Size
from schematics.garment.constructions import CONSTRUCTIONS
from schematics.garment.garment import Garment

SHORTEN = 4
"""The number by which `make --change` knows it: those before it are of how a size fits."""

_MOST = 1 / 3
"""A body shortened by more than this share of its rows is another size."""
NOT_SHORTER = "shortening the body by up to a third does not help, or breaks a check."


@dataclass(frozen=True, slots=True, kw_only=True)
class Shortened:
    """A size made shorter so that the stash does: its counts before and after, and what it then takes.

    No check stops it that did not stop the size as designed. ``effects`` and ``checks``
    are all that becomes of it besides.
    """

    result: Result
    need: YarnNeed
    changes: tuple[CountChange, ...]
    shorter_cm: float
    effects: tuple[Effect, ...]
    checks: tuple[SeverityChange, ...]


def shortened(design: Design, result: Result, stash: Mapping[str, float]) -> Shortened | None:
    """The size with the fewest rows taken off the body for which the stash does; None if there is none.

    The increases of the rows that are left out are not made, so the hem is narrower; the arm runs keep
    their stitches and move with it, and the panel gets the rows of its repeat nearest to the new length.
    """
    stops = _stops(result)
    for size in _shorter_sizes(design, result):
        garment = CONSTRUCTIONS[design.construction].build(size, design.parts)
        need = yarn_need(design, garment)
        if stash_verdict(colour_verdicts(need, stash)) is not StashVerdict.ENOUGH:
            continue
        (checked,) = evaluate(replace(design, sizes=(size,)))
        if _stops(checked) <= stops:
            return Shortened(
                result=checked,
                need=need,
                changes=count_changes(result.size, size, design),
                shorter_cm=result.garment.drop_cm - garment.drop_cm,
                effects=effects(result, checked),
                checks=severity_changes(result.findings, checked.findings),
            )
    return None


def _stops(result: Result) -> set[tuple[str, str]]:
    return {(each.code, each.place) for each in result.findings if each.severity == "stop"}


def _shorter_sizes(design: Design, result: Result) -> Iterator[Size]:
    construction, size = CONSTRUCTIONS[design.construction], result.size
    front = _front_cm(result.garment)
    for fewer in range(1, int(result.garment.piece("body").edge("front").count * _MOST) + 1):
        counts = construction.shorter(size.body, size.arms, fewer)
        if counts is None:
            return
        bare = replace(size, body=counts[0], arms=counts[1])
        garment = construction.build(bare, design.parts)
        rows = size.panel_rows * _front_cm(garment) / front
        yield replace(bare, panel_rows=design.parts.centre_panel.row_rule.rule.nearest(rows))


def _front_cm(garment: Garment) -> float:
    return garment.piece("body").edge("front").length_cm
