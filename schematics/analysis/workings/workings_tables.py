"""Working sheets for the terminal and as comma-separated values."""

from __future__ import annotations

import re
import textwrap
from collections.abc import Iterable, Iterator, Sequence

from rich.console import Console, ConsoleOptions, RenderableType
from rich.padding import Padding
from rich.text import Text

from schematics.analysis.workings.arithmetic import shown
from schematics.analysis.workings.ruler import Ruler
from schematics.analysis.workings.working_sheet import Section, Step
from schematics.checks.evaluation import Result
from schematics.crochet.fabric import Counted, Fabric
from schematics.design.design import Design
from schematics.document.csv_text import Cell, csv_text
from schematics.document.json_text import number
from schematics.document.table import heading
from schematics.units import Unit, format_both, format_inches, round_half_up

CSV_HEADER = (
    "size", "section", "key", "figure", "arithmetic", "result", "unit", "printed", "swatch", "source",
)  # fmt: skip

_LEGEND = (
    "Counts are named as in the spec. Angles are in degrees. A result that goes into another sum is "
    "written to 4 decimals. A pattern prints the unrounded length, rounded once: to 0.5 cm and 1/4 in."
)
_NUMBER = re.compile(r"\d( \d+/\d+)? (sts|rows|cm|in)\b|\d \d/\d\b")
_NO_BREAK = "\N{NO-BREAK SPACE}"

Worked = tuple[Result, tuple[Section, ...]]


def workings_parts(design: Design, sizes: Sequence[Worked]) -> Iterator[RenderableType]:
    """What the command prints of one design: its swatches, then every size's sheet."""
    yield heading(f"{design.title}, {design.construction} ({design.path})")
    yield from _swatches(design)
    yield _line(_LEGEND, 0)
    for result, sections in sizes:
        for section in sections:
            yield Text()
            yield heading(f"Size {result.size.name} (line {result.size.line}): {section.title}")
            for step in section.steps:
                yield _line(f"{step.name}: {arithmetic(step)}", 2)
                yield _line("; ".join(_notes(step)), 6)
    yield Text()


def arithmetic(step: Step) -> str:
    """``164 sts / (19 sts / 20 cm) = 172.6 cm (68 in)``."""
    return f"{step.sum.text} = {_outcome(step)}"


def workings_csv(sizes: Iterable[Worked]) -> str:
    """One line a step; ``result`` is exact to 3 decimals."""
    rows: list[tuple[Cell, ...]] = [CSV_HEADER]
    for result, sections in sizes:
        for section in sections:
            rows += [
                (
                    result.size.name,
                    section.title,
                    step.key,
                    step.name,
                    step.sum.text,
                    number(step.sum.value),
                    step.unit,
                    _printed(step) if step.finished else "",
                    step.swatch,
                    _origin(step),
                )
                for step in section.steps
            ]
    return csv_text(rows)


def _swatches(design: Design) -> Iterator[RenderableType]:
    parts, ruler = design.parts, Ruler.of(design.parts, design.unit)
    used = (
        ("body", parts.body),
        ("centre panel", parts.centre_panel),
        ("neck band", parts.neck_band),
        ("arm bands", parts.arm_bands),
    )
    fabrics: dict[str, tuple[Fabric, list[str]]] = {}
    for part, fabric in used:
        fabrics.setdefault(fabric.name, (fabric, []))[1].append(part)
    for fabric, names in fabrics.values():
        gauges = ", ".join(ruler.swatch(fabric, counted).text for counted in Counted)
        yield _line(f"swatch of {fabric.name} ({fabric.stitch}; {', '.join(names)}): {gauges}", 2)


class _Held:
    """Words wrapped so that no number loses its unit."""

    def __init__(self, words: str) -> None:
        self._words = _NUMBER.sub(lambda found: found[0].replace(" ", _NO_BREAK), words)

    def __rich_console__(self, _: Console, options: ConsoleOptions) -> Iterator[Text]:
        for line in textwrap.wrap(self._words, options.max_width, break_long_words=False):
            yield Text(line.replace(_NO_BREAK, " "))


def _line(words: str, indent: int) -> RenderableType:
    return Padding(_Held(words), (0, 0, 0, indent), expand=False)


def _cm(step: Step) -> float:
    return Unit(step.unit).to_cm(step.sum.value)


def _outcome(step: Step) -> str:
    if not step.finished:
        return shown(step.sum.value, step.unit)
    if step.unit == Unit.IN.value:
        cm = round_half_up(_cm(step), 0.1)
        return f"{round_half_up(step.sum.value, 0.01):.2f} in ({cm:.1f} cm)"
    return f"{round_half_up(step.sum.value, 0.1):.1f} cm ({format_inches(step.sum.value)})"


def _printed(step: Step) -> str:
    return format_both(_cm(step))


def _notes(step: Step) -> Iterator[str]:
    """Where the figure comes from and how it is printed."""
    if step.finished:
        yield f"unrounded {shown(step.sum.value, step.unit)}, printed {_printed(step)}"
    if step.swatch:
        yield f"swatch of {step.swatch}"
    yield _origin(step)


def _origin(step: Step) -> str:
    derived = step.derived
    if derived is None:
        return step.source
    count = derived.count.text
    if derived.sums:
        count = f"{count} = {shown(derived.count.value, '')}"
    taken = f", taken as {derived.taken}" if derived.taken is not None else ""
    return f"{count}{taken}: {derived.words}"
