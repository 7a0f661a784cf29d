"""The seams: do the two edges meet, and how their rows are joined."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from functools import cache, partial
from typing import Any

from schematics.checks.certainty import seam_certainty
from schematics.checks.counts import bound_by
from schematics.checks.finding import Case, Explanation, Family, Finding, Severity
from schematics.checks.rules.seam_limits import allowed_cm, past_agreement_cm, past_stop_cm
from schematics.checks.wording import listed, percent
from schematics.crochet.fabric import Fabric
from schematics.crochet.join_words import JoinSide, join_words
from schematics.crochet.spacing import RATIO_TOLERANCE, join
from schematics.design.limits import COMMON, Limits
from schematics.garment.constructions.panel_formulas import panel_formulas
from schematics.garment.garment import Edge, Seam
from schematics.units import Grain, exceeds

LENGTH, JOIN = "SEAM-LENGTH", "SEAM-JOIN"

SEAM_WORDS = {
    "alike": "Along the seam the {one} and the {other} are equally long, {length}: {verdict}.",
    "apart": (
        "Along the seam the {one} is {gap} ({share}) shorter than the {other}, {length}: {verdict}{cure}."
    ),
}
"""Of two lengths one is printed and how far the other is off: rounded, they would not add up."""

SEAM_CURE = "; {counted} would be {length}"
NOT_MET, TO_EASE_IN = "the edges do not meet", "ease the longer edge in"


def check(case: Case) -> Iterator[Finding]:
    """Two findings on each seam; seams that are alike in every figure are reported together."""
    for seams in _alike(case.garment.seams):
        yield _length(case, seams)
        yield _join(case, seams)


def _alike(seams: Sequence[Seam]) -> list[list[Seam]]:
    groups: dict[tuple[object, ...], list[Seam]] = {}
    for seam in seams:
        first, second = _figures(seam.first), _figures(seam.second)
        groups.setdefault((seam.first_piece, first, seam.second_piece, second), []).append(seam)
    return list(groups.values())


def _figures(edge: Edge) -> tuple[object, ...]:
    return edge.length_cm, edge.count, edge.counted, edge.fabric.name


def _place(seams: Sequence[Seam]) -> str:
    letters = listed(seam.letter for seam in seams)
    if len(seams) > 1:
        return f"seams {letters}"
    return f"seam {letters}" + (f", {seams[0].places} places" if seams[0].places > 1 else "")


def _length(case: Case, seams: Sequence[Seam]) -> Finding:
    seam, limits = seams[0], case.limits
    first, second = seam.first.length_cm, seam.second.length_cm
    apart = abs(first - second)
    fraction = apart / max(first, second)
    edges = _edges(seam)
    if not meets(seam, limits):
        severity, verdict = Severity.STOP, NOT_MET
    elif exceeds(past_agreement_cm(*edges, limits), 0.0):
        severity, verdict = Severity.MIND, TO_EASE_IN
    elif exceeds(fraction, limits.seam_mind_fraction):
        severity, verdict = Severity.GOOD, "the edges meet, as near as rows come"
    else:
        severity, verdict = Severity.GOOD, "the edges meet"

    def words() -> str:
        one, other = seam.names if first <= second else reversed(seam.names)
        return SEAM_WORDS["apart" if exceeds(apart, 0.0) else "alike"].format(
            one=one,
            other=other,
            length=case.tape.length(max(first, second), Grain.COARSE),
            gap=case.tape.more_than_nought(apart),
            share=percent(fraction, limits.seam_mind_fraction, limits.seam_stop_fraction),
            verdict=verdict,
            cure=_cure(case, seam) if severity is not Severity.GOOD else "",
        )

    return Finding(
        code=LENGTH,
        severity=severity,
        size=case.size.name,
        place=_place(seams),
        words=words,
        numbers={
            "first_cm": first,
            "second_cm": second,
            "apart_cm": apart,
            "apart_fraction": fraction,
            "allowed_cm": float(allowed_cm(*edges, limits)),
        },
        sure=partial(seam_certainty, case, first, second, seam.names[1], minded=severity is Severity.MIND),
    )


def meets(seam: Seam, limits: Limits) -> bool:
    """Whether the longer of the two edges can be eased in, so that both end level."""
    return not exceeds(past_stop_cm(*_edges(seam), limits), 0.0)


def _edges(seam: Seam) -> tuple[float, float, float, float]:
    return seam.first.length_cm, seam.second.length_cm, _row_cm(seam.first), _row_cm(seam.second)


def _row_cm(edge: Edge) -> float:
    """Height of a row of the edge; of an edge of stitches, the width of one."""
    return edge.fabric.length_cm(1, edge.counted)


def _cure(case: Case, seam: Seam) -> str:
    """The allowed count that brings one edge nearest to the other, the second edge if that helps."""
    apart = abs(seam.first.length_cm - seam.second.length_cm)
    one, other = seam.names
    for name, edge, target in (
        (other, seam.second, seam.first.length_cm),
        (one, seam.first, seam.second.length_cm),
    ):
        count, length = nearest_count(edge, edge.fabric, target)
        if exceeds(apart, abs(length - target)):
            counted = JoinSide(name, edge.counted).words(count)
            return SEAM_CURE.format(counted=counted, length=case.tape.length(length, Grain.COARSE))
    return ""


def nearest_count(edge: Edge, fabric: Fabric, length_cm: Any) -> tuple[Any, Any]:
    """The allowed count that brings an edge, sloping or not, nearest to a length, and its length then.

    Args:
        edge: the edge.
        fabric: that of the edge, or the same at a gauge that is not known.
        length_cm: what its length is to be, `Traced` in such a fabric.
    """
    if not math.isclose(edge.length_cm, edge.fabric.length_cm(edge.count, edge.counted)):
        panel = panel_formulas(fabric)
        rows = panel.rows_along(length_cm)
        return rows, panel.side_cm(rows)
    count = bound_by(edge).nearest(fabric.count_along(length_cm, edge.counted))
    return count, fabric.length_cm(count, edge.counted)


def _join(case: Case, seams: Sequence[Seam]) -> Finding:
    seam = seams[0]
    how = cache(partial(join, seam.first.count, seam.second.count))

    def numbers() -> dict[str, float]:
        return {
            "first_count": how().first_rows,
            "second_count": how().second_rows,
            "ratio_first_count": how().ratio.numerator,
            "ratio_second_count": how().ratio.denominator,
        }

    return Finding(
        code=JOIN,
        severity=Severity.GOOD,
        size=case.size.name,
        place=_place(seams),
        words=lambda: f"{join_words(how(), *seam.sides(seam.names))}.",
        numbers=numbers,
    )


FAMILY = Family(
    name="seams",
    check=check,
    explanations=(
        Explanation(
            code=LENGTH,
            title="The two edges of a seam are equally long",
            meaning=(
                "Edges of unlike length pucker or drag when they are seamed, and the front of the garment "
                "hangs crooked. Rows come whole, so edges agree within half a row of the coarser one; "
                "long edges may differ by a share of the longer, where that is more. Past that the longer "
                "edge has to be eased in. A difference that is small in centimetres, as a share of the "
                "longer edge or in rows eases in on any edge, so it never stops a size. It is said how often "
                "the edges could be seamed as swatch and hand may be off, but what is good stays good "
                "however seldom that is: the maker ends the later piece level with the other."
            ),
            cure=(
                "Add rows to the shorter edge or take them from the longer, in whole row repeats, or "
                "measure both swatches again: the lengths rest on the row gauges."
            ),
            origin=COMMON,
            limits=(
                "seam_mind_row_fraction",
                "seam_mind_fraction",
                "seam_stop_row_fraction",
                "seam_stop_fraction",
                "seam_stop_cm",
            ),
            tracked=("apart_cm", "seam edges apart"),
        ),
        Explanation(
            code=JOIN,
            title="How the rows of two edges are joined",
            meaning=(
                "Pieces with unlike row gauges have unlike numbers of rows along one seam. The simple ratio "
                "is what to work by. The exact schedule says for each row of the edge with fewer rows, in "
                "turn, how many rows of the other it takes, and comes out even at the end: in '[2, 1] × 6' "
                "the brackets are repeated six times, and '1 × 13' stands for thirteen ones. Start all "
                "seams that are alike at the same end."
            ),
            cure="Nothing to cure; whether the lengths agree is another check.",
            origin=(
                f"Arithmetic: the simplest ratio within {percent(RATIO_TOLERANCE)} ({COMMON}), spaced evenly."
            ),
            severities=(Severity.GOOD,),
        ),
    ),
)
