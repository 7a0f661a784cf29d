"""What grading may know of a folded body."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

import numpy as np

from schematics.design.design import Parts
from schematics.garment.constructions.facts import (
    ROWS,
    SHARED_KEYS,
    STITCHES,
    Demand,
    Distance,
    Facts,
    Gradable,
    Pattern,
    PickedUp,
    RingFacts,
    SeamFacts,
    Ways,
    even,
    full_cm,
    length_cm,
    neck_facts,
    ring_facts,
    shared_lengths,
    shared_patterns,
)
from schematics.garment.constructions.ways import ways_on_rectangle
from schematics.garment.linear import Counts as CountColumns
from schematics.garment.linear import Linear, Numbers, Row, at_least

Symbols = Mapping[str, Linear]
_HAIR_CM = 1e-9

_COUNTS = {
    "body.width": "body.width",
    "body.front_rows": "body.front",
    "body.back_rows": "body.back",
    "body.neck": "body.neck_width",
    "body.neck_front_rows": "body.neck_front",
    "body.neck_back_rows": "body.neck_back",
    "body.slot": "body.slot",
    "arms.rows": "arm.opening",
}
_GROWING = (
    "body.width", "body.front", "body.back", "body.neck_width", "body.slot", "arm.opening", "neck.edge",
    "panel.width", "panel.length", "neck_band.depth", "arm_band.depth",
)  # fmt: skip
_NECK, _ARM = "neck.picked_up", "arm.picked_up"


def facts(counts: Symbols, settings: Mapping[str, Any], parts: Parts) -> Facts:
    """What is linear in the counts of one size."""
    fabric = parts.body
    front_edge = counts["body.front_rows"] - counts["body.neck_front_rows"]
    neck, arm = _neck(counts, parts), _arm(counts, parts)
    width, slot = (length_cm(fabric, counts[f"body.{key}"], STITCHES) for key in ("width", "slot"))
    lengths = {
        **{key: length_cm(fabric, counts[count], _counted(count)) for count, key in _COUNTS.items()},
        "body.front_edge": length_cm(fabric, front_edge, ROWS),
        **shared_lengths(counts, parts, neck, arm),
    }
    drop_cm = length_cm(fabric, counts["body.back_rows"] - counts["body.neck_back_rows"], ROWS)
    across, drop = (width - lengths["body.neck_width"]) / 2, Distance(down=drop_cm)
    round_cm = 2 * width - slot + lengths["panel.width"]

    def girths(columns: CountColumns) -> tuple[tuple[Numbers, Numbers], ...]:
        low, girth = np.maximum(drop.at(columns), _HAIR_CM), round_cm.at(columns)
        return ((np.zeros_like(low), girth), (low, girth)) if settings.get("side_seam", True) else ()

    def ways(columns: CountColumns) -> Ways:
        side, half_slot = width.at(columns) / 2, slot.at(columns) / 2
        half, front, back = (lengths[f"body.neck_{each}"].at(columns) for each in ("width", "front", "back"))
        panel = lengths["panel.width"].at(columns)
        return ways_on_rectangle(side, (half / 2, front, back), half_slot, panel)

    return Facts(
        lengths=lengths,
        growing=_GROWING,
        patterns=(*_patterns(counts, parts), *shared_patterns(counts, parts, neck, arm)),
        picked_up=(
            PickedUp(
                name=_NECK,
                exact=length_cm(fabric, _neck_rows(counts), ROWS) * fabric.stitches_per_cm,
                besides=_neck_stitches(counts) + counts["panel.stitches"],
            ),
            PickedUp(
                name=_ARM,
                exact=length_cm(fabric, counts["arms.rows"], ROWS) * fabric.stitches_per_cm,
                besides=Linear(),
            ),
        ),
        neck=neck,
        arm=arm,
        seams=tuple(_seams(counts, settings, parts, lengths)),
        demands=tuple(_demands(counts)),
        drop=drop,
        corners=(Distance(across=across, down=lengths["body.front"]), Distance(across=across, down=drop_cm)),
        girths=girths,
        girths_need=round_cm.needs | drop_cm.needs,
        widths_cm=(width - slot + lengths["panel.width"], width),
        ways=ways,
        ways_need=width.needs
        | slot.needs
        | {"body.neck", "body.neck_front_rows", "body.neck_back_rows", "panel.stitches"},
    )


def _counted(count: str) -> Any:
    return ROWS if count.endswith("rows") else STITCHES


def _neck_rows(counts: Symbols) -> Linear:
    return 2 * (counts["body.neck_front_rows"] + counts["body.neck_back_rows"])


def _neck_stitches(counts: Symbols) -> Linear:
    return 2 * counts["body.neck"] - counts["body.slot"]


def _neck(counts: Symbols, parts: Parts) -> RingFacts:
    fabric, rows, stitches = parts.body, _neck_rows(counts), _neck_stitches(counts)
    return neck_facts(
        counts,
        parts,
        stitches + Linear.of(_NECK),
        length_cm(fabric, stitches, STITCHES) + length_cm(fabric, rows, ROWS),
        full_cm(fabric, stitches, STITCHES) + full_cm(fabric, rows, ROWS),
    )


def _arm(counts: Symbols, parts: Parts) -> RingFacts:
    fabric, rows = parts.body, counts["arms.rows"]
    return ring_facts(
        Linear.of(_ARM), length_cm(fabric, rows, ROWS), full_cm(fabric, rows, ROWS), parts.arm_bands
    )


def _patterns(counts: Symbols, parts: Parts) -> Iterator[Pattern]:
    length = counts["body.front_rows"] + counts["body.back_rows"]
    yield Pattern(words="body.width", count=counts["body.width"], counted=STITCHES, fabric=parts.body)
    yield Pattern(words="body rows, front and back", count=length, counted=ROWS, fabric=parts.body)


def _seams(
    counts: Symbols, settings: Mapping[str, Any], parts: Parts, lengths: Mapping[str, Linear]
) -> Iterator[SeamFacts]:
    yield SeamFacts(
        words="seams A and B, body to panel",
        first_cm=lengths["body.front_edge"],
        second_cm=lengths["panel.length"],
        first_fabric=parts.body,
        second_fabric=parts.centre_panel,
    )
    if settings.get("side_seam", True):
        front, back = (
            length_cm(parts.body, counts[f"body.{side}_rows"] - counts["arms.rows"] / 2, ROWS)
            for side in ("front", "back")
        )
        yield SeamFacts(
            words="seams C and D, front side to back side",
            first_cm=front,
            second_cm=back,
            first_fabric=parts.body,
            second_fabric=parts.body,
        )


def _demands(counts: Symbols) -> Iterator[Demand]:
    width, neck, slot = (counts[f"body.{key}"] for key in ("width", "neck", "slot"))
    yield Demand(
        words="the neck leaves two equal shoulders",
        row=Row(value=width - neck, low=2, multiple=2),
        cure="a neck and a width both even or both odd",
    )
    yield Demand(
        words="the slot lies in the middle of the neck and is no wider",
        row=Row(value=neck - slot, low=0, multiple=2),
        cure="a slot and a neck both even or both odd, or {missing} more stitches at the neck",
    )
    for side in ("front", "back"):
        rows, hole = counts[f"body.{side}_rows"], counts[f"body.neck_{side}_rows"]
        yield Demand(
            words=f"some {side} is left below the neck hole",
            row=at_least(rows, hole + 1),
            cure=f"{{missing}} more rows at the {side}, or a neck hole that is less deep there",
        )
        yield Demand(
            words=f"the arm opening lies on the {side} and leaves some side below it",
            row=at_least(rows, counts["arms.rows"] / 2 + 1),
            cure=f"{{missing}} more rows at the {side}, or a shorter arm opening",
            code="ARM-PLACE",
        )
    yield Demand(
        words="the arm opening is halved by the shoulder fold",
        row=even(counts["arms.rows"]),
        cure="one row more or less in the arm opening",
    )


GRADING = Gradable(counts=_COUNTS, keys=(*_COUNTS.values(), "body.front_edge", *SHARED_KEYS), facts=facts)
