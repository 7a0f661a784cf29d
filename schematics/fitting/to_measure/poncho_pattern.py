"""The pattern of what is made to measure: it says at once what its maker is to mind."""

from __future__ import annotations

from dataclasses import replace

from schematics.document.document import Document, Section
from schematics.fitting.to_measure.amiss import verdict_blocks
from schematics.fitting.to_measure.made_to_measure import MadeToMeasure
from schematics.pattern.pattern_files import pattern_document


def poncho_pattern(poncho: MadeToMeasure, form: str) -> Document:
    """The pattern in one of the forms of `pattern_document`."""
    document = pattern_document(poncho.design, (poncho.result,), form)
    reported = poncho.fit.reported
    if not reported:
        return document
    heading = "What is not sure" if all(each.unsure for each in reported) else "What to mind"
    if poncho.order.name:
        heading = f"{heading} for {poncho.order.name}"
    front, *others = document.sections
    minded = Section(heading, tuple(verdict_blocks(poncho.fit)), key="minded")
    return replace(document, sections=(front, minded, *others))
