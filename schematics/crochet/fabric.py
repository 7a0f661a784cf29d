"""Fabric arithmetic: from a washed swatch to lengths, and from lengths to whole counts."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from enum import StrEnum
from typing import Any, overload

import numpy as np
from numpy.typing import NDArray

from schematics.crochet.charts.chart import Chart
from schematics.units import HAIR
from schematics.wearer.traced import Traced


class Counted(StrEnum):
    """What a count counts; the value is the trade's abbreviation printed after the number."""

    STITCHES = "sts"
    ROWS = "rows"

    @property
    def words(self) -> str:
        """``stitches`` or ``rows``."""
        return self.name.lower()


@dataclass(frozen=True, slots=True, kw_only=True)
class Swatch:
    """A piece of fabric measured after washing.

    ``stitches`` and ``rows`` were counted over ``width_cm`` and ``height_cm``; ``mass_g`` is the
    mass of exactly that area, where it was weighed, ``bending_length_cm`` what `BENDING_LENGTH_HOW` says,
    where it was measured. A ``guessed`` one was never worked, nor one ``reckoned`` from the body's.
    """

    stitches: float
    rows: float
    width_cm: float
    height_cm: float
    mass_g: float | None = None
    guessed: bool = False
    reckoned: bool = field(default=False, compare=False)
    bending_length_cm: float | None = None


BENDING_LENGTH_HOW = (
    "push a strip of the fabric, as wide as a hand, over the edge of a table until the line from the edge to "
    "its hanging end slopes by 41.5 degrees (7 down for 8 across); half the length that hangs over is its "
    "bending length"
)
"""After Peirce's cantilever test, from memory; the tangent of 41.5 degrees is 0.885, and 7/8 0.875."""

LEAST_BENDING_LENGTH, MOST_BENDING_LENGTH = 0.5, 20.0
"""In cm, from chiffon to a mat (common practice, no source)."""

LOOSEST_GAUGE, TIGHTEST_GAUGE = 0.5, 200.0
"""Stitches or rows to 10 cm, from rope worked over the arms to far beyond sewing thread (common practice, no
source)."""

LIGHTEST_FABRIC, HEAVIEST_FABRIC = 0.001, 2.0
"""Grams to the square centimetre, from cobweb to wire and beads (common practice, no source)."""


def gauge_fault(counted: Counted, per_cm: float) -> str:
    """What is wrong with a gauge that no yarn has; empty where one has it."""
    per_10_cm = 10 * per_cm
    if LOOSEST_GAUGE <= per_10_cm <= TIGHTEST_GAUGE:
        return ""
    return f"expected {LOOSEST_GAUGE:g} to {TIGHTEST_GAUGE:g} {counted.words} to 10 cm, got {per_10_cm:.6g}"


def swatch_faults(swatch: Swatch) -> Iterator[tuple[str, str]]:
    """What no fabric can be, each with the word of the spec that says it."""
    for key, counted, per_cm in (
        ("stitches", Counted.STITCHES, swatch.stitches / swatch.width_cm),
        ("rows", Counted.ROWS, swatch.rows / swatch.height_cm),
    ):
        if fault := gauge_fault(counted, per_cm):
            yield key, fault
    if swatch.mass_g is not None:
        grams = swatch.mass_g / (swatch.width_cm * swatch.height_cm)
        if not LIGHTEST_FABRIC <= grams <= HEAVIEST_FABRIC:
            yield (
                "mass",
                f"expected {LIGHTEST_FABRIC:g} to {HEAVIEST_FABRIC:g} g to the square cm, got {grams:.6g}",
            )


MOST_STRETCH, MOST_PULLS = 2.0, 100
"""The largest fraction that a fabric may give, and pulls that a stretch may be the mean of."""

_TIE = 1e-6
"""Of a count: a sum of floats comes as near to a tie, swatch figures are farther from ties."""

