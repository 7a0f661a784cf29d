"""One case for each verdict that any check can give; `test_registry` holds the two together."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import replace
from functools import cache

from schematics.checks.finding import Case
from schematics.crochet.fabric import CountRule, RowRule
from schematics.design.border import BorderEdge
from schematics.design.design import Meant
from schematics.wearer.body import Body, Origin, Stage, WearerSpec
from schematics.wearer.resolve import resolve
from tests.checks.cases import (
    CHILD,
    PARTS,
    border,
    charted,
    charted_border,
    fabric,
    make_case,
    measured,
    spread,
)
from tests.checks.folded_cases import folded_case

BY_AGE = {body: spread(v.low_cm, v.cm, v.high_cm, Origin.AGE_TABLE) for body, v in CHILD.items()}


def of_spec(wearer: WearerSpec, *, neck_ties: bool = False, notions: tuple[str, ...] = ()) -> Case:
    """A good case for that wearer, and whose neck has ties or notions name some."""
    case = make_case()
    publication = replace(case.design.publication, notions=notions)
    return replace(
        case,
        size=replace(case.size, wearer=wearer),
        wearer=resolve(wearer, case.size.name),
        design=replace(case.design, neck_ties=neck_ties, publication=publication),
    )


@cache
def gallery() -> Mapping[str, Case]:
    """Cases by what is special about them."""
    cabled = fabric(stitch_rule=CountRule(multiple=6, plus=3), row_rule=RowRule(repeat=4))
    return {
        "all good": make_case(),
        "nothing known": make_case(body=dict.fromkeys(Body)),
        "panel much too long": make_case(panel_rows=33),
        "panel a little too long": make_case(panel_rows=31),
        "small neck": make_case(neck=8),
        "wide neck": make_case(neck=46),
        "small arm bands": make_case(stitches=12),
        "wide arm bands": make_case(stitches=24),
        "overlapping arm runs": make_case(from_front=70),
        "short": make_case(rows=20, panel_rows=20),
        "long on a child": make_case(rows=62, panel_rows=62),
        "long on an adult": make_case(rows=62, panel_rows=62, stage=Stage.ADULT),
        "broken pattern": make_case(parts=replace(PARTS, centre_panel=cabled)),
        "chart on too narrow a panel": make_case(
            panel_stitches=4, parts=replace(PARTS, centre_panel=charted("4 hdc, hdc across, 4 hdc"))
        ),
        "borders on either side": make_case(
            increase_every=7,
            increase_until=23,
            parts=replace(PARTS, borders=(charted_border(3), charted_border(28))),
        ),
        "a yoke among increases": make_case(parts=replace(PARTS, borders=(border(at=BorderEdge.NECK),))),
        "odd neck": make_case(neck=37),
        "cords at a child's neck": of_spec(WearerSpec(chart="child/6"), neck_ties=True),
        "cords at an older child's neck": of_spec(WearerSpec(chart="child/12"), neck_ties=True),
        "no increase row": make_case(rows=1),
        "over a circle": make_case(rows=15, panel_rows=15),
        "over two circles": make_case(garment={"opening_angle": 2 * math.tau + 0.1}),
        "long arms": make_case(body={Body.CENTRE_BACK_NECK_TO_WRIST: measured(60)}),
        "close round the chest": make_case(body={Body.CHEST_GIRTH: measured(82)}),
        "tight round the chest": make_case(body={Body.CHEST_GIRTH: measured(95)}),
        "one measured child": make_case(body={Body.HEAD_GIRTH: measured(52)}),
        "one child known by age": make_case(body=BY_AGE, person=True),
        "panel wider than its slot": folded_case(panel_stitches=26),
        "shorter than was meant": replace(
            make_case(),
            size=replace(
                make_case().size, meant=(Meant(key="body.depth", length_cm=99.0, tolerance_cm=1.0),)
            ),
        ),
    }
