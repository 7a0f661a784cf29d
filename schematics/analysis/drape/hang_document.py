"""How the sizes hang, as a document."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import islice
from typing import Any

from schematics.analysis.drape.hang_report import SizeHang, stiffness_guessed
from schematics.analysis.json_keys import FINDING
from schematics.checks.cloth_findings import HangLengths, TwoModels
from schematics.checks.tape import Tape
from schematics.checks.wording import listed
from schematics.crochet.fabric import BENDING_LENGTH_HOW
from schematics.design.design import Design
from schematics.design.limits import COMMON
from schematics.document.common import (
    cautions_json,
    cautions_section,
    design_title,
    findings_table,
    head_json,
    rated,
)
from schematics.document.document import NONE, Cell, Document, Items, Quantity, Section, Table, Words
from schematics.document.json_text import number, picked
from schematics.garment.cloth.material import (
    BENDING_LENGTH_CM,
    FRICTION,
    ROUGHEST,
    SMOOTHEST,
    SOFTEST_CM,
    STIFFEST_CM,
)
from schematics.garment.cloth.ranges import FINER_CM

_LENGTHS = {
    "back": "arms down: hem at centre back",
    "side": "arms down: hem at the side",
    "front": "arms down: hem at centre front",
    "lowest": "arms down: hem at its lowest",
    "level_back": "arms level: hem at centre back",
    "level_front": "arms level: hem at centre front",
    "neck_back": "neck edge at centre back",
    "neck_beside": "neck edge, out from the middle",
}
"""In the order they are printed."""

_CAPTION = "Below the nape; the neck edge's widest place from the middle"


def hang_document(design: Design, hangs: Sequence[SizeHang]) -> Document:
    """For each size the findings, worst first, and every length by both models."""
    on_cloth = any(each.hung is not None for each in hangs)
    return Document(
        title=f"{design_title(design)}: how it hangs",
        sections=(
            *(_size_section(design, each) for each in hangs),
            Section("How it is worked out", (Items(tuple(_notes(design, on_cloth))),)),
        ),
        closing=(cautions_section(),),
        data=lambda: _json(design, hangs),
    )


def _size_section(design: Design, hang: SizeHang) -> Section:
    heading: Words = f"Size {hang.result.size.name}, {hang.result.wearer.label}"
    without = (hang.without,) if hang.without else ()
    if hang.lengths is None:
        return Section(heading, without)
    findings = findings_table(each.finding for each in hang.findings)
    table = _table(Tape(design.unit), hang.lengths, on_cloth=hang.hung is not None)
    return Section((f"{heading}: ", rated(hang.verdict)), (*without, findings, table))


def _table(tape: Tape, lengths: HangLengths, *, on_cloth: bool) -> Table:
    """The plane model alone where it is not hung on cloth."""
    columns = ("plane model", "cloth", "least", "most") if on_cloth else ("plane model",)
    return Table(
        header=("where", *columns),
        rows=tuple(
            (words, *islice(_cells(tape, getattr(lengths, name)), len(columns)))
            for name, words in _LENGTHS.items()
        ),
        caption=_CAPTION,
    )


def _cells(tape: Tape, length: TwoModels) -> Iterator[Cell]:
    cloth = length.cloth
    spans = () if cloth is None else (cloth.usual_cm, cloth.low_cm, cloth.high_cm)
    for cm in (length.plane_cm, *spans):
        yield Quantity(cm, NONE if cm is None else tape.length(cm), "cm")


def _notes(design: Design, on_cloth: bool) -> Iterator[str]:
    tape = Tape(design.unit)
    yield (
        "The plane model lays the fabric along shoulder and arm and lets it hang straight below, sag added; "
        "it knows no front and back, no folds, and a neck edge that stays on the nape."
    )
    if not on_cloth:
        return
    yield (
        "On cloth the seamed pieces, bands included, hang from a solid body of the size's typical "
        "measurements, as heavy and as stretchy as the swatches. Of both models the more cautious decides: "
        "of a hem that may be too long the longer, of one that may be too short the shorter, of a neck edge "
        "the wider."
    )
    guessed = stiffness_guessed(design.parts)
    friction = f"friction of {SMOOTHEST:g} to {ROUGHEST:g} on clothes, usually {FRICTION:g} ({COMMON})"
    if guessed:
        ends = f"{tape.length(SOFTEST_CM)} to {tape.length(STIFFEST_CM)}"
        usual = tape.length(BENDING_LENGTH_CM)
        yield (
            f"The range is over {friction}, and over a bending length of {ends}, usually {usual}, of "
            f"{listed(map(repr, guessed))}. To narrow it, measure it: {BENDING_LENGTH_HOW}. Write it into "
            "the swatch as bending_length."
        )
    else:
        yield f"The range is over {friction}; the bending lengths are measured."
    yield (
        "Folds can fall in more than one way, so part of the range is of fabric cut up more coarsely. Cut up "
        f"more finely, hems of the designs tried hung up to {tape.length(FINER_CM)} outside the range, "
        "but for corners at the sides, which fold in or out."
    )


def _json(design: Design, hangs: Sequence[SizeHang]) -> dict[str, Any]:
    return {
        **head_json(design),
        "bending_guessed": list(stiffness_guessed(design.parts)),
        "cautions": cautions_json(),
        "sizes": [_size_json(each) for each in hangs],
    }


def _size_json(hang: SizeHang) -> dict[str, Any]:
    return {
        "name": hang.result.size.name,
        "verdict": hang.verdict.value,
        "label": hang.result.wearer.label,
        "without_cloth": hang.without or None,
        "lengths": [] if hang.lengths is None else list(_lengths_json(hang.lengths)),
        "findings": [
            {
                **picked(each.finding, FINDING),
                "decides": each.decides,
                "figures": {name: number(value) for name, value in each.finding.figures.items()},
            }
            for each in hang.findings
        ],
    }


def _lengths_json(lengths: HangLengths) -> Iterator[dict[str, Any]]:
    for name, words in _LENGTHS.items():
        length: TwoModels = getattr(lengths, name)
        cloth = length.cloth
        yield {
            "key": name,
            "name": words,
            "plane_cm": number(length.plane_cm),
            "cloth_cm": None if cloth is None else number(cloth.usual_cm),
            "cloth_low_cm": None if cloth is None else number(cloth.low_cm),
            "cloth_high_cm": None if cloth is None else number(cloth.high_cm),
        }
