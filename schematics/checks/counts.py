"""The counts: what the stitch patterns, the ribbing and the increases ask of them."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from schematics.checks.finding import Case, Explanation, Family, Finding, Severity, Words
from schematics.checks.wording import every_row, listed, sentence_case
from schematics.crochet.charts.chart_fault import count_words
from schematics.crochet.charts.count_rules import multiple_words
from schematics.crochet.fabric import Counted, CountRule, RowRule
from schematics.crochet.stitches import TURNING_CHAINS
from schematics.design.limits import COMMON
from schematics.garment.constructions.demands import COUNT_INCREASE
from schematics.garment.garment import Edge, Garment, Piece, Ring
from schematics.garment.increases import IncreasePlan

MULTIPLE, REPEAT, EVEN, CHAIN = "COUNT-MULTIPLE", "COUNT-REPEAT", "COUNT-EVEN", "COUNT-CHAIN"
_VERDICTS = (Severity.STOP, Severity.GOOD)


def bound_by(edge: Edge) -> CountRule:
    """The rule that a stitch pattern has for the edge's count, across (stitches) or along (rows) its fabric.

    An edge that is only part of what the fabric is worked over may have any count.
    """
    if edge.partial:
        return CountRule()
    rule = _pattern_rule(edge)
    return rule.rule if isinstance(rule, RowRule) else rule


def _pattern_rule(edge: Edge) -> CountRule | RowRule:
    return edge.fabric.stitch_rule if edge.counted is Counted.STITCHES else edge.fabric.row_rule


def check(case: Case) -> Iterator[Finding]:
    """The count findings of one size: patterns across and along, rings, increases, chains."""
    yield from _patterns(case, Counted.STITCHES)
    yield from _patterns(case, Counted.ROWS)
    yield _even(case, "neck band", case.garment.neck)
    yield _even(case, "arm band", case.garment.arm.ring)
    yield _increases(case)
    yield _chains(case)


def _patterns(case: Case, counted: Counted) -> Iterator[Finding]:
    """One finding for each count that a pattern has a rule for; one in all where none has."""
    bound = [(piece, edges) for piece in case.garment.pieces for edges in _same_count(piece, counted)]
    for piece, edges in bound:
        yield _ruled(case, piece, edges)
    if not bound:
        code, what = (MULTIPLE, "multiple") if counted is Counted.STITCHES else (REPEAT, "row repeat")
        yield case.finding(code, Severity.GOOD, "all pieces", f"No stitch pattern asks for a {what}.")


def _same_count(piece: Piece, counted: Counted) -> list[list[Edge]]:
    """The piece's edges whose count a pattern binds, those that share count and fabric together."""
    groups: dict[tuple[int, str], list[Edge]] = {}
    for edge in piece.edges:
        if edge.counted is counted and not edge.partial and _pattern_rule(edge).binds:
            groups.setdefault((edge.count, edge.fabric.name), []).append(edge)
    return list(groups.values())


def _ruled(case: Case, piece: Piece, edges: list[Edge]) -> Finding:
    edge, rule = edges[0], bound_by(edges[0])
    place = f"{piece.name}, {listed(each.name for each in edges)}"
    return case.finding(
        MULTIPLE if edge.counted is Counted.STITCHES else REPEAT,
        Severity.GOOD if rule.allows(edge.count) else Severity.STOP,
        place,
        partial(_ruled_words, place, edge, rule),
        **{f"{edge.counted.name.lower()}_count": edge.count},
        below_count=rule.at_most(edge.count),
        above_count=rule.at_least(edge.count),
    )


def _ruled_words(place: str, edge: Edge, rule: CountRule) -> str:
    across, one = edge.counted is Counted.STITCHES, edge.count == 1
    asks = multiple_in_words(rule) if across else _repeat_words(edge.fabric.row_rule)
    noun = ("stitch" if one else "stitches") if across else ("row" if one else "rows")
    if rule.allows(edge.count):
        verdict = f"{edge.count} {noun} {'fits' if one else 'fit'} {asks}"
    else:
        nearest = nearest_words(rule, edge.count)
        verdict = f"{edge.count} {noun} {'does' if one else 'do'} not fit {asks}; {nearest}"
    return f"{sentence_case(place)}: {verdict}."


