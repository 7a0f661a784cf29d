"""A finished poncho as it was measured: ``body hem edge 140``, ``panel length 36 cm``.

A finished measurement of so many stitches or rows gives the gauge of its part in their direction: its count
over its length. Several of one part and direction are put together, the counts over the lengths; bands of one
ribbing may each have come out otherwise.
"""

from __future__ import annotations

import math
import re
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from schematics.checks.tape import Tape
from schematics.checks.wording import listed
from schematics.crochet.fabric import Counted, Fabric, gauge_fault
from schematics.design.design import Design, Parts, Size
from schematics.errors import UsageError
from schematics.fitting.gauge import Gauge, fabric_at_gauge, size_at_gauge
from schematics.fitting.gauge_text import LOOSEST, TIGHTEST
from schematics.garment.garment import Finished
from schematics.garment.printed_lengths import grain_of
from schematics.reading.problems import hint, show_value
from schematics.reading.spellings import VULGAR, parse_length

AGREE = 0.04
"""Measurements of one part and direction differ by no more than this fraction (common practice, no
source)."""

BODY = "body"
_LONGEST = 120
_EXAMPLE = "'body hem edge 140' or 'panel length 36 cm'"
_STARTS_LENGTH = re.compile(rf"[0-9.,]*[0-9{''.join(VULGAR)}]")


@dataclass(frozen=True, slots=True, kw_only=True)
class MeasuredLength:
    """A finished measurement of the pattern, and what the finished piece measures there, in cm."""

    pattern: Finished
    part: str
    counted: Counted
    length_cm: float

    @property
    def ratio(self) -> float:
        """How long it came out over what the pattern has."""
        return self.length_cm / self.pattern.length_cm


@dataclass(frozen=True, slots=True, kw_only=True)
class MeasuredPiece:
    """What was measured of one size, and the fabrics that it comes to."""

    lengths: tuple[MeasuredLength, ...]
    parts: Parts

    def disagreements(self) -> Iterator[str]:
        """Where measurements of one part and direction differ by more than `AGREE`, in words."""
        for several in _by_direction(self.lengths).values():
            least, most = (choose(several, key=lambda each: each.ratio) for choose in (min, max))
            if most.ratio > least.ratio * (1 + AGREE):
                yield (
                    f"The {least.pattern.name} came out {off_words(least.ratio)} and the {most.pattern.name} "
                    f"{off_words(most.ratio)}, though both are {most.counted.words} of the {most.part}: "
                    "measure both again, lying flat without stretch. They are taken together here."
                )

    def taken(self, pattern: Parts) -> Iterator[str]:
        """What was not measured and how it is taken, in words."""
        measured = {(each.part, each.counted) for each in self.lengths}
        as_pattern: list[str] = []
        alike: list[str] = []
        as_other: list[str] = []
        for part, fabric in pattern.by_name.items():
            same = {other for other, each in pattern.by_name.items() if each.name == fabric.name}
            for counted in Counted:
                words = f"the {counted.words} of the {part}"
                if (part, counted) in measured:
                    continue
                if any((other, counted) in measured for other in same):
                    as_other.append(words)
                else:
                    (alike if (BODY, counted) in measured else as_pattern).append(words)
        if as_other:
            yield f"Taken as measured on another part in the same stitch and yarn: {listed(as_other)}."
        if alike:
            yield f"Taken to be as much tighter or looser as the body: {listed(alike)}."
        if as_pattern:
            yield f"Not measured, and taken as in the pattern: {listed(as_pattern)}."


def off_words(ratio: float) -> str:
    """Such as ``8 % longer``, or ``as in the pattern``."""
    per_cent = round(abs(ratio - 1) * 100)
    return f"{per_cent} % {'longer' if ratio > 1 else 'shorter'}" if per_cent else "as in the pattern"


def read_measured(texts: Sequence[str], design: Design, size: Size) -> MeasuredPiece:
    """The finished piece that ``--measured`` describes.

    Args:
        texts: each a finished measurement of the pattern by its name or key, and its length; a bare number is
            in the design's unit.
        design: the design.
        size: the size it was worked in.

    Raises:
        UsageError: nothing is given, a text names no measurement or has no length, names one twice, or is far
            from the pattern's; a line for each.
    """
    finished = size_at_gauge(design, size).garment.finished
    lengths: list[MeasuredLength] = []
    problems: list[str] = []
    for text in texts:
        try:
            each = _length(text, design, finished)
            if each.pattern.key in {other.pattern.key for other in lengths}:
                raise UsageError(f"--measured: the {each.pattern.name} is given twice; keep one")
            lengths.append(each)
        except UsageError as error:
            problems += error.problems
    if not texts:
        problems = [f"--measured: say what the finished piece measures, such as {_EXAMPLE}"]
    if problems:
        raise UsageError(*problems)
    return MeasuredPiece(lengths=tuple(lengths), parts=_parts(design.parts, lengths))


