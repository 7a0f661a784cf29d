"""The wearers a size can name."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from schematics.analysis.json_keys import VALUE
from schematics.document.document import Document, Quantity, Section, Table
from schematics.document.json_text import number, picked
from schematics.units import Grain, Unit, figure, format_inches
from schematics.wearer.body import BodyValue
from schematics.wearer.listing import MeasurementRow, ReferenceRow

_GIVE_OR_TAKE = (
    "Give or take: one standard deviation of an estimate's own error, beside the errors of what it follows "
    "from."
)


def references_document(rows: Sequence[ReferenceRow]) -> Document:
    """Every row a spec can name, with the values that tell them apart."""
    table = Table(
        header=("row", "stage", "chest", "head", "back neck to wrist", "height"),
        rows=tuple(
            (row.reference, row.stage.value, *(_centimetres(value.cm) for value in _values(row).values()))
            for row in rows
        ),
    )
    return Document(
        title="Rows a size can name as its wearer, typical values in cm",
        sections=(Section("", (table,)),),
        data=lambda: references_json(rows),
    )


def reference_document(reference: str, rows: Sequence[MeasurementRow]) -> Document:
    """Every measurement of one row, then where each comes from."""
    table = Table(
        header=("", "typical", "low", "high", "inches", "from", "give or take"),
        rows=tuple(
            (
                row.body.words,
                *map(_centimetres, (row.cm, row.low_cm, row.high_cm)),
                Quantity(None, (row.printed_inches or format_inches(row.cm, Grain.USUAL)).replace(" in", "")),
                row.origin.value,
                _centimetres(row.sd_cm) if row.sd_cm else "",
            )
            for row in rows
        ),
    )
    return Document(
        title=f"{reference}, in cm; a size is held against low or high where a whole range must fit",
        sections=(
            Section("", (table,)),
            Section("Sources", (*(f"{row.body.words}: {row.source}" for row in rows), _GIVE_OR_TAKE)),
        ),
        data=lambda: reference_json(reference, rows),
    )


def _centimetres(length_cm: float) -> Quantity:
    return Quantity(length_cm, figure(length_cm, Unit.CM, Grain.USUAL), "cm")


def references_json(rows: Sequence[ReferenceRow]) -> Any:
    """The list of rows as plain JSON values, lengths in cm to 0.001."""
    return {
        "references": [
            {
                **picked(row, ("reference", "stage", "age_years")),
                **{f"{name}_cm": number(value.cm) for name, value in _values(row).items()},
            }
            for row in rows
        ]
    }


def reference_json(reference: str, rows: Sequence[MeasurementRow]) -> Any:
    """One row as plain JSON values, lengths in cm to 0.001."""
    return {
        "reference": reference,
        "body": {row.body.value: picked(row, (*VALUE, "sd_cm", "printed_inches")) for row in rows},
    }


def _values(row: ReferenceRow) -> dict[str, BodyValue]:
    return {
        "chest_girth": row.chest,
        "head_girth": row.head,
        "centre_back_neck_to_wrist": row.centre_back_neck_to_wrist,
        "height": row.height,
    }
