"""Lengths that no table gives for a wearer, from those that are known; each estimate is one tree."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache, reduce
from operator import add

from schematics.wearer.body import Body, BodyValue, Origin
from schematics.wearer.evaluator import Evaluator, Inputs, evaluator_of
from schematics.wearer.expr import End, Expr, OfBody, OfWearer, Term, first, most, table
from schematics.wearer.survey import SURVEY, place_in_survey, residual_fraction
from schematics.wearer.tables import Sex, landmarks, survey_bins

_NAPE, _KNEE, _LOWER_LEG = (
    landmarks()[name] for name in ("nape above front of neck", "knee height", "lower leg relative to adults")
)

NAPE_SHARE = _NAPE[0].value
"""The nape above the front of the neck, over height: of adults, ANSUR II 2012."""

KNEE_SHARE = _KNEE[0].value
"""Height of the knee over height, of adults: ANSUR II 2012."""

BACK_WAIST_SHARE = 0.247
"""Back waist length over height: the middle of the trade chart's rows for children, 0.231 to 0.258, over the
survey's median heights."""

ARMHOLE_SHARE = 0.46
"""Armhole depth over back waist length: the middle of the trade chart's rows for children, 0.43 to 0.50."""

_BACK_WAIST_SD, _ARMHOLE_SD = 0.037, 0.055
"""The standard deviations of those rows over their middle."""

Measures = tuple[tuple[float, str], ...]
"""A sum of the survey's measures: factors and names."""

SUMS: Mapping[Body, tuple[Measures, str]] = {
    Body.CENTRE_BACK_NECK_TO_WRIST: (
        (
            (0.5, "biacromial_breadth"),
            (1, "shoulder_elbow_length"),
            (1, "elbow_hand_length"),
            (-1, "hand_length"),
        ),
        "half the biacromial breadth + shoulder to elbow + elbow to hand - hand length",
    ),
    Body.FOREARM_LENGTH: (((1, "elbow_hand_length"), (-1, "hand_length")), "elbow to hand - hand length"),
    Body.HIP_HEIGHT: (((1, "hip_height_at_buttocks"),), "hip height at the buttocks"),
}
"""Lengths that follow from the height by the survey, and their sum in words."""

_FRONT_OF_NECK: Measures = ((1, "suprasternale_height"),)


@dataclass(frozen=True, slots=True, kw_only=True)
class Derivation:
    """One derivation of a missing measurement, in cm, at the end of the spread that is asked for.

    ``source`` may name ``{share}``, the fraction of the height that it is, ``{where}`` in the survey that was
    read, and the origin of another measurement by the measurement's name. ``sd_fraction`` is how much of
    itself it may be off where what it follows from is right: a standard deviation.
    """

    cm: Expr
    source: str
    sd_fraction: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Estimate:
    """What stands in for one missing measurement: the first derivation that comes to a number."""

    body: Body
    derivations: tuple[Derivation, ...]

    @property
    def cm(self) -> Expr:
        """The estimate as one tree: its first derivation that comes to a number."""
        return (
            self.derivations[0].cm
            if len(self.derivations) == 1
            else first(*(derivation.cm for derivation in self.derivations))
        )


@cache
def estimates_of(sex: Sex) -> tuple[Estimate, ...]:
    """What stands in for missing measurements, in the order in which they are to be filled in."""
    height, nape, waist, back = map(
        OfBody, (Body.HEIGHT, Body.NAPE_HEIGHT, Body.WAIST_HEIGHT, Body.BACK_WAIST_LENGTH)
    )
    knee_share = (
        table(height, [((each.stature_m or 0) * 100, each.value) for each in _LOWER_LEG]) * KNEE_SHARE
    )
    return (
        Estimate(
            body=Body.KNEE_HEIGHT,
            derivations=(
                Derivation(
                    cm=height * knee_share,
                    source=f"{{share:.3f}} x height: adults' {KNEE_SHARE:.3f} (lateral femoral epicondyle, "
                    "ANSUR II 2012) times a child's lower leg over an adult's at that height (Snyder et al. "
                    "1977)",
                    sd_fraction=math.hypot(
                        _KNEE[0].sd_fraction, max(each.sd_fraction for each in _LOWER_LEG)
                    ),
                ),
            ),
        ),
        *(
            Estimate(
                body=body,
                derivations=(
                    Derivation(
                        cm=height * share_of_stature(measures, sex),
                        source=f"{{share:.3f}} x height: {words}, over stature, "
                        f"medians of {SURVEY}, {{where}}",
                        sd_fraction=_sum_sd_fraction(measures),
                    ),
                ),
            )
            for body, (measures, words) in SUMS.items()
        ),
        Estimate(
            body=Body.NAPE_HEIGHT,
            derivations=(
                Derivation(
                    cm=height * (share_of_stature(_FRONT_OF_NECK, sex) + NAPE_SHARE),
                    source="{share:.3f} x height: the front of the neck (suprasternale height over stature, "
                    f"medians of {SURVEY}, {{where}}) and {NAPE_SHARE:g} for the nape above it (adults, "
                    "ANSUR II 2012)",
                    sd_fraction=_nape_sd_fraction(),
                ),
                Derivation(
                    cm=waist + back,
                    source="waist height ({waist_height}) + back waist length ({back_waist_length})",
                ),
            ),
        ),
        Estimate(
            body=Body.BACK_WAIST_LENGTH,
            derivations=(
                Derivation(
                    cm=nape - waist, source="nape height ({nape_height}) - waist height ({waist_height})"
                ),
                Derivation(
                    cm=height * BACK_WAIST_SHARE,
                    source=f"{BACK_WAIST_SHARE:g} x height, the middle of the Craft Yarn Council's rows for "
                    f"children over the median heights of {SURVEY}",
                    sd_fraction=_BACK_WAIST_SD,
                ),
            ),
        ),
        Estimate(
            body=Body.WAIST_HEIGHT,
            derivations=(
                Derivation(
                    cm=most(nape - back, OfBody(Body.HIP_HEIGHT)),
                    source="nape height ({nape_height}) - back waist length ({back_waist_length}), not "
                    "below the hip",
                ),
            ),
        ),
        Estimate(
            body=Body.ARMHOLE_DEPTH,
            derivations=(
                Derivation(
                    cm=back * ARMHOLE_SHARE,
                    source=f"{ARMHOLE_SHARE:g} x back waist length ({{back_waist_length}}), the middle of "
                    "the Craft Yarn Council's rows for children",
                    sd_fraction=_ARMHOLE_SD,
                ),
            ),
        ),
    )


