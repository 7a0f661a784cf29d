"""The arm bands: where yarn is joined on each side, what is picked up, the ribbing, how the rings close."""

from __future__ import annotations

from collections.abc import Iterator

from schematics.crochet.spacing import join
from schematics.document.chart_words.in_sizes import in_sizes
from schematics.document.document import Row, Section, Table, Words
from schematics.garment.garment import ArmsOn
from schematics.pattern.book import Book
from schematics.pattern.written.picked_up import HOW, pick_up_table
from schematics.pattern.written.ribbing import ribbing_of
from schematics.pattern.written.worked_with import worked_with


def section(book: Book) -> Section:
    """How both arm bands are worked, written once."""
    return Section("Arm bands", tuple(_blocks(book)), "arm_bands")


def _blocks(book: Book) -> Iterator[Words | Row | Table]:
    arms = [garment.arm for garment in book.garments]
    rings = [arm.ring for arm in arms]
    right, left = (in_sizes([arm.starts[side] for arm in arms]) for side in (0, 1))
    edge = in_sizes([ring.edge_count for ring in rings])
    hook = worked_with(book.design, "arm_bands")
    yield (
        f"Make two, {hook}, one on the wearer's right and one on the wearer's left, alike but for where "
        "yarn is joined. Work each sideways, two ribbing rows to every two edge sts. Hold the poncho with "
        f"the right side facing you and the {arms[0].edge.name} edge at the top."
    )
    if arms[0].on is ArmsOn.HEM:
        yield (
            f"Join yarn at a marker: for the band on the wearer's right at the back one, in hem st {right}, "
            f"for that on the wearer's left at the front one, in hem st {left}. Work towards the other "
            f"marker of the run. Its {edge} hem sts are the edge sts, the one where yarn is joined is the "
            "first. When the ring is closed, both markers meet."
        )
    else:
        yield (
            "Join yarn at a marker: for the band on the wearer's right at the back one, in row end "
            f"{right}, for that on the wearer's left at the front one, in row end {left}. Work towards the "
            "other marker of the opening."
        )
        yield HOW
        joins = [join(arm.count, arm.ring.picked_up) for arm in arms]
        yield pick_up_table(book, "Row ends of each arm opening", joins)
        yield Row(
            "Pick-up rnd (RS)",
            "Sl st loosely in the row ends of the opening as told, beginning in that where yarn is joined; "
            "join with sl st in the first sl st to a ring. These sl sts are the edge sts, in the order they "
            "are made.",
            f"{edge} sts",
        )
    yield from ribbing_of(book, "arm band", rings).blocks