def multiple_in_words(rule: CountRule) -> str:
    """What a pattern asks of a count of stitches: ``a multiple of 4 plus 2``."""
    if rule.only:
        return f"a pattern of {multiple_words(rule)}"
    if rule.multiple == 1:
        return f"a pattern of at least {rule.smallest}"
    return f"a multiple of {multiple_words(rule)}"


def _repeat_words(rule: RowRule) -> str:
    named = ((rule.setup, "set-up"), (rule.closing, "closing"))
    ends = [f"{rows} {name} row{'' if rows == 1 else 's'}" for rows, name in named if rows]
    whole = f"whole repeats of {rule.repeat}" if rule.repeat > 1 else "any number of rows"
    return f"{whole} with {listed(ends)}" if ends else whole


def nearest_words(rule: CountRule, count: int) -> str:
    """The counts below and above that fit a pattern."""
    below, above = rule.at_most(count), rule.at_least(count)
    if rule.only:
        return f"make it {rule.plus}"
    return (
        f"the nearest that do are {below} and {above}" if below < above else f"the fewest that do are {above}"
    )


def _even(case: Case, place: str, ring: Ring) -> Finding:
    edge = ring.edge_count
    if edge % 2:
        severity = Severity.STOP
        verdict = f"ribbing takes them in pairs, so make it {edge - 1} or {edge + 1}"
    elif ring.band_rows != edge:
        severity = Severity.STOP
        verdict = f"its {ring.band_rows} ribbing rows do not match them one to one"
    else:
        severity, verdict = Severity.GOOD, f"an even number, for {ring.band_rows} ribbing rows"
    return case.finding(
        EVEN,
        severity,
        place,
        f"The {place} is worked onto {edge} edge stitches: {verdict}.",
        edge_count=edge,
        band_rows=ring.band_rows,
    )


def _increases(case: Case) -> Finding:
    """Whether the increases reach the hem count and no row is more than doubled."""
    plan = case.garment.increases
    if plan is None:
        return case.finding(COUNT_INCREASE, Severity.GOOD, "body", "The body is worked without increases.")
    hem = _hem_count(case.garment)
    added, wanted = sum(each for _, each in plan.rows), hem - plan.start
    crowded = [(row, more, before) for row, more, before in plan.running() if more > before]
    inner = plan.sections[1:-1]
    severity = Severity.STOP
    words: Words
    if added != wanted:
        words = (
            f"The increase rows add {count_words(added)}, but from {plan.start} at the neck to {hem} at the "
            f"hem takes {wanted}: work more rows, or increase more often."
        )
    elif crowded:
        row, more, before = crowded[0]
        words = (
            f"Row {row} would take {count_words(more, 'increase')} into {count_words(before)}, more than one "
            "in each: spread them over more increase rows."
        )
    elif plan.rows and min(inner, default=2) < 2:
        words = (
            f"A section between two lines of increases has only {min(inner)} stitch at the neck, and each "
            "row of increases takes one on either side of it: give it at least 2."
        )
    else:
        severity = Severity.GOOD
        words = partial(_increase_words, plan, hem)
    return case.finding(
        COUNT_INCREASE,
        severity,
        "body",
        words,
        start_count=plan.start,
        hem_count=hem,
        added_count=added,
        increase_rows=len(plan.rows),
    )


def _hem_count(garment: Garment) -> int:
    return garment.piece("body").edge("hem").count


