"""How sure findings are, in words: by how much they hold, in how many of ten, and what to measure."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TypeAlias

from schematics.checks.finding import Case, Certainty
from schematics.checks.rules.sentence import IN_WORDS, MEASURE, SO, SURE, Answer, Shown
from schematics.checks.rules.sureness import BodyDoubt, Doubt, Sureness, seam_sureness
from schematics.checks.rules.varied_facts import varied_parts
from schematics.checks.tape import Grains
from schematics.crochet.varied_fabric import FabricError
from schematics.garment.constructions import CONSTRUCTIONS
from schematics.units import NEAR, round_half_up
from schematics.wearer.body import Origin
from schematics.wearer.normal import below

LEAST_SD_CM = 0.05
"""What is in doubt by less would print as nought."""

TELLING = 0.01
"""A smaller share of the variance is left out."""


def certainty(case: Case, code: str) -> Certainty | None:
    """How sure the finding of a rule is; None where nothing it goes by is in doubt."""
    measured, _ = case.answers(code)
    to_a_stop = case.judges[code].stops_if_it_fails(case.inputs)
    return _in_words(
        case,
        case.chances.sureness(code),
        enough=case.is_sure(code),
        minded=measured is Answer.MIND and bool(to_a_stop),
        compared=list(_compared(case, code)),
    )


_Compared: TypeAlias = tuple[float, float, Grains]
"""Two lengths in cm that a sentence holds against each other, and their grains."""


def _compared(case: Case, code: str) -> Iterator[_Compared]:
    """Those of the rule's sentence."""
    for printed, numbers in case.judges[code].printed.values():
        if printed.kind is Shown.COMPARED:
            first, second = map(float, numbers(case.inputs))
            yield first, second, printed.grains


def seam_certainty(
    case: Case, first_cm: float, second_cm: float, second: str, *, minded: bool
) -> Certainty | None:
    """How sure it is that two edges can be seamed; the piece of the ``second`` is worked after the other."""
    parts, _ = varied_parts(case.parts)
    seams = CONSTRUCTIONS[case.design.construction].formulas_of(case.size.body, parts).seams
    sure = seam_sureness((first_cm, second_cm), seams, case.size, case.parts, case.limits)
    if sure is None:
        return None
    measure = f"lay the edges side by side before the {second}'s last rows, and end it level"
    enough = sure.holds_fraction >= case.limits.sure_fraction
    return _in_words(case, sure, enough=enough, minded=minded, measure=measure)


def _in_words(
    case: Case,
    sure: Sureness,
    *,
    enough: bool,
    minded: bool,
    measure: str = "",
    compared: Sequence[_Compared] = (),
) -> Certainty | None:
    if sure.sd_cm < LEAST_SD_CM:
        return None
    return Certainty(
        margin_cm=sure.margin_cm,
        sd_cm=sure.sd_cm,
        holds_fraction=sure.holds_fraction,
        enough=enough,
        open=not measure and not enough and sure.holds_fraction > 1 - case.limits.sure_fraction,
        shares=tuple((_name(doubt), share) for doubt, share in sure.shares if share >= TELLING),
        sentence=_sentence(case, sure, compared, minded=minded),
        measure=measure or _measure(case, sure.shares[0][0]),
        short_of_stop=minded,
    )


def _sentence(case: Case, sure: Sureness, compared: Sequence[_Compared], *, minded: bool) -> str:
    if case.tape.is_nought(sure.margin_cm):
        words = "at_stop" if minded else "at_limit"
    else:
        words = "fails" if sure.margin_cm <= 0 else "minded" if minded else "holds"
    return SURE[words].format(
        margin=_margin_words(case, sure.margin_cm, compared),
        sd=case.tape.more_than_nought(sure.sd_cm),
        so=so_words(sure),
        chance=chance_words(sure.holds_fraction),
    )


def _margin_words(case: Case, margin_cm: float, compared: Sequence[_Compared]) -> str:
    """The margin, as the sentence before it has it where it is the gap of two lengths printed there."""
    for first, second, grains in compared:
        if abs(abs(first - second) - abs(margin_cm)) <= NEAR:
            return case.tape.compare(first, second, grains).gap
    return case.tape.length(abs(margin_cm))


def so_words(sure: Sureness) -> str:
    """What leads from the margin to the chance: `SO`, by whether the chance is the margin's own in words."""
    alone = float(below(sure.margin_cm / sure.sd_cm))
    if chance_words(alone) == chance_words(sure.holds_fraction):
        return SO["alone"]
    return SO["all" if sure.holds_fraction < alone else "any"]


def chance_words(chance: float) -> str:
    """``about nine in ten``."""
    return next(words for limit, words in IN_WORDS if chance < limit)


def _name(doubt: Doubt) -> str:
    """``main: stretch across``, ``head girth``."""
    return doubt.body.words if isinstance(doubt, BodyDoubt) else f"{doubt.fabric}: {doubt.error.value}"


def _measure(case: Case, doubt: Doubt) -> str:
    if isinstance(doubt, BodyDoubt):
        own = case.wearer.values[doubt.body].origin is Origin.OWN
        return MEASURE["again" if own else "body"].format(body=doubt.body.words)
    fabric = case.parts.fabrics[doubt.fabric]
    over_cm = fabric.swatch.width_cm if doubt.error is FabricError.STITCHES else fabric.swatch.height_cm
    unit = case.tape.unit
    twice = case.tape.length(unit.to_cm(round_half_up(unit.from_cm(2 * over_cm), 1.0)))
    return MEASURE[doubt.error].format(parts=case.parts.named_for(fabric), twice=twice)
