"""How much garments lack to be surely good, in columns of them: quickly, and on the strict side.

Each comparison by itself is to hold by so many standard deviations as leave `Limits.sure_fraction`. A length
of a garment may be off by no more of itself than the fabric of it that is most in doubt, as stitches, rows
and stretch all add to it; a girth is as steep everywhere as where it is steepest.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from functools import cache, partial
from statistics import NormalDist
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from schematics.checks.rules.garment_numbers import GIRTH_POINTS
from schematics.checks.rules.sure_columns import AnyGarment
from schematics.checks.rules.sureness import failures
from schematics.crochet.fabric import Counted, Fabric
from schematics.crochet.varied_fabric import LENGTH_ERRORS, STRETCH_ERRORS, FabricError, error_fraction
from schematics.design.design import Parts
from schematics.design.limits import Limits
from schematics.wearer.body import Wearer
from schematics.wearer.evaluator import Inputs, Numbers
from schematics.wearer.varied_body import varied_bodies


def rest_fraction(fabrics: Sequence[Fabric]) -> float:
    """How much of itself a length of these fabrics may be off at most, at rest: a standard deviation."""
    return max(
        math.hypot(error_fraction(fabric, error), error_fraction(fabric, FabricError.DRIFT))
        for fabric in fabrics
        for error in LENGTH_ERRORS.values()
    )


def full_fraction(fabrics: Sequence[Fabric]) -> float:
    """How much of itself a length may be off at most, at full stretch: a standard deviation."""
    stretched = max(
        fabric.stretch(counted)
        / (1 + fabric.stretch(counted))
        * error_fraction(fabric, STRETCH_ERRORS[counted])
        for fabric in fabrics
        for counted in Counted
    )
    return math.hypot(rest_fraction(fabrics), stretched)


def short_of_sure_cm(code: str, limits: Limits, garments: Inputs, sds_cm: Sequence[Numbers]) -> Numbers:
    """By how much a rule is short of surely holding where its margins have these standard deviations.

    Returns:
        Centimetres, nought or less where each comparison holds so surely; not a number where one is unknown.
    """
    failing = failures(limits, code)
    deviates = NormalDist().inv_cdf(max(0.5, limits.sure_fraction))
    short = [
        margin_cm + deviates * sd_cm if is_length else np.where(margin_cm > 0, np.inf, -np.inf)
        for margin_cm, sd_cm, is_length in zip(
            failing.margins(garments), sds_cm, failing.lengths, strict=True
        )
    ]
    return failing.truths[code].largest(short)


Slopes: TypeAlias = NDArray[np.float64]
"""How far each error moves a margin, in cm."""


class ShortOfSure:
    """What garments of some fabrics lack to be surely good on a wearer.

    Args:
        parts: the fabrics.
        wearer: the wearer.
        limits: what garments are held against.
    """

    def __init__(self, parts: Parts, wearer: Wearer, limits: Limits) -> None:
        self._limits = limits
        self._bodies, _ = varied_bodies([wearer])
        self._body_slopes: dict[str, list[tuple[Slopes, Slopes]]] = {}
        self._fraction = cache(partial(_fraction, parts))

    def short_cm(self, code: str, garments: Inputs) -> Numbers:
        """By how much a rule is short of surely holding on garments; nought or less where it does."""
        margins = failures(self._limits, code).margins
        off = margins(garments.of(_Scaled(garments.facts, self._fraction)))
        sds_cm = [
            np.hypot(off_cm - usual_cm, _body_sd_cm(slopes, garments.facts))
            for usual_cm, off_cm, slopes in zip(margins(garments), off, self._of_body(code), strict=True)
        ]
        return short_of_sure_cm(code, self._limits, garments, sds_cm)

    def _of_body(self, code: str) -> list[tuple[Slopes, Slopes]]:
        """How far each error of the body moves each margin, and how much farther where girths are steep."""
        if code not in self._body_slopes:
            level, steep = (self._moved_by_body(code, AnyGarment(each)) for each in (0.0, 1.0))
            self._body_slopes[code] = [(one, other - one) for one, other in zip(level, steep, strict=True)]
        return self._body_slopes[code]

    def _moved_by_body(self, code: str, garment: AnyGarment) -> list[Slopes]:
        errors, slopes = len(self._bodies.errors_cm), []
        varied = Inputs(body=self._bodies, facts=garment)
        for column in failures(self._limits, code).margins(varied):
            moved = column[:, 0] if np.ndim(column) > 1 else np.zeros(1 + 2 * errors)
            slopes.append(np.nan_to_num((moved[1 : 1 + errors] - moved[1 + errors :]) / 2))
        return slopes


def _body_sd_cm(slopes: tuple[Slopes, Slopes], facts: Mapping[str, Numbers]) -> Numbers:
    """The standard deviation of a margin by what is not known of the wearer."""
    level, steep = map(np.abs, slopes)
    if not steep.any():
        return float(np.sqrt((level**2).sum()))
    grows = _steepest(facts)
    return np.sqrt(sum((one + grows * other) ** 2 for one, other in zip(level, steep, strict=True)))


def _steepest(facts: Mapping[str, Numbers]) -> Numbers:
    """The most that girths grow with each centimetre of depth; nought where the sides are open."""
    depths, girths = (
        [facts[f"girth.{each}.{what}_cm"] for each in range(GIRTH_POINTS)] for what in ("depth", "girth")
    )
    with np.errstate(divide="ignore", invalid="ignore"):
        grows = [
            np.abs(np.asarray(girths[place]) - girths[place - 1])
            / (np.asarray(depths[place]) - depths[place - 1])
            for place in range(1, GIRTH_POINTS)
        ]
    return np.max(np.where(np.isfinite(grows), grows, 0.0), axis=0)


class _Scaled(dict[str, Numbers]):
    """Facts of garments when each length is a standard deviation longer, and girths lie higher up."""

    def __init__(self, facts: Mapping[str, Numbers], fraction: Callable[[str], float]) -> None:
        super().__init__()
        self._facts, self._fraction = facts, fraction

    def __missing__(self, name: str) -> Numbers:
        return self.setdefault(name, self._facts[name] * (1 + self._fraction(name)))


def _fraction(parts: Parts, name: str) -> float:
    """How much of itself a fact of a garment of these parts may be off: a standard deviation."""
    head, _, rest = name.partition(".")
    if not name.endswith("_cm"):
        return 0.0
    if head in ("neck", "arm"):
        edge = (parts.body, parts.centre_panel) if head == "neck" else (parts.body,)
        band = (parts.neck_band,) if head == "neck" else (parts.arm_bands,)
        fabrics = edge if rest.startswith("edge") else band
        return full_fraction(fabrics) if rest.endswith("full_cm") else rest_fraction(fabrics)
    if head == "girth":
        upwards = -1.0 if rest.endswith("depth_cm") else 1.0
        return upwards * rest_fraction((parts.body, parts.centre_panel))
    return rest_fraction((parts.body, parts.centre_panel, parts.arm_bands))
