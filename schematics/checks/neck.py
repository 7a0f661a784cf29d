"""The neck: does the head pass, is the band tight, does it slip off the shoulders."""

from __future__ import annotations

from collections.abc import Iterator

from schematics.checks.finding import Case, Explanation, Family, Finding, Severity
from schematics.checks.ruled import verdict
from schematics.checks.wording import HIGH, ONE_PERSON, TYPICAL, of_body, percent, unknown
from schematics.design.limits import COMMON
from schematics.units import exceeds
from schematics.wearer.body import Body

PASS, TIGHT, SLIP = "NECK-PASS", "NECK-TIGHT", "NECK-SLIP"
_PLACE = "neck"


def check(case: Case) -> Iterator[Finding]:
    """The three neck findings of one size."""
    yield _passes(case)
    yield _tight(case)
    yield _slips(case)


def _passes(case: Case) -> Finding:
    head = case.wearer.get(Body.HEAD_GIRTH)
    if head is None:
        return unknown(case, PASS, _PLACE, [Body.HEAD_GIRTH], "whether the head passes the neck")
    ring = case.garment.neck
    words = case.tape.compare(head.high_cm, ring.full_cm)
    subject = f"The head ({words.first}, {of_body(head, HIGH)})"
    if exceeds(ring.edge_full_cm, ring.band_full_cm):
        tighter = "the band is tighter than the edge"
    elif exceeds(ring.band_full_cm, ring.edge_full_cm):
        tighter = "the edge is tighter than the band"
    else:
        tighter = "edge and band open alike"
    severity = verdict(case, PASS).severity
    sentence = (
        f"{subject} does not pass: the neck opens to {words.second}, {words.gap} too little; {tighter}."
        if severity is Severity.STOP
        else f"{subject} passes the neck, which opens to {words.second}; {tighter}."
    )
    return case.finding(
        PASS,
        severity,
        _PLACE,
        sentence,
        head_cm=head.high_cm,
        edge_full_cm=ring.edge_full_cm,
        band_full_cm=ring.band_full_cm,
        opens_cm=ring.full_cm,
    )


def _tight(case: Case) -> Finding:
    neck = case.wearer.get(Body.NECK_GIRTH)
    if neck is None:
        return unknown(case, TIGHT, _PLACE, [Body.NECK_GIRTH], "whether the neck is tight")
    rest, needs = case.garment.neck.rest_cm, neck.high_cm + case.limits.neck_clearance_cm
    severity = verdict(case, TIGHT).severity
    if severity is Severity.STOP:
        words = case.tape.compare(rest, needs)
        sentence = (
            f"At rest the neck opening ({words.first}) is tight on the neck "
            f"({case.tape.length(neck.high_cm)}, {of_body(neck, HIGH)}): "
            f"it needs {words.second}, {words.gap} more."
        )
    else:
        words = case.tape.compare(rest, neck.high_cm)
        sentence = (
            f"At rest the neck opening ({words.first}) clears the neck ({words.second}, "
            f"{of_body(neck, HIGH)}) by {words.gap}."
        )
    return case.finding(
        TIGHT,
        severity,
        _PLACE,
        sentence,
        rest_cm=rest,
        neck_cm=neck.high_cm,
        needs_cm=needs,
    )


def _slips(case: Case) -> Finding:
    shoulders = case.wearer.get(Body.SHOULDER_BREADTH)
    if shoulders is None:
        return unknown(
            case, SLIP, _PLACE, [Body.SHOULDER_BREADTH], "whether the neck slips off the shoulders"
        )
    flat, limit = case.garment.neck.rest_cm / 2, case.limits.neck_slip_fraction
    fraction = flat / shoulders.cm
    severity = verdict(case, SLIP).severity
    words = case.tape.compare(flat, shoulders.cm)
    held = f"more than {percent(limit)}: it slips off" if severity is Severity.MIND else "and stays on"
    return case.finding(
        SLIP,
        severity,
        _PLACE,
        f"Laid flat at rest the neck opening is {words.first} wide, {percent(fraction, limit)} of the "
        f"shoulder breadth ({words.second}, {of_body(shoulders, TYPICAL)}), {held}.",
        flat_cm=flat,
        shoulder_cm=shoulders.cm,
        width_fraction=fraction,
    )


FAMILY = Family(
    name="neck",
    check=check,
    explanations=(
        Explanation(
            code=PASS,
            title="The head passes the neck",
            meaning=(
                "A poncho goes on over the head. The neck opens as far as the tighter of two things: the "
                "neck edge it is worked on and the neck band, each at full stretch. Judged against the high "
                "end of the size's heads, because every child of the size has to get through; the growth "
                "references run larger than the trade's chart, so heads come from the age table where there "
                f"is one. {ONE_PERSON}"
            ),
            cure=(
                "Work more stitches at the neck, or a wider panel; if the band is the tighter, work it in a "
                "stretchier rib or looser gauge. A fastened slit is another way, but no cords for children."
            ),
            origin=(
                "Plain geometry; no allowance is added. Head girths from the growth references (WHO 2006, "
                "UK 1990, CDC 2000) or the size's own measurement."
            ),
        ),
        Explanation(
            code=TIGHT,
            title="The neck is not tight at rest",
            meaning=(
                "Worn and unstretched, the opening must stand clear of the neck all round. A tight band "
                "presses on a child's throat. Judged against the high end of the size's necks. "
                f"{ONE_PERSON}"
            ),
            cure="Work more stitches at the neck, or the band in a looser gauge.",
            origin=COMMON,
            limits=("neck_clearance_cm",),
        ),
        Explanation(
            code=SLIP,
            title="The neck does not slip off the shoulders",
            meaning=(
                "An opening nearly as wide as the shoulders slides down one arm. Half the opening's girth "
                "at rest is held against the typical shoulder breadth of the size: it disappoints, it does "
                "not stop the size."
            ),
            cure="Work fewer stitches at the neck, or a firmer neck band, as far as the head still passes.",
            origin=COMMON,
            limits=("neck_slip_fraction",),
            severities=(Severity.MIND, Severity.GOOD),
        ),
    ),
)
