"""Random wearers, sensible ones and absurd, with gaps."""

from __future__ import annotations

from hypothesis import strategies as st

from schematics.wearer.body import Body, BodyValue, Origin, Stage, Wearer

RANGES = {
    Body.HEAD_GIRTH: (40, 62),
    Body.NECK_GIRTH: (20, 45),
    Body.CHEST_GIRTH: (40, 130),
    Body.UPPER_ARM_GIRTH: (10, 45),
    Body.WRIST_GIRTH: (8, 20),
    Body.HAND_GIRTH: (9, 26),
    Body.SHOULDER_BREADTH: (18, 45),
    Body.CENTRE_BACK_NECK_TO_WRIST: (25, 90),
    Body.FOREARM_LENGTH: (8, 30),
    Body.ARMHOLE_DEPTH: (5, 30),
    Body.BACK_WAIST_LENGTH: (15, 50),
    Body.HEIGHT: (60, 190),
    Body.NAPE_HEIGHT: (50, 165),
    Body.WAIST_HEIGHT: (35, 120),
    Body.HIP_HEIGHT: (30, 100),
    Body.KNEE_HEIGHT: (15, 60),
}
"""Every body measurement, in cm."""


@st.composite
def values(draw: st.DrawFn, body: Body) -> BodyValue:
    low, high = RANGES[body]
    absurd = draw(st.integers(0, 9)) == 0
    centimetres = st.floats(3, 200) if absurd else st.floats(low, high)
    cm, less, more = draw(centimetres), draw(st.floats(0, 4)), draw(st.floats(0, 4))
    if draw(st.booleans()):
        less = more = 0.0
    return BodyValue(
        low_cm=max(cm - less, 1), cm=cm, high_cm=cm + more, origin=Origin.OWN, source="made up for a test"
    )


@st.composite
def wearers(draw: st.DrawFn) -> Wearer:
    known = [body for body in Body if draw(st.integers(0, 9))]
    return Wearer(
        label="made up",
        stage=draw(st.sampled_from(Stage)),
        age_years=draw(st.none() | st.floats(0, 90)),
        person=draw(st.booleans()),
        values={body: draw(values(body)) for body in known},
    )
