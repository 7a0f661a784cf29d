"""Levers step a count by whole repeats; one that allows a single count is never stepped."""

from dataclasses import replace

import pytest

from schematics.crochet.fabric import CountRule
from schematics.garment.constructions import CONSTRUCTIONS
from tests.fitting.children import demo


@pytest.mark.slow
@pytest.mark.parametrize("name", ["tidepool", "saltmarsh", "sandpiper"])
def test_the_one_count_of_a_motif_is_left_as_it_is_by_every_lever(name: str) -> None:
    design = demo(name)
    size = design.sizes[0]
    changed = {"centre_panel": size.panel_stitches, "arm_bands": size.arm_band_stitches}
    only = {
        part: replace(getattr(design.parts, part), stitch_rule=CountRule.exactly(count))
        for part, count in changed.items()
    }
    parts = replace(design.parts, **only)
    for lever in CONSTRUCTIONS[design.construction].levers:
        for step in (-2, -1, 1, 2):
            after = lever.apply(size, step, parts)
            if lever.key in ("panel.width", "arm_band.depth"):
                assert after is None
            elif after is not None:
                assert (after.panel_stitches, after.arm_band_stitches) == tuple(changed.values())


def test_the_widths_of_a_panel_are_whole_repeats_apart() -> None:
    design = demo("tidepool")
    size, parts = design.sizes[0], design.parts
    (lever,) = [each for each in CONSTRUCTIONS["flared"].levers if each.key == "panel.width"]
    steps = [lever.apply(size, step, parts) for step in (-1, 1, 2)]
    # Multiple of 4 plus 2, from 10 stitches.
    assert [each and each.panel_stitches for each in steps] == [6, 14, 18]
