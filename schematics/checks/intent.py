"""The intents: is every length as the designer meant it, within its tolerance."""

from __future__ import annotations

from collections.abc import Iterator

from schematics.checks.finding import Case, Explanation, Family, Finding, Severity
from schematics.design.limits import COMMON, TOLERANCE_WORDS
from schematics.units import exceeds

MEANT = "LENGTH-MEANT"


def check(case: Case) -> Iterator[Finding]:
    """One finding for each length that is off by more than its tolerance; one in all where none is.

    None at a maker's own gauge.
    """
    if case.parts != case.design.parts:
        return
    lengths = {each.key: each for each in case.garment.finished}
    misses = [
        meant
        for meant in case.size.meant
        if exceeds(abs(lengths[meant.key].length_cm - meant.length_cm), meant.tolerance_cm)
    ]
    for meant in misses:
        finished = lengths[meant.key]
        off = case.tape.compare(abs(finished.length_cm - meant.length_cm), meant.tolerance_cm)
        side = "longer" if finished.length_cm > meant.length_cm else "shorter"
        yield case.finding(
            MEANT,
            Severity.MIND,
            meant.key,
            f"The {finished.name} comes out {off.first} {side} than the {case.tape.length(meant.length_cm)} "
            f"it is meant to be, more than the {off.second} that are allowed.",
            length_cm=finished.length_cm,
            meant_cm=meant.length_cm,
            tolerance_cm=meant.tolerance_cm,
        )
    if not misses:
        sentence = (
            "Every length is as it was meant"
            if case.size.meant
            else "The spec says of no length how it is meant"
        )
        yield case.finding(MEANT, Severity.GOOD, "all lengths", f"{sentence}.")


FAMILY = Family(
    name="intents",
    check=check,
    explanations=(
        Explanation(
            code=MEANT,
            title="Lengths are as they were meant",
            meaning=(
                "The design says how long each measurement should be. Whole stitches, rows and pattern "
                "repeats seldom give just that length; one within its tolerance is as good as meant: "
                f"{TOLERANCE_WORDS}, half a repeat where only "
                "whole repeats can be made, or the tolerance that the design gives. A length beyond it makes "
                "another garment than was designed. At a maker's own gauge every length is another than "
                "meant: there it is asked only whether it fits."
            ),
            cure=(
                "See what grading names as the reason; change that, the length meant or the tolerance, or "
                "give the count by hand."
            ),
            origin=COMMON,
            severities=(Severity.MIND, Severity.GOOD),
        ),
    ),
)