def _length(text: str, design: Design, finished: Sequence[Finished]) -> MeasuredLength:
    start = _STARTS_LENGTH.search(text) if len(text) <= _LONGEST else None
    name = "" if start is None else text[: start.start()].strip(" \t=:")
    if start is None or not name:
        raise UsageError(
            f"--measured: expected a name and a length such as {_EXAMPLE}, got {show_value(text)}"
        )
    usable = {each.key: part for each in finished if (part := _part_of(each, design.parts))}
    item = _names(finished).get(_plain(name))
    names = [each.name for each in finished if each.key in usable]
    if item is None:
        raise UsageError(f"--measured: there is no measurement {show_value(name)}; {hint(name, names)}")
    if item.key not in usable or item.counted is None or item.count is None:
        raise UsageError(
            f"--measured: the {item.name} tells no gauge, for it is not counted in one fabric; measure "
            f"others, such as the {listed(names[:2])}"
        )
    try:
        length_cm = parse_length(text[start.start() :], design.unit)
    except ValueError as error:
        raise UsageError(f"--measured: {item.name}: {error}") from None
    mine = item.count / length_cm if length_cm > 0 else math.inf
    if not LOOSEST <= mine * item.length_cm / item.count <= TIGHTEST or gauge_fault(item.counted, mine):
        usual = Tape(design.unit).length(item.length_cm, grain_of(item.key))
        raise UsageError(
            f"--measured: by the pattern the {item.name} is {usual}, so {show_value(text)} is taken for a "
            "slip; check the length, its unit and --size"
        )
    return MeasuredLength(pattern=item, part=usable[item.key], counted=item.counted, length_cm=length_cm)


_PART_OF = {"panel": "centre panel", "neck_band": "neck band", "arm_band": "arm bands"}
"""A part by what the keys of its measurements begin with; all others are the body's."""


def _part_of(item: Finished, parts: Parts) -> str | None:
    """The part whose gauge a measurement gives; None of one that gives none."""
    part = _PART_OF.get(item.key.partition(".")[0], BODY)
    if item.count is None or item.counted is None:
        return None
    worked_cm = parts.by_name[part].length_cm(item.count, item.counted)
    return part if math.isclose(worked_cm, item.length_cm) else None


def _names(finished: Sequence[Finished]) -> dict[str, Finished]:
    """Every measurement by its name, with or without what follows a comma, by its key and that's end."""
    ends = Counter(each.key.rpartition(".")[2] for each in finished)
    last = {_plain(end): each for each in finished if ends[end := each.key.rpartition(".")[2]] == 1}
    short = {_plain(each.name.partition(",")[0]): each for each in finished}
    keys = {_plain(each.key): each for each in finished}
    return {**last, **keys, **short, **{_plain(each.name): each for each in finished}}


def _plain(name: str) -> str:
    return " ".join(re.sub(r"[.,_]|(?<=\w)-(?=\w)", " ", name.casefold()).split())


def _by_direction(lengths: Iterable[MeasuredLength]) -> dict[tuple[str, Counted], list[MeasuredLength]]:
    groups: dict[tuple[str, Counted], list[MeasuredLength]] = {}
    for each in lengths:
        groups.setdefault((each.part, each.counted), []).append(each)
    return groups


def _parts(pattern: Parts, lengths: Sequence[MeasuredLength]) -> Parts:
    """The fabrics as they came out; one that came out differently in several parts has several names."""
    looser = {part: _ratios(pattern, part, lengths) for part in pattern.by_name}
    fabrics = {}
    for part, fabric in pattern.by_name.items():
        alike = [other for other, each in pattern.by_name.items() if each.name == fabric.name]
        same = all(looser[other] == looser[part] for other in alike)
        own = fabric_at_gauge(fabric, _gauge(fabric, looser[part]))
        fabrics[part.replace(" ", "_")] = own if same else replace(own, name=f"{own.name} of the {part}")
    return Parts(**fabrics, borders=pattern.borders)


_Looser = tuple[float, float | None]
"""How much longer so many stitches or rows are than in the pattern, and over which length that was
measured."""


def _ratios(pattern: Parts, part: str, lengths: Sequence[MeasuredLength]) -> tuple[_Looser, _Looser]:
    """Across and along one part: as measured there, else on another of its fabric, else as on the body."""
    fabric = pattern.by_name[part]

    def ratio(counted: Counted) -> _Looser:
        here = [each for each in lengths if each.counted is counted]
        alike = [each for each in here if pattern.by_name[each.part].name == fabric.name]
        several = [each for each in alike if each.part == part] or alike
        over = sum(each.length_cm for each in several)
        if several:
            return over / sum(each.pattern.length_cm for each in several), over
        body = [each for each in here if each.part == BODY]
        if body and part != BODY:
            whole = sum(each.pattern.length_cm for each in body)
            return sum(each.length_cm for each in body) / whole, None
        return 1.0, None

    return ratio(Counted.STITCHES), ratio(Counted.ROWS)


def _gauge(fabric: Fabric, looser: tuple[_Looser, _Looser]) -> Gauge:
    usual = Gauge.of(fabric)
    (across, width), (along, height) = looser
    return Gauge(
        stitches_per_cm=usual.stitches_per_cm / across,
        rows_per_cm=usual.rows_per_cm / along,
        width_cm=usual.width_cm * across if width is None else width,
        height_cm=usual.height_cm * along if height is None else height,
    )
