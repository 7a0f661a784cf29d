"""What a size's counts must keep: the counts by hand, the stitch patterns, and all that stops a size."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

import numpy as np

from schematics.checks import counts
from schematics.checks.rules.judging import Judge, judges
from schematics.checks.rules.seam_limits import past_stop_cm
from schematics.checks.seams import LENGTH as SEAM_LENGTH
from schematics.crochet.charts.count_rules import multiple_words
from schematics.crochet.fabric import Counted, CountRule
from schematics.garment.amounts import CountValues, Numbers
from schematics.garment.constructions.demands import even
from schematics.garment.constructions.edge_formulas import SeamFormulas
from schematics.grading.case import Ask, SizeCase
from schematics.grading.garment_facts import facts_in, inputs_from, needs_of
from schematics.units import HAIR


def asks_of(case: SizeCase) -> Iterator[Ask]:
    """Everything the counts must keep; a size that is given whole is as it is."""
    yield from _given(case)
    if case.complete:
        return
    yield from _patterns(case)
    yield from _evens(case)
    counts = frozenset(case.counts)
    for each in case.formulas.demands:
        if each.kept.needs <= counts:
            yield Ask(
                key=each.words, words=each.words, needs=each.kept.needs, miss=each.kept.miss,
                code=each.code or "", cure=each.cure, loose=each.loose,
            )  # fmt: skip
    yield from _seam_asks(case)
    yield from _stops(case)


def _given(case: SizeCase) -> Iterator[Ask]:
    for count, value in case.size.given.items():
        line = f" (line {case.size.lines[count]})" if count in case.size.lines else ""
        yield Ask(
            key=f"{count} by hand",
            words=f"{count} is {value} by hand{line}",
            needs=frozenset({count}),
            miss=partial(_apart, count, value),
            count=count,
        )


def _apart(count: str, value: int, counts: CountValues) -> Numbers:
    return np.abs(np.asarray(counts[count]) - value)


def _patterns(case: SizeCase) -> Iterator[Ask]:
    for pattern in case.formulas.patterns:
        rule, rows = pattern.rule, pattern.fabric.row_rule
        if rule == CountRule():
            continue
        across = pattern.counted is Counted.STITCHES
        if across:
            fits = multiple_words(rule) if rule.only else f"multiples of {multiple_words(rule)}"
            other = "number of stitches" if rule.only else "stitch multiple"
        else:
            ends = rows.setup + rows.closing
            fits = f"repeats of {rule.multiple} rows{f' plus {ends}' if ends else ''}"
            other = "row repeat"
        yield Ask(
            key=f"pattern of {pattern.words}",
            words=f"{pattern.words} fits {fits} ({pattern.fabric.name})",
            needs=pattern.kept.needs,
            miss=pattern.kept.miss,
            code=counts.MULTIPLE if across else counts.REPEAT,
            cure=f"another {other} for {pattern.fabric.name}",
        )


def _evens(case: SizeCase) -> Iterator[Ask]:
    for ring, place in ((case.formulas.neck, "neck band"), (case.formulas.arm, "arm band")):
        yield Ask(
            key=f"{place} even",
            words=f"the {place} is worked onto an even number of edge stitches",
            needs=ring.edge_count.needs,
            miss=even(ring.edge_count).miss,
            code=counts.EVEN,
            cure="one edge stitch more or less",
        )


def _seam_asks(case: SizeCase) -> Iterator[Ask]:
    for seam in case.formulas.seams:

        def miss(counts: CountValues, seam: SeamFormulas = seam) -> Numbers:
            first, second = seam.first_cm.at(counts), seam.second_cm.at(counts)
            past = past_stop_cm(first, second, *seam.rows_cm, case.limits)
            positive = (first > HAIR) & (second > HAIR)
            return np.where(positive, np.where(past > HAIR, past, 0.0), 1.0)

        yield Ask(
            key=f"{seam.words} meet",
            words=f"{seam.words}: the edges meet",
            needs=seam.apart_cm.needs,
            miss=miss,
            code=SEAM_LENGTH,
            cure="edges nearer in length by {miss}: a shorter row repeat, or other counts by hand",
        )


def _stops(case: SizeCase) -> Iterator[Ask]:
    inputs = inputs_from(case)
    for judge in judges(case.limits).values():
        rule = judge.rule
        if rule.stop is None:
            continue

        def miss(counts: CountValues, judge: Judge = judge) -> Numbers:
            assert judge.stop is not None
            garments = inputs(counts)
            short = -np.asarray(judge.figure("ease_cm", garments), dtype=float)
            return np.where(judge.stop(garments), np.maximum(np.nan_to_num(short), HAIR * 2), 0.0)

        yield Ask(
            key=rule.code,
            words=rule.about.kept,
            needs=needs_of(case, facts_in(rule.stop)),
            miss=miss,
            code=rule.code,
            cure=rule.about.remedy,
        )
