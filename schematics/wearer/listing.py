"""What ``schematics wearers`` shows, as plain data."""

from __future__ import annotations

from dataclasses import dataclass

from schematics.wearer.body import Body, BodyValue, Origin, Stage, Wearer, WearerSpec
from schematics.wearer.resolve import resolve
from schematics.wearer.rows import CHART_BODIES, printed_inches, references, row_cells


@dataclass(frozen=True, slots=True, kw_only=True)
class ReferenceRow:
    """One row a spec can name, with the values that tell sizes apart.

    Chart sizes are not ages: the chart's chests run wider than the surveyed children's.
    """

    reference: str
    stage: Stage
    age_years: float | None
    chest: BodyValue
    head: BodyValue
    centre_back_neck_to_wrist: BodyValue
    height: BodyValue


@dataclass(frozen=True, slots=True, kw_only=True)
class MeasurementRow:
    """One measurement of one wearer; lengths exact.

    ``sd_cm`` is the standard deviation of an estimate's error, apart from the errors of what it follows from;
    0 for what is no estimate. ``printed_inches`` is the inch figure of the chart, which is not always the cm
    figure converted; None where the value is not from the chart.
    """

    body: Body
    cm: float
    low_cm: float
    high_cm: float
    sd_cm: float
    origin: Origin
    borrowed: bool
    source: str
    printed_inches: str | None


def reference_rows() -> tuple[ReferenceRow, ...]:
    """Every row a spec can name, in the order of `references`."""
    wearers = ((reference, _resolve(reference)) for reference in references())
    return tuple(
        ReferenceRow(
            reference=reference,
            stage=wearer.stage,
            age_years=wearer.age_years,
            chest=wearer.values[Body.CHEST_GIRTH],
            head=wearer.values[Body.HEAD_GIRTH],
            centre_back_neck_to_wrist=wearer.values[Body.CENTRE_BACK_NECK_TO_WRIST],
            height=wearer.values[Body.HEIGHT],
        )
        for reference, wearer in wearers
    )


def measurement_rows(reference: str) -> tuple[MeasurementRow, ...]:
    """Every measurement of the row of that name.

    Raises:
        UnknownWearerError: there is no such row.
    """
    return wearer_rows(_resolve(reference), reference)


def wearer_rows(wearer: Wearer, reference: str | None) -> tuple[MeasurementRow, ...]:
    """Every measurement of a wearer resolved from ``reference``, None if it names no chart row."""
    printed = {CHART_BODIES[cell.measure]: printed_inches(cell) for cell in row_cells(reference or "")}
    return tuple(
        MeasurementRow(
            body=body,
            cm=value.cm,
            low_cm=value.low_cm,
            high_cm=value.high_cm,
            sd_cm=value.sd_cm,
            origin=value.origin,
            borrowed=value.borrowed,
            source=value.source,
            printed_inches=printed.get(body) if value.origin is Origin.CHART else None,
        )
        for body, value in wearer.values.items()
    )


def _resolve(reference: str) -> Wearer:
    return resolve(WearerSpec(chart=reference), reference)
