"""A maker's gauge as she says it: ``20 sts 15 rows over 20 cm``."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from schematics.crochet.fabric import Counted, Fabric, gauge_fault
from schematics.design.design import Design, Parts
from schematics.errors import UsageError
from schematics.fitting.gauge import Gauge, parts_at_gauge
from schematics.reading.problems import hint, show_value
from schematics.units import Unit, parse_length

LOOSEST, TIGHTEST = 0.5, 2.0
"""A gauge beyond these times the pattern's is taken for a slip of the pen."""

_NUMBER = r"[0-9]{1,4}(?:\.[0-9]{1,4})?"
_GAUGE = re.compile(
    rf"""\s*(?:(?P<fabric>[^:]+?)\s*:)?
    \s*(?P<stitches>{_NUMBER})\s*(?:sts?|stitch(?:es)?)\.?\s*(?:,|and|x|\u00d7)?
    \s*(?P<rows>{_NUMBER})\s*rows?\s*(?:over|to|in|=)
    \s*(?P<width>[^x\u00d7]+?)(?:\s*(?:by|x|\u00d7)\s*(?P<height>.+?))?\s*""",
    re.VERBOSE | re.IGNORECASE,
)
_EXAMPLE = "'20 sts 15 rows over 20 cm'"
_LONGEST_GAUGE = 120
"""Characters; a fabric's name may have forty."""


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnGauge:
    """A maker's gauge of some of the design's fabrics, and the fabrics as she works them."""

    given: tuple[tuple[Fabric, Gauge], ...]
    parts: Parts
    alike: tuple[str, ...]
    """Names of the fabrics that are scaled as the body for want of a swatch."""


def read_gauge(texts: Sequence[str], design: Design) -> OwnGauge:
    """The gauge that ``--gauge`` gives: of the body fabric where none is named.

    Raises:
        UsageError: a text is no gauge, names no fabric of the design, or is far from the pattern's.
    """
    parts = design.parts
    fabrics = parts.fabrics
    given: dict[str, Gauge] = {}
    for text in texts:
        fabric, gauge = _read(text, design, fabrics)
        if fabric.name in given:
            raise UsageError(f"--gauge: {text!r} gives {fabric.name!r} a second time; keep one")
        given[fabric.name] = gauge
    body = given.get(parts.body.name, Gauge.of(parts.body))
    return OwnGauge(
        given=tuple((fabrics[name], gauge) for name, gauge in given.items()),
        parts=parts_at_gauge(parts, body, given),
        alike=tuple(name for name in fabrics if name not in given and parts.body.name in given),
    )


def _read(text: str, design: Design, fabrics: dict[str, Fabric]) -> tuple[Fabric, Gauge]:
    match = _GAUGE.fullmatch(text) if len(text) <= _LONGEST_GAUGE else None
    if match is None:
        raise UsageError(f"--gauge: expected a gauge such as {_EXAMPLE}, got {show_value(text)}")
    name = match["fabric"] or design.parts.body.name
    if name not in fabrics:
        raise UsageError(f"--gauge: there is no fabric {show_value(name)}; {hint(name, list(fabrics))}")
    width = _length(match["width"], text, design.unit)
    height = width if match["height"] is None else _length(match["height"], text, design.unit)
    stitches, rows = float(match["stitches"]), float(match["rows"])
    if min(stitches, rows, width, height) <= 0:
        raise UsageError(f"--gauge: counts and lengths are more than 0, got {text!r}")
    gauge = Gauge(stitches_per_cm=stitches / width, rows_per_cm=rows / height)
    pattern = Gauge.of(fabrics[name])
    over, span = design.unit.gauge_span
    for mine, usual, counted in (
        (gauge.stitches_per_cm, pattern.stitches_per_cm, Counted.STITCHES),
        (gauge.rows_per_cm, pattern.rows_per_cm, Counted.ROWS),
    ):
        if fault := gauge_fault(counted, mine):
            raise UsageError(f"--gauge: {fault}, in {text!r}")
        if not LOOSEST <= mine / usual <= TIGHTEST:
            raise UsageError(
                f"--gauge: {text!r} is {mine * over:.4g} {counted.name.lower()} to {span}, the pattern has "
                f"{usual * over:.4g}; check the counts and the unit"
            )
    return fabrics[name], gauge


def _length(words: str, text: str, unit: Unit) -> float:
    try:
        return parse_length(words, unit)
    except ValueError as error:
        raise UsageError(f"--gauge: {error}, in {text!r}") from None
