"""The rules a size's counts keep, each with a name, so that a contradiction can be told.

What the checks would stop is a rule that is never broken; what they would only mind is a wish. A
finding has one rule here for each of the ways to break it that can be cured on its own.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from schematics.checks.tape import Tape
from schematics.checks.wording import percent
from schematics.constructions.facts import Facts, Pattern, PickedUp, RingFacts, even
from schematics.design import Parts
from schematics.fabric import Counted, CountRule, Fabric
from schematics.grading.draft import DraftSize
from schematics.limits import Limits
from schematics.linear import Linear, Row, at_least, within
from schematics.wearer.body import Body, Stage, Wearer

Clause = tuple[Row, ...]
"""At least one of the rows holds."""

_TURNS = tuple(math.pi / 2 * step / 12 for step in range(13))
"""Directions in which a corner's distance is taken: the largest is short by 0.2 % at most."""
_TIE = 1e-4
"""How near to a tie a rounded count may come, in stitches: swatch figures tell ties farther apart."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Rule:
    """Every clause holds; a wish may be broken at a price.

    ``key`` is unique in a design and the same every time. ``sizes`` are indices. ``cure`` says what
    would release a rule that stands in the way, ``{miss}`` in it the length that is missing and
    ``{missing}`` the number of stitches or rows. ``short`` names a rule without a code. Wishes with
    one ``price`` are broken together. ``unless`` and ``given`` name choices: the rule is silent where
    the first is made, or the second is not. ``learnt`` ones hold only beside the counts fixed by hand.
    """

    key: str
    sizes: tuple[int, ...]
    words: str
    clauses: tuple[Clause, ...]
    cure: str = ""
    code: str | None = None
    short: str = ""
    count: str | None = None
    wish: bool = False
    price: str = ""
    unless: str = ""
    given: str = ""
    learnt: bool = False
    stretch: Stretch | None = None

    @property
    def always(self) -> bool:
        """Whether it is never broken nor silent."""
        return not (self.wish or self.unless or self.given)

    def miss(self, counts: Mapping[str, float]) -> float:
        """How far the rule is from holding; 0 where it does."""
        return max((min(row.miss(counts) for row in clause) for clause in self.clauses), default=0.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """A fabric that would let something pass if it gave more: its part, its give, what must pass."""

    part: str
    direction: str
    fraction: float
    girth_cm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class SizeCase:
    """One size to be graded."""

    index: int
    size: DraftSize
    facts: Facts
    wearer: Wearer
    parts: Parts
    limits: Limits
    tape: Tape

    def rule(self, key: str, words: str, *clauses: Clause, **more: object) -> Rule:
        """A rule on this size alone."""
        return Rule(
            key=f"{self.size.name}: {key}",
            sizes=(self.index,),
            words=words,
            clauses=tuple(tuple(row.of_size(self.index) for row in clause) for clause in clauses),
            **more,  # type: ignore[arg-type]  # the rule's own fields
        )


def size_rules(case: SizeCase) -> Iterator[Rule]:
    """Every rule on one size that follows from its facts."""
    yield from _given(case)
    yield from _patterns(case)
    yield from _rounded(case)
    yield from _evens(case)
    yield from _demands(case)
    yield from _seams(case)
    yield from _neck(case)
    yield from _arm(case)
    yield from _hang(case)
    yield from _front(case)


def _given(case: SizeCase) -> Iterator[Rule]:
    for count, value in case.size.given.items():
        yield case.rule(
            f"{count} by hand",
            f"{count} is {value} by hand"
            + (f" (line {case.size.lines[count]})" if count in case.size.lines else ""),
            (within(Linear.of(count), value, value),),
            count=count,
        )


def _patterns(case: SizeCase) -> Iterator[Rule]:
    for pattern in case.facts.patterns:
        rule = pattern.rule
        if rule == CountRule():
            continue
        row = Row(value=pattern.count, low=rule.smallest, multiple=rule.multiple, plus=rule.plus)
        across = pattern.counted is Counted.STITCHES
        yield case.rule(
            f"pattern of {pattern.words}",
            f"{pattern.words} fits {_asks(pattern)} ({pattern.fabric.name})",
            (row,),
            cure=f"another {'stitch multiple' if across else 'row repeat'} for {pattern.fabric.name}",
            code="COUNT-MULTIPLE" if across else "COUNT-REPEAT",
        )


def _asks(pattern: Pattern) -> str:
    rule, rows = pattern.rule, pattern.fabric.row_rule
    if pattern.counted is Counted.STITCHES:
        return f"multiples of {rule.multiple}{f' plus {rule.plus}' if rule.plus else ''}"
    ends = rows.setup + rows.closing
    return f"repeats of {rule.multiple} rows{f' plus {ends}' if ends else ''}"


def _rounded(case: SizeCase) -> Iterator[Rule]:
    for each in case.facts.picked_up:
        yield case.rule(
            f"{each.name} rounded",
            f"{each.name} is the even number that fits best",
            *((row,) for row in picked_up_rows(each)),
            short="picked up",
        )


def picked_up_rows(each: PickedUp) -> tuple[Row, Row]:
    """The rows that make a picked-up count what `PickedUp.count` says; of ties, the larger."""
    count = Linear.of(each.name)
    return (
        within(count - each.exact, -1 + _TIE, 1 + _TIE / 2),
        Row(value=count + each.besides, multiple=2),
    )


def _evens(case: SizeCase) -> Iterator[Rule]:
    for ring, place in ((case.facts.neck, "neck band"), (case.facts.arm, "arm band")):
        yield case.rule(
            f"{place} even",
            f"the {place} is worked onto an even number of edge stitches",
            (even(ring.edge_count),),
            cure="one edge stitch more or less",
            code="COUNT-EVEN",
        )


def _demands(case: SizeCase) -> Iterator[Rule]:
    for each in case.facts.demands:
        yield case.rule(
            each.words, each.words, (each.row,), cure=each.cure, code=each.code, short="can be worked"
        )


def _seams(case: SizeCase) -> Iterator[Rule]:
    limits = case.limits
    mind, stop, ease = limits.seam_mind_fraction, limits.seam_stop_fraction, limits.seam_stop_cm
    for seam in case.facts.seams:
        sides = (seam.first_cm, seam.second_cm), (seam.second_cm, seam.first_cm)
        yield case.rule(
            f"{seam.words} meet",
            f"{seam.words}: the edges agree to {percent(stop)} or {case.tape.length(ease)}",
            *((at_least(one, other * (1 - stop)), at_least(one, other - ease)) for one, other in sides),
            cure="edges nearer in length by {miss}: a shorter row repeat, or other counts by hand",
            code="SEAM-LENGTH",
        )
        yield case.rule(
            f"{seam.words} match",
            f"{seam.words}: the edges agree to {percent(mind)}",
            *((at_least(one, other * (1 - mind)),) for one, other in sides),
            code="SEAM-LENGTH",
            wish=True,
        )


def _ring_passes(
    case: SizeCase,
    ring: RingFacts,
    who: str,
    girth_cm: float,
    fabrics: tuple[Fabric, Fabric],
    band: str,
    code: str,
) -> Iterator[Rule]:
    """Edge and band each open far enough; their fabrics are ``fabrics``."""
    edge_fabric, band_fabric = fabrics
    place = "neck" if code.startswith("NECK") else "arm"
    yield case.rule(
        f"{who} passes the {place} edge",
        f"the {who} ({case.tape.length(girth_cm)}) passes the {place} edge, stretched",
        (at_least(ring.edge_full_cm, girth_cm),),
        cure=f"an edge that opens {{miss}} wider: a stretchier {edge_fabric.name}, or more stitches",
        code=code,
    )
    yield case.rule(
        f"{who} passes the {band}",
        f"the {who} ({case.tape.length(girth_cm)}) passes the {band}, stretched",
        (at_least(ring.band_full_cm, girth_cm),),
        cure=f"a band that opens {{miss}} wider: {band_fabric.name} that gives {{stretch}} along",
        code=code,
        stretch=Stretch(part=band, direction="along", fraction=band_fabric.stretch_along, girth_cm=girth_cm),
    )


def _neck(case: SizeCase) -> Iterator[Rule]:
    ring, parts, limits = case.facts.neck, case.parts, case.limits
    head, neck = case.wearer.get(Body.HEAD_GIRTH), case.wearer.get(Body.NECK_GIRTH)
    if head is not None:
        fabrics = parts.body, parts.neck_band
        yield from _ring_passes(case, ring, "head", head.high_cm, fabrics, "neck band", "NECK-PASS")
    if neck is not None:
        needs = neck.high_cm + limits.neck_clearance_cm
        for place, length in (("neck edge", ring.edge_cm), ("neck band", ring.band_cm)):
            yield case.rule(
                f"{place} not tight",
                f"the {place} at rest is not tight on the neck ({case.tape.length(needs)} with clearance)",
                (at_least(length, needs),),
                cure=f"a {place} {{miss}} longer, or less clearance",
                code="NECK-TIGHT",
            )
    shoulders = case.wearer.get(Body.SHOULDER_BREADTH)
    if shoulders is not None:
        widest = 2 * limits.neck_slip_fraction * shoulders.cm
        yield case.rule(
            "neck stays on",
            f"the neck at rest stays on the shoulders (at most {case.tape.length(widest)} round)",
            tuple(at_least(-length, -widest) for length in (ring.edge_cm, ring.band_cm)),
            code="NECK-SLIP",
            wish=True,
        )


def _arm(case: SizeCase) -> Iterator[Rule]:
    ring, parts, limits = case.facts.arm, case.parts, case.limits
    hand, wrist = case.wearer.get(Body.HAND_GIRTH), case.wearer.get(Body.WRIST_GIRTH)
    if hand is not None:
        fabrics = parts.body, parts.arm_bands
        yield from _ring_passes(case, ring, "hand", hand.high_cm, fabrics, "arm band", "ARM-PASS")
    if wrist is not None:
        low, high = (
            wrist.cm * (1 + each) for each in (limits.arm_rest_low_fraction, limits.arm_rest_high_fraction)
        )
        lengths = ring.edge_cm, ring.band_cm
        yield case.rule(
            "arm band sits well",
            f"the arm band at rest is {case.tape.length(low)} to {case.tape.length(high)} round",
            *((at_least(length, low),) for length in lengths),
            tuple(at_least(-length, -high) for length in lengths),
            code="ARM-REST",
            wish=True,
        )


def _hang(case: SizeCase) -> Iterator[Rule]:
    """How low the hem hangs; the distance of a corner from straight lines round its circle."""
    drop, limits, wearer = case.facts.drop_cm, case.limits, case.wearer
    sag = 1 + limits.hem_sag_fraction
    nape, knee = wearer.get(Body.NAPE_HEIGHT), wearer.get(Body.KNEE_HEIGHT)
    if nape is not None and knee is not None:
        adult = wearer.stage is Stage.ADULT
        ends = [nape.cm - knee.cm]
        ends += [] if adult else [nape.low_cm - knee.low_cm, nape.high_cm - knee.high_cm]
        most = min(ends) - limits.knee_clearance_cm
        yield case.rule(
            "hem above the knee",
            f"the hem's lowest place stays above the knee (at most {case.tape.length(most)} worn)",
            *(
                (at_least((across * math.cos(turn) + down * math.sin(turn)) * -sag, -most),)
                for across, down in case.facts.corners_cm
                for turn in (_TURNS if across.terms else _TURNS[-1:])
            ),
            cure="a body that hangs {miss} shorter",
            code="HANG-KNEE",
            wish=adult,
        )
    waist = waist_depth_cm(wearer)
    if waist is not None and drop is not None:
        yield case.rule(
            "hem below the waist",
            f"the hem reaches the waist ({case.tape.length(waist)} worn)",
            (at_least(drop * sag, waist - limits.short_above_waist_cm),),
            code="HANG-WHERE",
            wish=True,
        )


def waist_depth_cm(wearer: Wearer) -> float | None:
    """How far below the nape the waist lies, as `schematics.checks.hang` has it; None if unknown."""
    back, nape, waist = (
        wearer.get(body) for body in (Body.BACK_WAIST_LENGTH, Body.NAPE_HEIGHT, Body.WAIST_HEIGHT)
    )
    if back is not None:
        return back.cm
    return None if nape is None or waist is None else nape.cm - waist.cm


def _front(case: SizeCase) -> Iterator[Rule]:
    if case.facts.widths_cm is None:
        return
    front, back = case.facts.widths_cm
    share = 1 - case.limits.seam_mind_fraction
    yield case.rule(
        "panel fills the slot",
        "front and back are equally wide",
        (at_least(front, back * share),),
        (at_least(back, front * share),),
        code="FRONT-WIDTH",
        wish=True,
    )


def growth_rules(cases: Sequence[SizeCase], targets_cm: Sequence[Mapping[str, float]]) -> Iterator[Rule]:
    """Nothing shrinks from a size to the next, but where its intent does."""
    for before, after in itertools.pairwise(cases):
        pair = before.index, after.index
        for key in before.facts.growing:
            wanted = [targets_cm[index].get(key, math.nan) for index in pair]
            if wanted[0] > wanted[1]:
                continue
            lengths = [each.facts.lengths[key].of_size(each.index) for each in (before, after)]
            yield Rule(
                key=f"{before.size.name} to {after.size.name}: {key} grows",
                sizes=pair,
                words=f"{key} of size {after.size.name} is no shorter than of size {before.size.name}",
                clauses=((at_least(lengths[1], lengths[0]),),),
                cure="{miss} more in the larger size or less in the smaller",
                short="grows with size",
            )
