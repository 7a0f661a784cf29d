"""The pattern of what is made to measure: it says at once what its maker is to mind."""

from __future__ import annotations

from dataclasses import replace

from schematics.document.document import Document, Items, Section
from schematics.fitting.advice_words import worn_sentence
from schematics.fitting.not_known import not_known
from schematics.fitting.to_measure.made_to_measure import MadeToMeasure
from schematics.pattern.pattern_files import pattern_document


def poncho_pattern(poncho: MadeToMeasure, form: str) -> Document:
    """The pattern in one of the forms of `pattern_document`."""
    document = pattern_document(poncho.design, (poncho.result,), form)
    minded = tuple(each.full_sentence for each in poncho.fit.reported)
    if not minded:
        return document
    verdict = worn_sentence(poncho.fit.how, unknown=not_known(poncho.fit) is not None)
    heading = f"What to mind for {poncho.order.name}" if poncho.order.name else "What to mind"
    front, *others = document.sections
    return replace(
        document, sections=(front, Section(heading, (verdict, Items(minded)), key="minded"), *others)
    )
