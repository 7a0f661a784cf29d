"""The sections of the figures; a new one is one new file and one line in `SECTIONS`."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from schematics.document.document import Section
from schematics.pattern.book import Book
from schematics.pattern.sections import (
    abbreviations,
    bands,
    folded_steps,
    increases,
    joins,
    materials,
    repeats,
    safety,
    sizes,
)
from schematics.pattern.sections import finished_measurements as measurements
from schematics.pattern.sections import piece_sizes as pieces
from schematics.pattern.sections import yarn_amounts as yarn

BODY_STEPS: Mapping[str, Callable[[Book], Section]] = {
    "flared": increases.section,
    "mitred": increases.section,
    "folded": folded_steps.section,
}
"""How the body is worked, by the construction's word; any other is told by its increases."""


def _body_steps(book: Book) -> Section:
    return BODY_STEPS.get(book.design.construction, increases.section)(book)


SECTIONS: tuple[Callable[[Book], Section], ...] = (
    safety.stops_section,
    sizes.section,
    materials.section,
    measurements.section,
    pieces.section,
    _body_steps,
    repeats.section,
    joins.section,
    bands.markers_section,
    bands.ribbing_section,
    yarn.section,
    abbreviations.section,
    safety.cautions_section,
)
"""In the order of the document."""
