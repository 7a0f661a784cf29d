"""Small changes to a size's counts that keep it workable: what a maker could work instead.

A lever changes one count by steps, and what has to follow it: the panel's rows follow the body's, the arm
run stays centred where it was. Nothing here says whether a change is any good; the checks do.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from enum import StrEnum
from typing import Any

from pydantic import ValidationError

from schematics.crochet.fabric import CountRule
from schematics.design.design import Parts, Size
from schematics.garment.constructions.base import ROWS, STITCHES

Apply = Callable[[Size, int, Parts], Size | None]


class Purpose(StrEnum):
    """What a lever is for."""

    NECK = "neck opening"
    RING = "arm ring"
    LENGTH = "length"
    WIDTH = "width"
    PLACE = "where the arm rings are"
    DEPTH = "depth of the arm bands"


@dataclass(frozen=True, slots=True, kw_only=True)
class Lever:
    """A count that can be changed.

    ``key`` is the finished measurement that changes with it, and ``weight`` what a centimetre of it
    counts when changes are compared. ``most`` is the largest number of steps either way that is still
    small. ``apply`` gives the size changed by so many steps, or None where that cannot be worked.
    """

    purpose: Purpose
    key: str
    weight: float
    most: int
    apply: Apply


def with_counts(size: Size, **changes: Any) -> Size | None:
    """The size with other counts by their names, ``body__rows`` or ``panel_rows``; None if they clash."""
    body: dict[str, Any] = {}
    arms: dict[str, Any] = {}
    rest: dict[str, Any] = {}
    for name, value in changes.items():
        block, _, key = name.partition("__")
        {"body": body, "arms": arms}.get(block, rest)[key or name] = value
    if any(value < 1 for value in rest.values()):
        return None
    try:
        return replace(
            size,
            body=type(size.body).model_validate({**size.body.model_dump(), **body}),
            arms=type(size.arms).model_validate({**size.arms.model_dump(), **arms}),
            **rest,
        )
    except ValidationError:
        return None


def panel_rows(front_rows: int, parts: Parts) -> int:
    """Panel rows that come nearest to so many rows of the body's front edge, in whole repeats."""
    rows = parts.body.length_cm(front_rows, ROWS) * parts.centre_panel.rows_per_cm
    return parts.centre_panel.row_rule.rule.nearest(rows)


def _in_pattern(rule: CountRule, stitches: int) -> int:
    """The fewest stitches to add that are whole repeats and a multiple of ``stitches``."""
    return math.lcm(rule.multiple, stitches)


def _neck_of_body(size: Size, step: int, parts: Parts) -> Size | None:
    more = step * _in_pattern(parts.body.stitch_rule, 1)
    if getattr(size.body, "sections", None):
        return None
    return with_counts(size, body__neck=size.body.neck + more)


def _panel(size: Size, step: int, parts: Parts) -> Size | None:
    return with_counts(
        size, panel_stitches=size.panel_stitches + step * parts.centre_panel.stitch_rule.multiple
    )


def _rows(size: Size, step: int, parts: Parts) -> Size | None:
    rows = size.body.rows + step * parts.body.row_rule.repeat
    return with_counts(size, body__rows=rows, panel_rows=panel_rows(rows, parts)) if rows > 0 else None


def _hem(size: Size, step: int, parts: Parts) -> Size | None:
    return with_counts(size, body__hem=size.body.hem + step * _in_pattern(parts.body.stitch_rule, 2))


def _increase_rows(size: Size, step: int, _: Parts) -> Size | None:
    body = size.body
    until = body.increase_until and body.increase_until + step * body.increase_every
    return with_counts(size, body__increase_rows=body.increase_rows + step, body__increase_until=until)


def _run(size: Size, step: int, _: Parts) -> Size | None:
    return with_counts(
        size,
        arms__stitches=size.arms.stitches + 2 * step,
        arms__from_front=size.arms.from_front - step,
    )


