"""A maker's gauge as she says it: ``20 sts 15 rows over 20 cm``."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import partial

from schematics.crochet.fabric import Counted, Fabric, gauge_fault
from schematics.design.design import PARTS, Design, Parts
from schematics.errors import Problems, UsageError
from schematics.fitting.gauge import USUAL_SWATCH_CM, Gauge, parts_at_gauge
from schematics.fitting.stretch_text import OwnStretch, without_stretch
from schematics.reading.problems import hint, show_value
from schematics.reading.spellings import GAUGE_PATTERN, parse_span, plain_number
from schematics.units import CM_PER_INCH, HAIR

LOOSEST, TIGHTEST = 0.5, 2.0
"""A gauge beyond these times the pattern's is taken for a slip of the pen."""

PART_WORDS: Mapping[str, str] = {
    word: part for part in (key.replace("_", " ") for key in PARTS) for word in (part, part.removesuffix("s"))
}
"""The parts by what they are called: a maker says which she made a swatch for."""

_GAUGE = re.compile(GAUGE_PATTERN, re.ASCII | re.IGNORECASE)
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
    uncounted: tuple[tuple[str, Counted], ...]
    """Fabrics by name, and what she did not count of their swatch: the pattern's is taken."""
    stretched: tuple[Fabric, ...] = ()
    """The fabrics whose stretch she measured, as the pattern has them."""


def read_gauge(texts: Sequence[str], design: Design) -> OwnGauge:
    """The gauge that ``--gauge`` gives: of the body fabric where none is named.

    Raises:
        UsageError: a text is no gauge, names no fabric of the design, or is far from the pattern's; a line
            for each.
    """
    parts = design.parts
    fabrics = parts.fabrics
    given: dict[str, Gauge] = {}
    stretches: dict[str, OwnStretch] = {}
    uncounted: list[tuple[str, Counted]] = []
    problems = Problems()
    for text in texts:
        with problems.noted():
            swatch, stretch = without_stretch(text) if len(text) <= _LONGEST_GAUGE else (text, None)
            fabric, gauge, missing = _read(swatch, text, design, fabrics)
            if fabric.name in given or fabric.name in stretches:
                raise UsageError(f"--gauge: {text!r} gives {fabric.name!r} a second time; keep one")
            if stretch is not None:
                stretches[fabric.name] = stretch
            if gauge is not None:
                uncounted += [(fabric.name, each) for each in missing]
                given[fabric.name] = gauge
    problems.refuse()

    def pulled(fabric: Fabric) -> Fabric:
        return stretches[fabric.name].of(fabric) if fabric.name in stretches else fabric

    body = given.get(parts.body.name, Gauge.of(parts.body))
    return OwnGauge(
        given=tuple((fabrics[name], gauge) for name, gauge in given.items()),
        parts=parts_at_gauge(parts, body, given).with_fabrics(pulled),
        alike=tuple(name for name in fabrics if name not in given and parts.body.name in given),
        uncounted=tuple(uncounted),
        stretched=tuple(fabrics[name] for name in stretches),
    )


def _read(
    counted_text: str, text: str, design: Design, fabrics: dict[str, Fabric]
) -> tuple[Fabric, Gauge | None, tuple[Counted, ...]]:
    """The fabric, its gauge as it is written in a text, and what of it was not counted.

    The gauge is None where there is nothing but a stretch.
    """
    before, _, swatch = counted_text.rpartition(":")
    only_pulled = counted_text != text and not swatch.strip()
    match = _GAUGE.match(swatch) if len(text) <= _LONGEST_GAUGE else None
    if not only_pulled and (match is None or (match[1] is None and match[2] is None)):
        raise UsageError(f"--gauge: expected a gauge such as {_EXAMPLE}, got {show_value(text)}")
    name = _fabric_name(before.strip(), design)
    if name not in fabrics:
        names = [*PART_WORDS, *fabrics]
        raise UsageError(f"--gauge: there is no fabric {show_value(name)}; {hint(name, names)}")
    if only_pulled or match is None:
        return fabrics[name], None, ()
    length = partial(parse_span, default=design.unit)
    width = _read_by(length, match[3], text)
    height = width if match[4] is None else _read_by(length, match[4], text)
    counts = [None if each is None else _read_by(plain_number, each, text) for each in match.groups()[:2]]
    if min(width, height, *(each for each in counts if each is not None)) <= 0:
        raise UsageError(f"--gauge: counts and lengths are more than 0, got {text!r}")
    pattern = Gauge.of(fabrics[name])
    stitches, rows = counts
    gauge = Gauge(
        stitches_per_cm=pattern.stitches_per_cm if stitches is None else stitches / width,
        rows_per_cm=pattern.rows_per_cm if rows is None else rows / height,
        width_cm=pattern.width_cm if stitches is None else _counted_over(width),
        height_cm=pattern.height_cm if rows is None else _counted_over(height),
    )
    over, (_, span) = design.unit.gauge_figure, design.unit.gauge_span
    for mine, usual, counted in (
        (gauge.stitches_per_cm, pattern.stitches_per_cm, Counted.STITCHES),
        (gauge.rows_per_cm, pattern.rows_per_cm, Counted.ROWS),
    ):
        if fault := gauge_fault(counted, mine):
            raise UsageError(f"--gauge: {fault}, in {text!r}")
        if not LOOSEST <= mine / usual <= TIGHTEST:
            raise UsageError(
                f"--gauge: {text!r} is {over(mine)} {counted.name.lower()} to {span}, the pattern has "
                f"{over(usual)}; check the counts and the unit"
            )
    missing = [each for each, count in zip(Counted, counts, strict=True) if count is None]
    return fabrics[name], gauge, tuple(missing)


def _fabric_name(name: str, design: Design) -> str:
    """The name of the fabric that is meant: by its name, or by a part that is worked in it."""
    if not name or name in design.parts.fabrics:
        return name or design.parts.body.name
    part = PART_WORDS.get(" ".join(name.casefold().split()))
    return name if part is None else design.parts.by_name[part].name


def _counted_over(length_cm: float) -> float:
    """What such a count was read over: nobody counts stitches to the centimetre or inch over so little."""
    return USUAL_SWATCH_CM if length_cm <= CM_PER_INCH + HAIR else length_cm


def _read_by(read: Callable[[str], float], words: str, text: str) -> float:
    try:
        return read(words)
    except ValueError as error:
        raise UsageError(f"--gauge: {error}, in {text!r}") from None
