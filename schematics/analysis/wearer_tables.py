"""Tables and JSON of the wearers a size can name."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from rich.console import RenderableType
from rich.text import Text

from schematics.document.json_text import number
from schematics.document.table import columns, heading
from schematics.units import format_inches
from schematics.wearer.body import BodyValue
from schematics.wearer.listing import MeasurementRow, ReferenceRow


def references_parts(rows: Sequence[ReferenceRow]) -> Iterator[RenderableType]:
    """Every row a spec can name, with the values that tell them apart."""
    yield heading("Rows a size can name as its wearer, typical values in cm")
    header = ["row", "stage", "chest", "head", "back neck to wrist", "height"]
    table = [
        [row.reference, row.stage.value, *(f"{value.cm:.1f}" for value in _values(row).values())]
        for row in rows
    ]
    yield columns([header, *table], right=range(2, len(header)))


def reference_parts(reference: str, rows: Sequence[MeasurementRow]) -> Iterator[RenderableType]:
    """Every measurement of one row, then where each comes from."""
    yield heading(f"{reference}, in cm; a size is held against low or high where a whole range must fit")
    header = ["", "typical", "low", "high", "inches", "from"]
    table = [
        [
            row.body.words,
            *(f"{length:.1f}" for length in (row.cm, row.low_cm, row.high_cm)),
            (row.printed_inches or format_inches(row.cm)).replace(" in", ""),
            row.origin.value,
        ]
        for row in rows
    ]
    yield columns([header, *table], right=range(1, 5))
    yield Text()
    yield heading("Sources")
    for row in rows:
        yield columns([[f"{row.body.words}: {row.source}"]])


def references_json(rows: Sequence[ReferenceRow]) -> Any:
    """The list of rows as plain JSON values, lengths in cm to 0.001."""
    return {
        "references": [
            {
                "reference": row.reference,
                "stage": row.stage.value,
                "age_years": number(row.age_years),
                **{f"{name}_cm": number(value.cm) for name, value in _values(row).items()},
            }
            for row in rows
        ]
    }


def reference_json(reference: str, rows: Sequence[MeasurementRow]) -> Any:
    """One row as plain JSON values, lengths in cm to 0.001."""
    return {
        "reference": reference,
        "body": {
            row.body.value: {
                "cm": number(row.cm),
                "low_cm": number(row.low_cm),
                "high_cm": number(row.high_cm),
                "printed_inches": row.printed_inches,
                "origin": row.origin.value,
                "source": row.source,
                "borrowed": row.borrowed,
            }
            for row in rows
        },
    }


def _values(row: ReferenceRow) -> dict[str, BodyValue]:
    return {
        "chest_girth": row.chest,
        "head_girth": row.head,
        "centre_back_neck_to_wrist": row.centre_back_neck_to_wrist,
        "height": row.height,
    }
