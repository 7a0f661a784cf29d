"""Random sizes by their counts, as grading sees them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

import numpy as np
from hypothesis import assume
from hypothesis import strategies as st

from schematics.crochet.charts.chart import Chart
from schematics.crochet.charts.chart_text import parse_row
from schematics.crochet.fabric import Fabric, RowRule
from schematics.design.design import Parts, Size
from schematics.garment.constructions import CONSTRUCTIONS
from schematics.garment.constructions.formulas import Formulas
from schematics.garment.garment import Garment
from schematics.wearer.body import WearerSpec
from tests.garment.constructions.samples import FABRICS


@dataclass(frozen=True, slots=True)
class Counted:
    """One size of a construction by its counts, as grading sees it."""

    word: str
    counts: Mapping[str, int]
    settings: Mapping[str, Any]
    parts: Parts

    @property
    def formulas(self) -> Formulas:
        own = {name.removeprefix("body."): value for name, value in self.settings.items()}
        return CONSTRUCTIONS[self.word].formulas(self.parts, own)

    @property
    def columns(self) -> dict[str, Any]:
        """The counts as columns of one garment."""
        return {name: np.array([value]) for name, value in self.counts.items()}

    def make(self) -> Garment:
        """The garment; `ValueError` where the construction refuses the counts."""
        construction, values = CONSTRUCTIONS[self.word], {**self.counts, **self.settings}

        def block(name: str) -> dict[str, Any]:
            return {key.split(".")[1]: each for key, each in values.items() if key.split(".")[0] == name}

        size = Size(
            name="4",
            wearer=WearerSpec(),
            body=construction.body_counts(**block("body")),
            arms=construction.arm_counts(**block("arms")),
            panel_stitches=self.counts["panel.stitches"],
            panel_rows=self.counts["panel.rows"],
            neck_band_stitches=self.counts["neck_band.stitches"],
            arm_band_stitches=self.counts["arm_bands.stitches"],
            line=1,
        )
        return construction.build(size, self.parts)


_SHARED = {
    "panel.stitches": st.integers(4, 40),
    "panel.rows": st.integers(4, 24) | st.integers(4, 120),
    "neck_band.stitches": st.integers(1, 12),
    "arm_bands.stitches": st.integers(4, 20),
}


@st.composite
def flared(draw: st.DrawFn) -> tuple[dict[str, int], dict[str, Any]]:
    neck = draw(st.integers(10, 90))
    hem = neck + draw(st.integers(4, 250))
    counts = {"body.neck": neck, "body.hem": hem, "body.rows": draw(st.integers(5, 70))}
    return {**counts, **draw(hem_arms(hem))}, {"body.increase_every": draw(st.integers(1, 4))}


@st.composite
def mitred(draw: st.DrawFn) -> tuple[dict[str, int], dict[str, Any]]:
    lines, every = draw(st.integers(1, 8)), draw(st.integers(1, 3))
    neck = 2 * draw(st.integers(max(8, 2 * lines), 45))
    increase_rows = draw(st.integers(4, 40))
    counts = {
        "body.neck": neck,
        "body.increase_rows": increase_rows,
        "body.rows": every * (increase_rows + 4) + draw(st.integers(0, 20)),
    }
    arms = draw(hem_arms(neck + 2 * lines * increase_rows))
    return {**counts, **arms}, {"body.lines": lines, "body.increase_every": every}


@st.composite
def hem_arms(draw: st.DrawFn, hem: int) -> dict[str, int]:
    stitches = 2 * draw(st.integers(2, max(2, hem // 12)))
    most = max(4, hem // 2 - stitches - 4)
    return {"arms.stitches": stitches, "arms.from_front": draw(st.integers(4, most))}


@st.composite
def folded(draw: st.DrawFn) -> tuple[dict[str, int], dict[str, Any]]:
    slot = draw(st.integers(4, 24))
    neck = slot + 2 * draw(st.integers(0, 12))
    front, back = draw(st.integers(16, 70)), draw(st.integers(16, 70))
    counts = {
        "body.width": neck + 2 * draw(st.integers(4, 60)),
        "body.front_rows": front,
        "body.back_rows": back,
        "body.neck": neck,
        "body.neck_front_rows": draw(st.integers(4, front - 5)),
        "body.neck_back_rows": draw(st.integers(3, back - 5)),
        "body.slot": slot,
        "arms.rows": 2 * draw(st.integers(3, min(front, back) - 4)),
    }
    return counts, {"body.side_seam": draw(st.booleans())}


_COUNTS = {"flared": flared(), "mitred": mitred(), "folded": folded()}


@st.composite
def counted(draw: st.DrawFn, word: str) -> Counted:
    """A size whose counts may each go some steps either way."""
    own, given_settings = draw(_COUNTS[word])
    body, panel, bands = draw(FABRICS), draw(FABRICS), draw(FABRICS)
    return Counted(
        word=word,
        counts={**own, **{count: draw(each) for count, each in _SHARED.items()}},
        settings=given_settings,
        parts=Parts(body=body, centre_panel=panel, neck_band=bands, arm_bands=bands),
    )


PLAIN_ROW = parse_row("sc across")


def tapering(fabric: Fabric, rule: RowRule, adds: tuple[int, int, int]) -> Fabric:
    """The fabric with a chart whose sections change the width so; lengths do not depend on its rows."""
    chart = Chart(
        setup=(PLAIN_ROW,) * rule.setup,
        repeat=(PLAIN_ROW,) * rule.repeat,
        closing=(PLAIN_ROW,) * rule.closing,
        adds=adds,
    )
    return replace(fabric, row_rule=rule, chart=chart)


@st.composite
def tapered(draw: st.DrawFn, word: str) -> Counted:
    """A size whose panel gains or loses stitches at set-up, repeats and closing, and has a top."""
    size = draw(counted(word))
    rule = RowRule(
        setup=draw(st.integers(0, 3)), repeat=draw(st.integers(1, 8)), closing=draw(st.integers(0, 3))
    )
    repeats = draw(st.integers(1, 12))
    more = st.integers(-3, 3)
    adds = (draw(more) if rule.setup else 0, draw(more), draw(more) if rule.closing else 0)
    assume(any(adds))
    added = adds[0] + repeats * adds[1] + adds[2]
    foot = max(4, 1 - added, 1 - adds[0], 1 - adds[0] - repeats * adds[1]) + draw(st.integers(0, 20))
    panel = {"panel.stitches": foot, "panel.rows": rule.setup + rule.repeat * repeats + rule.closing}
    fabric = tapering(size.parts.centre_panel, rule, adds)
    return replace(size, counts={**size.counts, **panel}, parts=replace(size.parts, centre_panel=fabric))
