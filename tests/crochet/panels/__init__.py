"""Textured panels, two or more of each kind; ``PANELS`` has them all."""

from tests.crochet.panels import repeats_and_posts as first
from tests.crochet.panels import stitches_and_yarns as second

PANELS = (
    *first.MOTIFS, *first.BELOW, *first.ON_SURFACE, *first.CROSSED,
    *second.IN_ONE, *second.NUMBERED, *second.LOOPED, *second.COLOURED, *second.SIDED, *second.OWN_STITCHES,
    *second.TAPERED, *second.IN_UK_TERMS,
)  # fmt: skip
