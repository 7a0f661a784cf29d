"""Small changes to a size's counts that keep it workable: what a maker could work instead.

A lever changes one count by steps, and what has to follow it: the panel's rows follow the body's, the arm
run stays centred where it was. Nothing here says whether a change is any good; the checks do.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from enum import StrEnum
from operator import attrgetter
from typing import Any, TypeAlias

from pydantic import ValidationError

from schematics.design.design import Parts, Size
from schematics.garment.constructions.base import ROWS, panel_top
from schematics.garment.constructions.panel_formulas import panel_formulas

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
    small (all of them common practice, no source). ``apply`` gives the size changed by so many steps, or
    None where that cannot be worked. ``comes_off`` are the pieces that come off a finished garment, or are
    opened, to move it; none where the body would have to be worked anew.
    """

    purpose: Purpose
    key: str
    most: int
    apply: Apply
    weight: float = 1.0
    comes_off: frozenset[str] = frozenset()

    def moved(self, size: Size, step: int, parts: Parts) -> Size | None:
        """The size changed by so many steps; None, too, where the panel would taper to nothing."""
        changed = self.apply(size, step, parts)
        return changed if changed and panel_top(changed, parts.centre_panel) > 0 else None


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
            body=_changed(size.body, body),
            arms=_changed(size.arms, arms),
            **rest,
        )
    except ValidationError:
        return None


def _changed(block: Any, changes: Mapping[str, Any]) -> Any:
    return type(block).model_validate({**block.model_dump(), **changes}) if changes else block


def shifted(**steps: int | Callable[[Parts], int | None]) -> Apply:
    """What changes counts, named as for `with_counts`, by so many to each step of a lever.

    Where it is by None, the count is the only one there is.
    """

    def apply(size: Size, step: int, parts: Parts) -> Size | None:
        changes: dict[str, int] = {}
        for name, by in steps.items():
            each = by if isinstance(by, int) else by(parts)
            if each is None:
                return None
            changes[name] = attrgetter(name.replace("__", "."))(size) + step * each
        return with_counts(size, **changes)

    return apply


def panel_rows(front_rows: int, parts: Parts) -> int:
    """Panel rows whose sides come nearest to so many rows of the body's front edge, in whole repeats."""
    return int(panel_formulas(parts.centre_panel).rows_along(parts.body.length_cm(front_rows, ROWS)))


def body_repeats(stitches: int) -> Callable[[Parts], int | None]:
    """The fewest stitches to add to the body that are whole repeats and a multiple of ``stitches``."""

    def fewest(parts: Parts) -> int | None:
        step = parts.body.stitch_rule.step
        return step and math.lcm(step, stitches)

    return fewest


ARM_BANDS = frozenset({"arm band"})
PANEL = frozenset({"centre panel", "neck band"})
BODY_AND_PANEL = PANEL | {"body"}
"""Pieces that come off together: the neck band is worked onto the panel's top."""

PANEL_WEIGHT = 1.5
"""The panel is what is looked at, and it is of whole repeats: a centimetre of it changes it most."""

PANEL_WIDTH = Lever(
    purpose=Purpose.NECK, key="panel.width", most=2, weight=PANEL_WEIGHT, comes_off=PANEL,
    apply=shifted(panel_stitches=lambda parts: parts.centre_panel.stitch_rule.step),
)  # fmt: skip
ARM_BAND_DEPTH = Lever(
    purpose=Purpose.DEPTH, key="arm_band.depth", most=6, comes_off=ARM_BANDS,
    apply=shifted(arm_band_stitches=lambda parts: parts.arm_bands.stitch_rule.step),
)  # fmt: skip

Nouns: TypeAlias = Mapping[str, tuple[str, str] | str]
"""Of each count that a lever changes, by its name in a spec: one and several of it, or a sentence on its
change with ``{before}`` and ``{after}``."""

SHARED_NOUNS: Nouns = {
    "panel.stitches": ("panel stitch", "panel stitches"),
    "panel.rows": ("panel row", "panel rows"),
    "neck_band.stitches": ("stitch of neck band depth", "stitches of neck band depth"),
    "arm_bands.stitches": ("stitch of arm band depth", "stitches of arm band depth"),
}
"""Those of panel and bands."""
