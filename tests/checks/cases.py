"""Cases to check: a flared garment at one stitch and one row to the centimetre, and made-up wearers.

At this gauge every count is its length in cm, so expected figures are plain sums.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from pathlib import Path
from typing import Any

from schematics.checks import check_size
from schematics.checks.finding import Case, Finding
from schematics.crochet.charts.chart import Chart
from schematics.crochet.charts.chart_text import parse_row
from schematics.crochet.fabric import Fabric, RowRule, Swatch
from schematics.design.border import Border, BorderEdge
from schematics.design.design import Design, Parts, Size, Yarn
from schematics.design.limits import Limits
from schematics.garment.arm_freedom import arm_freedom
from schematics.garment.constructions.base import HemArms
from schematics.garment.constructions.flared import FLARED, FlaredBody
from schematics.units import Unit
from schematics.wearer.body import Body, BodyValue, Origin, Stage, Wearer, WearerSpec

PLAIN = Fabric(
    name="plain",
    stitch="single crochet",
    swatch=Swatch(stitches=10, rows=10, width_cm=10, height_cm=10),
)
PARTS = Parts(body=PLAIN, centre_panel=PLAIN, neck_band=PLAIN, arm_bands=PLAIN)


def spread(low_cm: float, cm: float, high_cm: float, origin: Origin = Origin.CHART) -> BodyValue:
    return BodyValue(cm=cm, low_cm=low_cm, high_cm=high_cm, origin=origin, source="made up for a test")


def measured(cm: float) -> BodyValue:
    return spread(cm, cm, cm, Origin.OWN)


CHILD: Mapping[Body, BodyValue] = {
    Body.HEAD_GIRTH: spread(50, 52, 54),
    Body.NECK_GIRTH: spread(26, 28, 30),
    Body.CHEST_GIRTH: spread(54, 56, 58),
    Body.UPPER_ARM_GIRTH: spread(15, 16, 17),
    Body.SHOULDER_BREADTH: spread(30, 32, 34),
    Body.CENTRE_BACK_NECK_TO_WRIST: spread(37, 39, 41),
    Body.FOREARM_LENGTH: spread(13, 14, 15),
    Body.ARMHOLE_DEPTH: spread(11, 12, 13),
    Body.HAND_GIRTH: spread(14, 16, 18),
    Body.WRIST_GIRTH: spread(13, 15, 17),
    Body.BACK_WAIST_LENGTH: spread(21, 23, 25),
    Body.NAPE_HEIGHT: spread(90, 95, 100),
    Body.WAIST_HEIGHT: spread(68, 72, 76),
    Body.HIP_HEIGHT: spread(56, 60, 64),
    Body.KNEE_HEIGHT: spread(28, 30, 32),
}
"""A child whom the default garment fits in every way."""

_BODY = ("neck", "hem", "rows", "increase_every", "increase_until")
_ARMS = ("from_front", "stitches")


def make_case(
    *,
    parts: Parts = PARTS,
    limits: Limits | None = None,
    sure_fraction: float = 0.0,
    stage: Stage = Stage.CHILD,
    person: bool = False,
    body: Mapping[Body, BodyValue | None] | None = None,
    garment: Mapping[str, Any] | None = None,
    **counts: int,
) -> Case:
    """A case that is good throughout but for what is given; lengths are taken as they are measured.

    ``body`` changes the child (None takes a measurement away), ``counts`` the size's counts by
    their names in a spec, ``garment`` any field of the finished garment. ``sure_fraction`` is in how many
    cases what is good has to hold, for who looks at that.
    """
    given = {"neck": 36, "hem": 160, "rows": 30, "from_front": 30, "stitches": 18} | counts
    size = Size(
        name="4",
        wearer=WearerSpec(),
        body=FlaredBody(**{name: given.pop(name) for name in _BODY if name in given}),
        arms=HemArms(**{name: given.pop(name) for name in _ARMS}),
        meant=(),
        **({"panel_stitches": 20, "panel_rows": 30, "neck_band_stitches": 6, "arm_band_stitches": 4} | given),
        line=1,
    )
    made = replace(FLARED.build(size, parts), **(garment or {}))
    values = {key: value for key, value in {**CHILD, **(body or {})}.items() if value is not None}
    design = Design(
        slug="lake",
        path=Path("lake.yaml"),
        title="Lake",
        date=None,
        unit=Unit.CM,
        construction="flared",
        yarn=Yarn(name="wool"),
        hook_mm=5.0,
        parts=parts,
        sizes=(size,),
        limits=replace(limits or Limits(), sure_fraction=sure_fraction),
    )
    return Case(
        design=design,
        parts=parts,
        size=size,
        garment=made,
        freedom=arm_freedom(made),
        wearer=Wearer(label="made up", stage=stage, age_years=4.0, person=person, values=values),
        limits=design.limits,
    )


def fabric(**changes: Any) -> Fabric:
    """The plain fabric with changes."""
    return replace(PLAIN, **changes)


def charted(
    *repeat: str, setup: Sequence[str] = (), adds: tuple[int, int, int] = (0, 0, 0), **changes: Any
) -> Fabric:
    """The plain fabric with a chart of those rows."""
    chart = Chart(setup=tuple(map(parse_row, setup)), repeat=tuple(map(parse_row, repeat)), adds=adds)
    rule = RowRule(setup=len(setup), repeat=len(repeat))
    return fabric(chart=chart, row_rule=rule, **changes)


def border(*, at: BorderEdge | int, rows: int = 6, **changes: Any) -> Border:
    """A border without a multiple, but for what is given."""
    return Border(**({"name": "edging", "stitch": "lace", "at": at, "rows": rows} | changes))


def charted_border(first_row: int, **changes: Any) -> Border:
    """Three rows from a chart that begins on the right side."""
    chart = Chart(repeat=(parse_row("hdc across"),))
    rule = RowRule(repeat=1)
    given: dict[str, Any] = {
        "name": f"from {first_row}",
        "rows": 3,
        "row_rule": rule,
        "chart": chart,
    } | changes
    return border(at=first_row, **given)


def findings(case: Case, code: str) -> list[Finding]:
    """The case's findings of that code."""
    return [each for each in check_size(case) if each.code == code]


def finding(case: Case, code: str) -> Finding:
    """The case's one finding of that code."""
    (only,) = findings(case, code)
    return only
