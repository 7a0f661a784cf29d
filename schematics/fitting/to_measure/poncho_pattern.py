"""The pattern of what is made to measure: it says at once what its maker is to mind, and shows it worn."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import suppress
from dataclasses import replace

from schematics.document.document import Document, Section
from schematics.drawing.draped.hang_sheet import hangs, hung_picture, hung_words
from schematics.fitting.to_measure.amiss import verdict_blocks
from schematics.fitting.to_measure.made_to_measure import MadeToMeasure
from schematics.garment.cloth.cloth_error import ClothError
from schematics.pattern.pattern_files import pattern_document
from schematics.pattern.published import picture


def poncho_pattern(poncho: MadeToMeasure, form: str, *, worn: bool = False) -> Document:
    """The pattern in one of the forms of `pattern_document`; hung on the wearer as cloth where ``worn``.

    That takes some seconds.
    """
    document = pattern_document(poncho.design, (poncho.result,), form)
    front, *others = document.sections
    shown = _worn(poncho) if worn else ()
    return replace(document, sections=(front, *_minded(poncho), *shown, *others))


def _minded(poncho: MadeToMeasure) -> Iterator[Section]:
    reported = poncho.fit.reported
    if reported:
        heading = "What is not sure" if all(each.unsure for each in reported) else "What to mind"
        yield Section(_for_whom(heading, "for", poncho), tuple(verdict_blocks(poncho.fit)), key="minded")


def _worn(poncho: MadeToMeasure) -> Iterator[Section]:
    """How it hangs on this wearer, where it can be hung."""
    with suppress(ClothError):
        if hangs(poncho.design, poncho.result):
            words = hung_words(poncho.design, poncho.result)
            shown = picture(hung_picture(poncho.design, poncho.result), 1.0)
            yield Section(_for_whom("How it hangs", "on", poncho), (shown, words), key="worn")


def _for_whom(heading: str, preposition: str, poncho: MadeToMeasure) -> str:
    name = poncho.order.name
    return f"{heading} {preposition} {name}" if name else heading
