"""The corrections between two versions of a design as a document."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby
from typing import Any

from schematics.analysis.json_keys import CORRECTION
from schematics.design.design import Design
from schematics.document.common import cautions_json, cautions_section
from schematics.document.document import PROGRAM, Document, Items, Section
from schematics.document.json_text import picked
from schematics.pattern.corrections import Comparison, Correction, correction_lines


def corrections_document(old: Design, new: Design, comparison: Comparison) -> Document:
    """What is to be corrected in all sizes, then size by size, by the headings of the pattern."""
    blocks = {"All sizes": comparison.everywhere} if comparison.everywhere else {}
    blocks |= {f"Size {size}": corrections for size, corrections in comparison.by_size.items()}
    return Document(
        title=f"{new.title}: corrections from {_version(old)} to {_version(new)}",
        lead=("Nothing that is printed has changed.",) if comparison.same else (),
        sections=(
            *(Section(heading, tuple(_lists(corrections))) for heading, corrections in blocks.items()),
            *(
                Section("", (f"Sizes {words}: {', '.join(names)}",))
                for words, names in (("added", comparison.added), ("left out", comparison.removed))
                if names
            ),
        ),
        closing=(cautions_section(),),
        data=lambda: _json(old, new, comparison),
        records=lambda: (("size", *CORRECTION), *_records(comparison)),
    )


def _version(design: Design) -> str:
    return f"{design.path}" + (f" ({design.date.isoformat()})" if design.date else "")


def _lists(corrections: Sequence[Correction]) -> Iterator[Items]:
    for section, group in groupby(corrections, key=lambda correction: correction.section):
        yield Items(tuple(correction_lines(list(group))), caption=section)


def _records(comparison: Comparison) -> Iterator[tuple[str | None, ...]]:
    for size, corrections in {"": comparison.everywhere, **comparison.by_size}.items():
        for correction in corrections:
            yield (size or None, *_values(correction).values())


def _values(correction: Correction) -> dict[str, Any]:
    blanks = {key: getattr(correction, key) or None for key in ("unit", "old", "new")}
    return picked(correction, CORRECTION, figure=correction.name, **blanks)


def _json(old: Design, new: Design, comparison: Comparison) -> dict[str, Any]:
    return {
        "format": 1,
        "program": PROGRAM,
        "old": old.path.name,
        "new": new.path.name,
        "all_sizes": [_values(each) for each in comparison.everywhere],
        "sizes": [
            {"name": size, "corrections": [_values(each) for each in corrections]}
            for size, corrections in comparison.by_size.items()
        ],
        "added": list(comparison.added),
        "removed": list(comparison.removed),
        "cautions": cautions_json(),
    }