_COLUMNS = (np.ndarray, Traced)
_NEVER_AGAIN = 1_000_000
"""A multiple beyond every count there is, so that only the first allowed count is one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CountRule:
    """Counts a fabric allows: ``multiple * k + plus`` for whole ``k``, at least ``smallest``."""

    multiple: int = 1
    plus: int = 0

    @classmethod
    def exactly(cls, count: int) -> CountRule:
        """The rule that allows this one count: a motif without a repeat."""
        return cls(multiple=_NEVER_AGAIN, plus=count)

    @property
    def only(self) -> bool:
        """Whether one count alone is allowed."""
        return self.multiple == _NEVER_AGAIN

    @property
    def step(self) -> int | None:
        """By what an allowed count is changed into the next; None where one count alone is allowed."""
        return None if self.only else self.multiple

    @property
    def smallest(self) -> int:
        """The smallest positive count the rule allows."""
        return self.plus if self.plus > 0 else self.multiple

    @property
    def binds(self) -> bool:
        """Whether it forbids any count."""
        return self.multiple != 1 or self.plus != 0

    def allows(self, count: int) -> bool:
        """Whether ``count`` is one of the allowed counts."""
        return count >= self.smallest and (count - self.plus) % self.multiple == 0

    def at_least(self, count: float) -> int:
        """The smallest allowed count not below ``count`` (a hair of float error is forgiven).

        Where one count alone is allowed, it is that one.
        """
        return self.plus if self.only else self._rounded(count, up=True)

    def at_most(self, count: float) -> int:
        """The largest allowed count not above ``count``, or the smallest allowed one."""
        return self.plus if self.only else self._rounded(count, up=False)

    @overload
    def nearest(self, count: float) -> int: ...

    @overload
    def nearest(self, count: NDArray[np.float64]) -> NDArray[np.int64]: ...

    @overload
    def nearest(self, count: Traced) -> Traced: ...

    def nearest(self, count: Any) -> Any:
        """The allowed count nearest to ``count``; of two equally near, but for float error, the larger.

        Of a column it is one, of what is `Traced` the tree that it will be worked out by.
        """
        if self.only:
            return self.plus + 0 * count if isinstance(count, _COLUMNS) else self.plus
        low, high = (self._rounded(count, up=up) for up in (False, True))
        if not isinstance(count, _COLUMNS):
            return low if count - low < high - count - _TIE else high
        nearest = np.where(count - low < high - count - _TIE, low, high)
        return nearest if isinstance(nearest, Traced) else nearest.astype(np.int64)

    def _rounded(self, count: Any, *, up: bool) -> Any:
        repeats = (count - self.plus) / self.multiple + (-HAIR if up else HAIR)
        if not isinstance(count, _COLUMNS):
            whole = math.ceil(repeats) if up else math.floor(repeats)
            return max(self.smallest, self.multiple * whole + self.plus)
        whole = np.ceil(repeats) if up else np.floor(repeats)
        return np.maximum(self.smallest, self.multiple * whole + self.plus)


@dataclass(frozen=True, slots=True, kw_only=True)
class RowRule:
    """Rows of a patterned fabric: ``setup + repeat * k + closing``."""

    setup: int = 0
    repeat: int = 1
    closing: int = 0

    @property
    def rule(self) -> CountRule:
        """Which totals of rows it allows, as a rule on the count."""
        return CountRule(multiple=self.repeat, plus=self.setup + self.closing)

    @property
    def binds(self) -> bool:
        """Whether it forbids any number of rows."""
        return self.repeat != 1 or self.setup + self.closing != 0

    def repeats(self, rows: int) -> int:
        """Whole repeats in ``rows`` (rounded down when ``rows`` breaks the rule)."""
        return (rows - self.setup - self.closing) // self.repeat


@dataclass(frozen=True, slots=True, kw_only=True)
class Fabric:
    """One stitch pattern worked with one yarn and hook.

    ``stretch_across`` (stitch direction) and ``stretch_along`` (row direction) are the fractions
    the fabric gives, pulled by hand, before it resists: the mean of so many ``stretch_pulls``. A ``chart``
    fits both rules. A maker who counts a swatch of her own need not weigh it: ``pattern_swatch`` is then the
    pattern's.
    """

    name: str
    stitch: str
    swatch: Swatch
    hook_mm: float | None = None
    stretch_across: float = 0.0
    stretch_along: float = 0.0
    stitch_rule: CountRule = field(default_factory=CountRule, hash=False)
    row_rule: RowRule = field(default_factory=RowRule, hash=False)
    turning_chains: int = 1
    chart: Chart | None = field(default=None, hash=False)
    stretch_guessed: bool = False
    stretch_pulls: int = 1
    turning_chains_guessed: bool = False
    pattern_swatch: Swatch | None = None

    @property
    def weighed(self) -> Swatch:
        """The swatch by which its stitches are weighed, if it was weighed."""
        return self.swatch if self.swatch.mass_g is not None else self.pattern_swatch or self.swatch

    @property
    def in_pattern(self) -> Fabric:
        """The fabric as the pattern has it, where a maker works it to a swatch of her own."""
        return replace(self, swatch=self.pattern_swatch or self.swatch, pattern_swatch=None)

    @property
    def stitches_per_cm(self) -> float:
        """Stitch gauge."""
        return self.swatch.stitches / self.swatch.width_cm

    @property
    def rows_per_cm(self) -> float:
        """Row gauge."""
        return self.swatch.rows / self.swatch.height_cm

    def gauge(self, counted: Counted) -> float:
        """Stitches or rows per centimetre."""
        return self.stitches_per_cm if counted is Counted.STITCHES else self.rows_per_cm

    def length_cm(self, count: float, counted: Counted) -> float:
        """The relaxed length of ``count`` stitches or rows, exactly."""
        if counted is Counted.STITCHES:
            return count * self.swatch.width_cm / self.swatch.stitches
        return count * self.swatch.height_cm / self.swatch.rows

    def count_along(self, length_cm: Any, counted: Counted) -> Any:
        """The stitches or rows that lie along a length, or a column of them, not rounded."""
        return length_cm * self.gauge(counted)

    def stretch(self, counted: Counted) -> float:
        """The fraction the fabric gives in the direction that ``counted`` runs in."""
        return self.stretch_across if counted is Counted.STITCHES else self.stretch_along

    def full_length_cm(self, count: float, counted: Counted) -> float:
        """The length of ``count`` stitches or rows at full stretch."""
        return self.length_cm(count, counted) * (1 + self.stretch(counted))

    def foundation_chain(self, stitches: int) -> int:
        """Chains to make for a first row of ``stitches`` (common practice, no source)."""
        return stitches + self.turning_chains
