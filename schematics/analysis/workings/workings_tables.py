"""Working sheets as documents."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from schematics.analysis.json_keys import STEP
from schematics.analysis.workings.arithmetic import shown
from schematics.analysis.workings.ruler import Ruler
from schematics.analysis.workings.workings import workings
from schematics.analysis.workings.written import SheetPart, Step
from schematics.checks.evaluation import Result
from schematics.crochet.fabric import Counted
from schematics.design.design import Design
from schematics.document.common import design_title, head_json
from schematics.document.csv_text import Value
from schematics.document.document import Document, Section, Table
from schematics.document.in_terms import document_in_terms
from schematics.document.json_text import number
from schematics.garment.printed_lengths import STEPS_IN_WORDS, grain_of
from schematics.units import Unit, format_both

_LEGEND = (
    "Counts are named as in the spec. Angles are in degrees. A result that goes into another sum is "
    "written to 4 decimals. A pattern prints the unrounded length, rounded once: "
    f"{STEPS_IN_WORDS}."
)

Worked = Sequence[tuple[Result, tuple[SheetPart, ...]]]


def workings_document(design: Design, results: Sequence[Result], *, lines: bool = True) -> Document:
    """A design's swatches, then the sheet of every size; with ``lines``, where in the spec each size is."""
    sizes = [(result, workings(design, result)) for result in results]
    document = Document(
        title=design_title(design),
        lead=(*_swatches(design), _LEGEND),
        sections=tuple(
            Section(
                f"Size {result.size.name}{f' (line {result.size.line})' if lines else ''}: {part.title}",
                (
                    Table(
                        header=("figure", "arithmetic", "as printed", "swatch", "source"),
                        rows=tuple(map(_row, part.steps)),
                        stacked=True,
                    ),
                ),
            )
            for result, parts in sizes
            for part in parts
        ),
        data=lambda: {
            **head_json(design),
            "steps": [dict(zip(STEP, record, strict=True)) for record in _records(sizes)],
        },
        records=lambda: (tuple(STEP), *_records(sizes)),
    )
    return document_in_terms(document, design.terms)


def _row(step: Step) -> tuple[str, ...]:
    """``body hem edge``, ``164 sts / (19 sts / 20 cm) = 172.6316 cm`` and where it comes from."""
    return (
        step.name,
        f"{step.sum.text} = {shown(step.sum.value, step.unit)}",
        f"printed {_printed(step)}" if step.finished else "",
        f"swatch of {step.swatch}" if step.swatch else "",
        _origin(step),
    )


def _records(sizes: Worked) -> Iterator[tuple[Value, ...]]:
    for result, parts in sizes:
        for part in parts:
            for step in part.steps:
                yield (
                    result.size.name,
                    part.title,
                    step.key,
                    step.name,
                    step.sum.text,
                    number(step.sum.value),
                    step.unit,
                    _printed(step) if step.finished else "",
                    step.swatch,
                    _origin(step),
                )


def _swatches(design: Design) -> Iterator[str]:
    ruler = Ruler.of(design.parts, design.unit)
    for fabric in design.parts.fabrics.values():
        gauges = ", ".join(ruler.swatch(fabric, counted).text for counted in Counted)
        yield f"swatch of {fabric.name} ({fabric.stitch}; {design.parts.used_for(fabric)}): {gauges}"


def _printed(step: Step) -> str:
    return format_both(Unit(step.unit).to_cm(step.sum.value), grain_of(step.key))


def _origin(step: Step) -> str:
    derived = step.derived
    if derived is None:
        return step.source
    count = derived.count.text
    if derived.sums:
        count = f"{count} = {shown(derived.count.value, '')}"
    taken = f", taken as {derived.taken}" if derived.taken is not None else ""
    return f"{count}{taken}: {derived.words}"
