"""The hang: where the hem comes on the body, and whether a child can trip on it.

Lengths are taken down from the nape, where the neck edge lies: along the centre back, and for the knee
to the place of the hem farthest from the neck edge, such as a corner. The body is taken to sag by
`Limits.hem_sag_fraction` when worn.
"""

from __future__ import annotations

from collections.abc import Iterator

from schematics.checks.finding import Case, Explanation, Family, Finding, Severity
from schematics.checks.ruled import verdict
from schematics.checks.wording import ONE_PERSON, borrowed_clause, listed, unknown
from schematics.design.limits import COMMON
from schematics.wearer.body import Body, Stage

KNEE, WHERE = "HANG-KNEE", "HANG-WHERE"
_PLACE = "hem"
_CORNER_CM = 0.5


def check(case: Case) -> Iterator[Finding]:
    """The two hang findings of one size."""
    yield _knee(case)
    yield _where(case)


def worn_drop_cm(case: Case) -> float:
    """The centre back from neck edge to hem as it hangs, sag included."""
    return case.garment.drop_cm * (1 + case.limits.hem_sag_fraction)


def _knee(case: Case) -> Finding:
    needed = [Body.NAPE_HEIGHT, Body.KNEE_HEIGHT]
    nape, knee = (case.wearer.get(body) for body in needed)
    if nape is None or knee is None:
        return unknown(case, KNEE, _PLACE, needed, "whether the hem stays above the knee")
    garment, asked = case.garment, case.limits.knee_clearance_cm
    worn = garment.longest_drop_cm * (1 + case.limits.hem_sag_fraction)
    hem = "hem" if garment.longest_drop_cm - garment.drop_cm < _CORNER_CM else "hem's lowest corner"
    adult = case.wearer.stage is Stage.ADULT
    found = verdict(case, KNEE)
    clearance = found.figure("typical_ease_cm" if adult else "ease_cm")
    gap = case.tape.compare(clearance, 0.0).gap
    end = "" if adult or clearance == nape.high_cm - worn - knee.low_cm else " at the worst end of the size"
    side = f"{gap} {'below' if clearance < 0 else 'above'} the knee{end}"
    shorter = case.tape.at_least((asked - clearance) / (1 + case.limits.hem_sag_fraction))
    if found.severity is Severity.GOOD:
        sentence = f"Worn, the {hem} stays {side}"
    elif adult:
        sentence = f"Worn, the {hem} comes {side}: shorten the body by at least {shorter}"
    else:
        sentence = (
            f"Worn, the {hem} can come {side}, where a child trips: shorten the body by at least {shorter}"
        )
    return case.finding(
        KNEE,
        found.severity,
        _PLACE,
        f"{sentence}{borrowed_clause(case, needed)}.",
        drop_cm=garment.longest_drop_cm,
        worn_cm=worn,
        clearance_cm=clearance,
    )


def _below_nape(case: Case) -> dict[Body, float]:
    """How far below the nape waist, hip and knee typically lie, by the measurement that tells it."""
    depths: dict[Body, float] = {}
    nape, back = case.wearer.get(Body.NAPE_HEIGHT), case.wearer.get(Body.BACK_WAIST_LENGTH)
    if back is not None:
        depths[Body.BACK_WAIST_LENGTH] = back.cm
    heights = (Body.WAIST_HEIGHT, Body.HIP_HEIGHT, Body.KNEE_HEIGHT)
    for body in heights[1:] if back is not None else heights:
        height = case.wearer.get(body)
        if nape is not None and height is not None:
            depths[body] = nape.cm - height.cm
    return depths


_LANDMARKS = {
    Body.BACK_WAIST_LENGTH: "waist",
    Body.WAIST_HEIGHT: "waist",
    Body.HIP_HEIGHT: "hip",
    Body.KNEE_HEIGHT: "knee",
}


def _where(case: Case) -> Finding:
    depths = _below_nape(case)
    waist = depths.get(Body.BACK_WAIST_LENGTH, depths.get(Body.WAIST_HEIGHT))
    if waist is None:
        return unknown(case, WHERE, _PLACE, [Body.BACK_WAIST_LENGTH], "where the hem comes")
    worn = worn_drop_cm(case)
    severity = verdict(case, WHERE).severity
    passed = [body for body, depth in depths.items() if depth <= worn]
    ahead = [body for body, depth in depths.items() if depth > worn]
    used = [*passed[-1:], *ahead[:1]]
    told = [
        f"{case.tape.length(abs(depths[body] - worn), coarse=True)} "
        f"{'below' if body in passed else 'above'} the {_LANDMARKS[body]}"
        for body in used
    ]
    needed = used if used == [Body.BACK_WAIST_LENGTH] else [Body.NAPE_HEIGHT, *used]
    question = "; is a short cape meant?" if severity is Severity.MIND else "."
    return case.finding(
        WHERE,
        severity,
        _PLACE,
        f"On the typical wearer the hem comes {listed(told)}{borrowed_clause(case, needed)}{question}",
        drop_cm=case.garment.drop_cm,
        worn_cm=worn,
        **{f"{_LANDMARKS[body]}_cm": depth for body, depth in depths.items()},
    )


FAMILY = Family(
    name="hang",
    check=check,
    explanations=(
        Explanation(
            code=KNEE,
            title="The hem stays above the knee",
            meaning=(
                "A hem below the knee catches the feet on stairs and play equipment: a child trips. The "
                "drop from nape to hem, with the sag of a worn body added, is taken from the nape's height "
                "and held against the knee's, for a small, a typical and a large child of the size (low "
                "nape with low knee, high with high), and the worst of the three counts. "
                f"{ONE_PERSON} For adults it is a "
                "matter of looks and is judged on the typical body. What counts is the place of the hem that "
                "lies farthest from the neck edge: all of a flared hem, the corners of a folded or mitred "
                "one. On its way over the shoulder a corner loses a little height less than that, so the "
                "check is on the strict side; a front whose neck edge starts lower hangs lower, so try it on."
            ),
            cure="Work fewer body rows, and as many fewer panel rows as the seam needs.",
            origin=f"The rule and both limits: {COMMON}.",
            limits=("hem_sag_fraction", "knee_clearance_cm"),
        ),
        Explanation(
            code=WHERE,
            title="Where the hem comes on the body",
            meaning=(
                "Tells between which of waist, hip and knee the hem comes on a typical body of the size, "
                "measured down the centre back with the sag of a worn body added. A hem above the waist is "
                "worth a look: it may be meant."
            ),
            cure="Work more body rows; or, where a short cape is meant, raise short_above_waist_cm.",
            origin=COMMON,
            limits=("hem_sag_fraction", "short_above_waist_cm"),
            severities=(Severity.MIND, Severity.GOOD),
        ),
    ),
)
