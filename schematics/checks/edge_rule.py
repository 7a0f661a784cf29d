"""What a stitch pattern asks of the count of an edge."""

from __future__ import annotations

from schematics.crochet.fabric import Counted, CountRule
from schematics.garment.garment import Edge

ANY_COUNT = CountRule()


def bound_by(edge: Edge) -> CountRule:
    """The rule on the edge's count, across (stitches) or along (rows) its fabric.

    An edge that is only part of what the fabric is worked over may have any count.
    """
    if edge.partial:
        return ANY_COUNT
    return edge.fabric.stitch_rule if edge.counted is Counted.STITCHES else edge.fabric.row_rule.rule