def _place(size: Size, step: int, _: Parts) -> Size | None:
    return with_counts(size, arms__from_front=size.arms.from_front + step)


def _band(size: Size, step: int, parts: Parts) -> Size | None:
    return with_counts(
        size, arm_band_stitches=size.arm_band_stitches + step * parts.arm_bands.stitch_rule.multiple
    )


def _folded_neck(size: Size, step: int, _: Parts) -> Size | None:
    return with_counts(size, body__neck=size.body.neck + 2 * step)


def _folded_neck_depth(size: Size, step: int, parts: Parts) -> Size | None:
    depth = size.body.neck_front_rows + step
    return with_counts(
        size, body__neck_front_rows=depth, panel_rows=panel_rows(size.body.front_rows - depth, parts)
    )


def _folded_panel(size: Size, step: int, parts: Parts) -> Size | None:
    """The slot follows the panel: as many stitches as lie across it, odd or even as the neck."""
    stitches = size.panel_stitches + step * parts.centre_panel.stitch_rule.multiple
    width = parts.centre_panel.length_cm(stitches, STITCHES) * parts.body.stitches_per_cm
    slot = CountRule(multiple=2, plus=size.body.neck % 2).nearest(width)
    return with_counts(size, panel_stitches=stitches, body__slot=slot)


def _folded_length(size: Size, step: int, parts: Parts) -> Size | None:
    front, back = size.body.front_rows + step, size.body.back_rows + step
    rows = panel_rows(front - size.body.neck_front_rows, parts)
    return with_counts(size, body__front_rows=front, body__back_rows=back, panel_rows=rows)


def _folded_width(size: Size, step: int, parts: Parts) -> Size | None:
    return with_counts(size, body__width=size.body.width + step * _in_pattern(parts.body.stitch_rule, 2))


def _folded_run(size: Size, step: int, _: Parts) -> Size | None:
    return with_counts(size, arms__rows=size.arms.rows + 2 * step)


def _lever(purpose: Purpose, key: str, most: int, apply: Apply, weight: float = 1.0) -> Lever:
    return Lever(purpose=purpose, key=key, weight=weight, most=most, apply=apply)


_PANEL = 1.5
"""The panel is what is looked at, and it is of whole repeats: a centimetre of it changes it most."""

_ROUND_THE_HEM = 0.25
"""A centimetre round the hem is soon worked: it is a small share of it."""

_NECK_DOWN = (
    _lever(Purpose.NECK, "body.neck", 12, _neck_of_body),
    _lever(Purpose.NECK, "panel.width", 2, _panel, _PANEL),
    _lever(Purpose.RING, "arm.run", 5, _run),
    _lever(Purpose.LENGTH, "body.depth", 14, _rows),
    _lever(Purpose.PLACE, "arm.from_front", 10, _place, 0.5),
    _lever(Purpose.DEPTH, "arm_band.depth", 6, _band),
)

LEVERS: Mapping[str, tuple[Lever, ...]] = {
    "flared": (*_NECK_DOWN, _lever(Purpose.WIDTH, "body.hem", 14, _hem, _ROUND_THE_HEM)),
    "mitred": (*_NECK_DOWN, _lever(Purpose.WIDTH, "body.hem", 5, _increase_rows, _ROUND_THE_HEM)),
    "folded": (
        _lever(Purpose.NECK, "body.neck_width", 5, _folded_neck),
        _lever(Purpose.NECK, "body.neck_front", 3, _folded_neck_depth),
        _lever(Purpose.NECK, "panel.width", 1, _folded_panel, _PANEL),
        _lever(Purpose.RING, "arm.opening", 5, _folded_run),
        _lever(Purpose.LENGTH, "body.front", 12, _folded_length),
        _lever(Purpose.WIDTH, "body.width", 12, _folded_width, 0.5),
        _lever(Purpose.DEPTH, "arm_band.depth", 6, _band),
    ),
}
"""The counts that can be changed, by construction; how many steps are small: common practice, no source."""