def _sum_sd_fraction(measures: Measures) -> float:
    """How much of itself such a sum of shares of the height may be off, its parts' errors independent."""
    bins = [survey_bins()[measure, "both"] for _, measure in measures]
    factors = [factor for factor, _ in measures]
    errors = [residual_fraction(measure) for _, measure in measures]
    fractions: list[float] = []
    for parts in zip(*bins, strict=True):
        pieces = [factor * part.mean_cm for factor, part in zip(factors, parts, strict=True)]
        off = (piece * error for piece, error in zip(pieces, errors, strict=True))
        fractions.append(math.hypot(*off) / sum(pieces))
    return sum(fractions) / len(fractions)


def _nape_sd_fraction() -> float:
    """How much of itself the nape's height may be off, as the front of the neck and what it is above that."""
    (_, front_of_neck), *_ = _FRONT_OF_NECK
    bins = [survey_bins()[measure, "both"] for measure in (front_of_neck, "stature")]
    shares = [front.mean_cm / stature.mean_cm for front, stature in zip(*bins, strict=True)]
    front: float = sum(shares) / len(shares)
    return math.hypot(front * _sum_sd_fraction(_FRONT_OF_NECK), _NAPE[0].sd) / (front + NAPE_SHARE)


@cache
def age_of_proportions(sex: Sex) -> Term:
    """The wearer's age, else the age at which the height is the survey's median; years."""
    medians = [(each.p50_cm, each.middle_years) for each in survey_bins()["stature", sex]]
    by_height = table(OfBody(Body.HEIGHT, End.TYPICAL), medians)
    return Term("age_of_proportions", first(OfWearer("age_years"), by_height))


@cache
def share_of_stature(measures: Measures, sex: Sex) -> Expr:
    """A sum of the survey's medians as a fraction of its stature, at the age of the wearer's proportions."""
    medians = (_median(measure, sex) * factor for factor, measure in measures)
    return reduce(add, medians) / Term("stature_by_age", _median("stature", sex))


def _median(measure: str, sex: Sex) -> Expr:
    """Straight between the middles of the survey's bins, level beyond its ends."""
    points = [(each.middle_years, each.p50_cm) for each in survey_bins()[measure, sex]]
    return table(age_of_proportions(sex), points)


def estimates(given: Mapping[Body, BodyValue], age_years: float | None, sex: Sex) -> dict[Body, BodyValue]:
    """The measurements that are missing and can be estimated.

    Args:
        given: what is known already; nothing of it is replaced.
        age_years: the wearer's age, None if unknown: then the age at which the wearer's height is
            the survey's median gives the proportions.
        sex: whose proportions.

    Returns:
        Only the added values, all `Origin.ESTIMATE`; their spread is that of what they follow from.
    """
    values, added = dict(given), dict[Body, BodyValue]()
    origins: dict[str, Origin] = {body: value.origin for body, value in given.items()}
    wearer = Inputs(body=values, age_years=math.nan if age_years is None else age_years)
    ends = [wearer.at_end(end) for end in End]
    where = _where(wearer, sex)
    for body, derivation, work in _works(sex):
        if body in values:
            continue
        low, typical, high = (float(work(end)) for end in ends)
        if math.isnan(typical):
            continue
        height = values.get(Body.HEIGHT)
        share = math.nan if height is None else typical / height.cm
        values[body] = added[body] = BodyValue(
            low_cm=low,
            cm=typical,
            high_cm=high,
            origin=Origin.ESTIMATE,
            source="estimated as " + derivation.source.format(share=share, where=where, **origins),
            sd_cm=derivation.sd_fraction * abs(typical),
        )
        origins[body] = Origin.ESTIMATE
    return added


@cache
def _works(sex: Sex) -> tuple[tuple[Body, Derivation, Evaluator], ...]:
    return tuple(
        (each.body, derivation, evaluator_of(derivation.cm))
        for each in estimates_of(sex)
        for derivation in each.derivations
    )


@cache
def _age_work(sex: Sex) -> Evaluator:
    return evaluator_of(age_of_proportions(sex))


def _where(wearer: Inputs, sex: Sex) -> str:
    """Where the survey is read."""
    age = float(_age_work(sex)(wearer))
    where = "" if math.isnan(age) else place_in_survey(age, sex)
    return f"{where}, taken by height" if math.isnan(wearer.age_years) else where
