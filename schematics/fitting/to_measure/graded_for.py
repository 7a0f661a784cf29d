"""Counts for exactly one body, found by grading, as near the finished lengths of a size as it lets them."""

from __future__ import annotations

from dataclasses import replace

from schematics.design.design import Design, Parts, Size
from schematics.errors import SchematicsError
from schematics.garment.constructions import CONSTRUCTIONS
from schematics.garment.constructions.base import counts_of
from schematics.grading.draft import EXACT, REGULAR, Draft, DraftSize, Intent, Wishes
from schematics.grading.grade import grade
from schematics.wearer.body import WearerSpec


def graded_size(design: Design, size: Size, parts: Parts, wearer: WearerSpec) -> Size | None:
    """The size with counts that come nearest to its finished lengths and keep what the wearer asks.

    Increases stay as many rows apart as they are in the size where any counts serve then.

    Args:
        design: the design; the lengths meant are those of the size in its own fabrics.
        size: where to start from.
        parts: the fabrics it is to be worked in.
        wearer: whom it is for.

    Returns:
        None where no counts keep everything.
    """
    construction = CONSTRUCTIONS[design.construction]
    values = counts_of(size)
    regular = any(values.get(key) not in (None, 1) for key in construction.shaping)
    graded_counts = {*construction.counts, *(construction.shaping if regular else ())}
    lengths = {each.key: each.length_cm for each in construction.build(size, design.parts).finished}
    draft = Draft(
        content=b"",
        head=replace(design, parts=parts, sizes=(), graded=()),
        sizes=(
            DraftSize(
                name=size.name,
                wearer=wearer,
                given={},
                settings={key: value for key, value in values.items() if key not in graded_counts},
                line=size.line,
            ),
        ),
        wishes=Wishes(
            line=size.line,
            intents={
                key: Intent(line=size.line, length_cm=lengths[key]) for key in construction.counts.values()
            },
            increases=REGULAR if regular else EXACT,
        ),
    )
    kept = {key: values[key] for key in construction.shaping[:1] if regular}
    for given in (kept, {}) if kept else (kept,):
        (one,) = draft.sizes
        try:
            (graded,) = grade(replace(draft, sizes=(replace(one, given=given),))).design.sizes
        except SchematicsError:
            continue
        return replace(graded, meant=())
    return None
