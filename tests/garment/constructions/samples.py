"""Sizes of every construction in plain fabrics, worked and random ones, for the geometry tests."""

from __future__ import annotations

import math
from itertools import pairwise

from hypothesis import assume
from hypothesis import strategies as st
from shapely import LineString

from schematics.crochet.fabric import Fabric, Swatch
from schematics.design.design import Parts, Size
from schematics.garment.constructions import CONSTRUCTIONS
from schematics.garment.constructions.base import Counts, HemArms
from schematics.garment.constructions.flared import FlaredBody
from schematics.garment.constructions.folded.folded_counts import FoldedArms, FoldedBody
from schematics.garment.constructions.mitred.mitred_counts import MitredBody
from schematics.garment.garment import Garment
from schematics.garment.walks import WalkName
from schematics.wearer.body import WearerSpec
from tests.garment.journey import shortest_path


def fabric(
    stitches: float = 10, rows: float = 10, *, across: float = 0.0, along: float = 0.0, name: str = "plain"
) -> Fabric:
    """A fabric of so many stitches and rows to 10 cm."""
    return Fabric(
        name=name,
        stitch="half double crochet",
        swatch=Swatch(stitches=stitches, rows=rows, width_cm=10, height_cm=10),
        stretch_across=across,
        stretch_along=along,
    )


GUIDE = fabric(9.5, 7)
"""The gauge of the worked examples."""


def parts(body: Fabric, panel: Fabric | None = None, rib: Fabric | None = None) -> Parts:
    """One fabric throughout, but where another is given."""
    return Parts(body=body, centre_panel=panel or body, neck_band=rib or body, arm_bands=rib or body)


def size_of(
    body: Counts,
    arms: Counts,
    *,
    panel_stitches: int = 10,
    panel_rows: int = 20,
    arm_band_stitches: int = 6,
) -> Size:
    """A size of these counts."""
    return Size(
        name="4",
        wearer=WearerSpec(),
        body=body,
        arms=arms,
        panel_stitches=panel_stitches,
        panel_rows=panel_rows,
        neck_band_stitches=4,
        arm_band_stitches=arm_band_stitches,
        line=1,
    )


def garment(
    body: Counts, arms: Counts, fabrics: Parts, *, panel_stitches: int = 10, panel_rows: int = 20
) -> Garment:
    """The garment of these counts."""
    size = size_of(body, arms, panel_stitches=panel_stitches, panel_rows=panel_rows)
    words = {FlaredBody: "flared", MitredBody: "mitred", FoldedBody: "folded"}
    return CONSTRUCTIONS[words[type(body)]].build(size, fabrics)


def walked_cm(made: Garment, name: WalkName) -> float:
    """Length of the shortest way of that name."""
    (walk,) = (each for each in made.walks if each.name is name)
    return shortest_path(walk.domain, walk.start, walk.goal).length_cm


def finished_cm(made: Garment) -> dict[str, float]:
    """Every finished length by its key."""
    return {each.key: each.length_cm for each in made.finished}


def bends(path: LineString) -> int:
    """How many corners a path has between its ends."""
    turns = 0
    for (ax, ay), (bx, by) in pairwise((x1 - x0, y1 - y0) for (x0, y0), (x1, y1) in pairwise(path.coords)):
        turns += abs(ax * by - ay * bx) > 1e-9 * math.hypot(ax, ay) * math.hypot(bx, by)
    return turns


FABRICS = st.builds(
    fabric,
    stitches=st.floats(6, 30),
    rows=st.floats(5, 36),
    across=st.floats(0, 0.5),
    along=st.floats(0, 0.5),
)
_PANEL = {"panel_stitches": st.integers(1, 40), "panel_rows": st.integers(1, 120)}


@st.composite
def hem_arms(draw: st.DrawFn, hem: int) -> HemArms:
    """Arm runs whose middle lies on the right half of the hem."""
    stitches = draw(st.integers(2, max(2, hem // 6)))
    most = max(0, (hem - 2 * stitches) // 2 - 1)
    return HemArms(from_front=draw(st.integers(0, most)), stitches=stitches)


@st.composite
def flared(draw: st.DrawFn, most_circles: float = 1.95) -> Garment:
    """Flared bodies from a rectangle to nearly two full circles."""
    neck = draw(st.integers(10, 90))
    body = FlaredBody(neck=neck, hem=neck + draw(st.integers(0, 300)), rows=draw(st.integers(2, 70)))
    cloth = draw(FABRICS)
    arms = draw(hem_arms(body.hem))
    made = garment(body, arms, parts(cloth), **{key: draw(each) for key, each in _PANEL.items()})
    assume((made.opening_angle or 0) < most_circles * math.tau)
    return made


@st.composite
def mitred(draw: st.DrawFn, most_circles: float = 1.95) -> Garment:
    """Mitred bodies with sections of the program's choosing up to nearly two full circles."""
    lines = draw(st.integers(1, 9))
    neck = lines + 1 + 2 * draw(st.integers(4, 40))
    assume(neck % 2 == 0 or lines % 2 == 0)
    rows = draw(st.integers(4, 60))
    every = draw(st.integers(1, 3))
    most = len(range(2, rows + 1, every))
    body = MitredBody(
        neck=neck,
        lines=lines,
        rows=rows,
        increase_every=every,
        increase_rows=draw(st.integers(1, most)),
    )
    arms = draw(hem_arms(body.hem))
    made = garment(body, arms, parts(draw(FABRICS)), **{key: draw(each) for key, each in _PANEL.items()})
    assume((made.opening_angle or 0) < most_circles * math.tau)
    return made


@st.composite
def folded(draw: st.DrawFn) -> Garment:
    """Folded bodies of every proportion, slot as wide as the neck or narrower, sides seamed or open."""
    slot = draw(st.integers(1, 24))
    neck = slot + 2 * draw(st.integers(0, 12))
    front_rows, back_rows = draw(st.integers(6, 70)), draw(st.integers(6, 70))
    body = FoldedBody(
        width=neck + 2 * draw(st.integers(1, 60)),
        front_rows=front_rows,
        back_rows=back_rows,
        neck=neck,
        neck_front_rows=draw(st.integers(1, front_rows - 1)),
        neck_back_rows=draw(st.integers(0, back_rows - 1)),
        slot=slot,
        side_seam=draw(st.booleans()),
    )
    arms = FoldedArms(rows=2 * draw(st.integers(1, min(front_rows, back_rows))))
    return garment(body, arms, parts(draw(FABRICS)), **{key: draw(each) for key, each in _PANEL.items()})
