"""The sections of the figures; a new one is one new file and one line in `SECTIONS`."""

from __future__ import annotations

from collections.abc import Callable

from schematics.document.document import Section
from schematics.pattern.book import Book
from schematics.pattern.sections import (
    bands,
    joins,
    repeats,
    safety,
    sizes_and_wearers,
    terms_used,
    worked_steps,
    yarn_and_gauge,
)
from schematics.pattern.sections import finished_measurements as measurements
from schematics.pattern.sections import piece_sizes as pieces
from schematics.pattern.sections import yarn_amounts as yarn

SECTIONS: tuple[Callable[[Book], Section], ...] = (
    safety.stops_section,
    sizes_and_wearers.section,
    yarn_and_gauge.section,
    measurements.section,
    pieces.section,
    worked_steps.section,
    repeats.section,
    joins.section,
    bands.markers_section,
    bands.ribbing_section,
    yarn.section,
    terms_used.section,
    safety.cautions_section,
)
"""In the order of the document."""
