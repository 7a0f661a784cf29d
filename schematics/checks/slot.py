"""A slot for the panel: does the panel fill it, so that front and back come out equally wide."""

from __future__ import annotations

from collections.abc import Iterator

from schematics.checks.finding import Case, Explanation, Family, Finding, Severity
from schematics.checks.rules.seam_limits import past_equal_widths_cm
from schematics.checks.wording import percent
from schematics.design.limits import COMMON
from schematics.garment.printed_lengths import grain_of
from schematics.units import exceeds

WIDTH = "FRONT-WIDTH"
_PLACE = "front"

ALIKE = "The panel ({panel}) fills a slot of {slot}, so front and back are equally wide."
UNLIKE = (
    "{panel} {gap} {side} than the slot of {slot} that it fills, so the front comes out as much ({share}) "
    "{side} than the back, which is {back}."
)
PLAIN, TAPERED = "The panel is", "The panel, {top} at the top, is at its foot"
BOTH_ENDS = "{foot} at the foot, {top} at the top"
WIDER, NARROWER = "wider", "narrower"


def check(case: Case) -> Iterator[Finding]:
    """The one finding on the slot."""
    leaves = case.garment.slot
    if leaves is None:
        yield case.finding(
            WIDTH, Severity.GOOD, _PLACE, "No slot is left out of the body for the panel to fill."
        )
        return
    slot, front, back = leaves.width_cm, leaves.front_cm, leaves.back_cm
    edges = case.garment.piece("centre panel")
    panel, top = (edges.edge(name).length_cm for name in ("lower", "top"))
    fraction, limit = abs(front - back) / max(front, back), case.limits.seam_mind_fraction
    unlike = exceeds(past_equal_widths_cm(front, back, case.limits), 0.0)

    def words() -> str:
        tape, foot = case.tape, case.tape.length(panel, grain_of("panel.width"))
        plain, tapered = (PLAIN, TAPERED) if unlike else ("{foot}", BOTH_ENDS)
        return (UNLIKE if unlike else ALIKE).format(
            panel=(plain if panel == top else tapered).format(
                foot=foot, top=tape.length(top, grain_of("panel.top"))
            ),
            gap=tape.length(abs(panel - slot)),
            slot=tape.length(slot, grain_of("body.slot")),
            share=percent(fraction, limit),
            side=WIDER if front > back else NARROWER,
            back=tape.length(back, grain_of("body.width")),
        )

    yield case.finding(
        WIDTH,
        Severity.MIND if unlike else Severity.GOOD,
        _PLACE,
        words,
        panel_cm=panel,
        slot_cm=slot,
        front_cm=front,
        back_cm=back,
        apart_fraction=fraction,
    )


FAMILY = Family(
    name="slot",
    check=check,
    explanations=(
        Explanation(
            code=WIDTH,
            title="The panel fills the slot it is seamed into",
            meaning=(
                "A folded body leaves a slot down the centre front for the panel. A panel as wide as the "
                "slot makes the front as wide as the back; a wider one makes the front hang fuller, a "
                "narrower one draws the sides forward. The difference is taken as a share of the wider of "
                "front and back. It can be meant, so it never stops a size. Bodies without a slot have "
                "nothing to compare."
            ),
            cure=(
                "Leave out as many body stitches as are as wide as the panel, or work the panel wider or "
                "narrower by whole repeats."
            ),
            origin=COMMON,
            limits=("seam_mind_fraction",),
            severities=(Severity.MIND, Severity.GOOD),
            tracked=("front_cm", "front width"),
        ),
    ),
)