def _increase_words(plan: IncreasePlan, hem: int) -> str:
    shares = [each for _, each in plan.rows]
    if not any(shares):
        return f"The body has {count_words(hem)} throughout, no increases."
    how = f"on {count_words(plan.lines, 'line')}" if plan.lines else "evenly spread"
    if plan.each and plan.interval:
        first, last = plan.used[0][0], plan.used[-1][0]
        rows = f"{plan.each} more in row {first} and {every_row(plan.interval)} to row {last}"
        return f"From {count_words(plan.start)} at the neck to {hem} at the hem: {rows}, {how}."
    low, high = min(shares), max(shares)
    each = f"{low}" if low == high else f"{low} to {high}"
    rows = f"{count_words(len(shares), 'increase row')} with {each} increase{'' if high == 1 else 's'}"
    return f"From {count_words(plan.start)} at the neck to {hem} at the hem: {rows}, {how}."


def _chains(case: Case) -> Finding:
    chains, figures = [], {}
    for piece in case.garment.pieces:
        chain = piece.fabric.foundation_chain(piece.foundation_stitches)
        turn = piece.fabric.turning_chains
        times = f" ({piece.quantity} times)" if piece.quantity > 1 else ""
        chains.append(f"{piece.name} {chain}{times} for {piece.foundation_stitches} + {turn}")
        figures[f"{piece.name.replace(' ', '_')}_count"] = chain
    return case.finding(
        CHAIN,
        Severity.GOOD,
        "foundation chains",
        f"Foundation chains, stitches + chains skipped at the turn: {'; '.join(chains)}.",
        **figures,
    )


FAMILY = Family(
    name="counts",
    check=check,
    explanations=(
        Explanation(
            code=MULTIPLE,
            title="Stitch counts fit the stitch pattern",
            meaning=(
                "A patterned fabric is worked over a multiple of so many stitches plus a few at the edge. "
                "Any other count breaks the pattern off in the middle of a repeat."
            ),
            cure=(
                "Take the nearest count that fits, below or above; round up where something must pass "
                "through."
            ),
            origin="Plain counting; the multiple is the stitch pattern's own, as the spec gives it.",
            severities=_VERDICTS,
        ),
        Explanation(
            code=REPEAT,
            title="Row counts fit the row repeat",
            meaning=(
                "A patterned fabric is worked in set-up rows, whole repeats and closing rows. Any other "
                "count ends in the middle of a repeat, and a cable or texture looks cut off."
            ),
            cure="Take the nearest row count that fits, and check the seams again.",
            origin=(
                "Plain counting; set-up, repeat and closing are the pattern's own, as the spec gives them."
            ),
            severities=_VERDICTS,
        ),
        Explanation(
            code=EVEN,
            title="Ribbing has an even number of edge stitches",
            meaning=(
                "Ribbing worked sideways joins the edge at the end of every row, out and back, so a pair of "
                "ribbing rows uses two edge stitches. On an odd number the last row has no stitch to join, "
                "and the ring cannot be closed in pattern."
            ),
            cure="Add or take one stitch at the neck edge, the panel's top or the arm run.",
            origin=COMMON,
            severities=_VERDICTS,
        ),
        Explanation(
            code=COUNT_INCREASE,
            title="The increases can be worked",
            meaning=(
                "From neck to hem the body gains a fixed number of stitches on its increase rows. A row can "
                "at most be doubled, one increase in each stitch; more crowds the fabric into a ruffle. "
                "Where increases lie on lines, each section between two lines gains a stitch at both its "
                "ends, so it needs at least two at the neck."
            ),
            cure="Work more rows, increase on more of them, or start from more stitches.",
            origin=f"At most one increase in each stitch: {COMMON}.",
            severities=_VERDICTS,
        ),
        Explanation(
            code=CHAIN,
            title="Foundation chains of every piece",
            meaning=(
                "The chains to make before the first row: its stitches and the chains skipped at the turn "
                f"({', '.join(f'{stitch} {chains}' for stitch, chains in TURNING_CHAINS.items())})."
            ),
            cure="Nothing to cure; it is what the written pattern has to say.",
            origin=COMMON,
            severities=(Severity.GOOD,),
        ),
    ),
)
