"""The rows a spec can name: the trade's chart, and whole ages of the survey of children."""

from __future__ import annotations

import difflib
import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from schematics.errors import SchematicsError
from schematics.units import CM_PER_INCH, Grain, format_inches
from schematics.wearer.body import Body, BodyValue, Origin, Stage
from schematics.wearer.survey import OLDEST_YEARS
from schematics.wearer.tables import ChartCell, Sex, chart_cells

CHART_BODIES = {
    "chest": Body.CHEST_GIRTH,
    "bust": Body.CHEST_GIRTH,
    "center_back_neck_to_wrist": Body.CENTRE_BACK_NECK_TO_WRIST,
    "armhole_depth": Body.ARMHOLE_DEPTH,
    "back_waist_length": Body.BACK_WAIST_LENGTH,
    "cross_back": Body.SHOULDER_BREADTH,
    "upper_arm": Body.UPPER_ARM_GIRTH,
}
"""The chart's measures that are body measurements here; its cross back runs shoulder to shoulder."""

YOUNGEST_AGE_ROW = 2
"""The survey starts at two years; younger wearers have the chart's baby rows."""

_AGE_ROW = re.compile(r"age/(\d+(?:\.\d+)?)", re.ASCII)
_STAGES = {"baby": Stage.BABY, "child": Stage.CHILD, "woman": Stage.ADULT}


class WearerError(SchematicsError):
    """What a size says of its wearer cannot be used."""


class UnknownWearerError(WearerError):
    """A size names a row that no table has; the text suggests the nearest."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WearerRow:
    """One row a spec can name.

    ``age_years`` is the age its missing measurements are borrowed for, None for the oldest
    surveyed; ``stage`` is None for an age row, where the age decides.
    """

    reference: str
    stage: Stage | None
    sex: Sex
    age_years: float | None


@cache
def references() -> tuple[str, ...]:
    """Every row a spec can name, smallest first: ``baby/3 mo``, ``child/2``, ``woman/XS``, ``age/2``.

    Ages between the listed ones, such as ``age/6.5``, can be named too.
    """
    chart = dict.fromkeys(cell.reference for cell in chart_cells())
    ages = range(YOUNGEST_AGE_ROW, int(OLDEST_YEARS))
    return (*chart, *(f"age/{age}" for age in ages))


def find_row(reference: str, size_name: str) -> WearerRow:
    """The row of that name.

    Args:
        reference: as in `references`, or ``age/`` and any age the survey covers, in years.
        size_name: the size that names it, for the message.

    Raises:
        UnknownWearerError: there is no such row.
    """
    age = _AGE_ROW.fullmatch(reference)
    if age and YOUNGEST_AGE_ROW <= float(age[1]) <= OLDEST_YEARS:
        return WearerRow(reference=reference, stage=None, sex="both", age_years=float(age[1]))
    if age or reference not in references():
        raise UnknownWearerError(
            f"size {size_name!r}: no row {reference!r}; nearest: "
            f"{', '.join(_nearest(reference))}; 'schematics wearers' lists them all"
        )
    group, _, size = reference.partition("/")
    return WearerRow(
        reference=reference,
        stage=_STAGES[group],
        sex="F" if group == "woman" else "both",
        age_years=_age_years(group, size),
    )


@cache
def row_values(row: WearerRow) -> Mapping[Body, BodyValue]:
    """What the chart itself prints for a row: its cm column, a printed range as low and high."""
    return {
        CHART_BODIES[cell.measure]: BodyValue(
            low_cm=cell.low_cm,
            cm=(cell.low_cm + cell.high_cm) / 2,
            high_cm=cell.high_cm,
            origin=Origin.CHART,
            source=_cell_source(cell),
        )
        for cell in row_cells(row.reference)
    }


def row_cells(reference: str) -> tuple[ChartCell, ...]:
    """The chart's cells of a row that are body measurements here; none for an age row."""
    return _chart_rows().get(reference, ())


@cache
def _chart_rows() -> dict[str, tuple[ChartCell, ...]]:
    rows: dict[str, tuple[ChartCell, ...]] = {}
    for cell in chart_cells():
        if cell.measure in CHART_BODIES:
            rows[cell.reference] = (*rows.get(cell.reference, ()), cell)
    return rows


def printed_inches(cell: ChartCell) -> str:
    """The inches as the chart prints them: ``23 in`` or ``36 in to 38 in``."""
    low, high = (format_inches(inches * CM_PER_INCH, Grain.USUAL) for inches in (cell.low_in, cell.high_in))
    return low if low == high else f"{low} to {high}"


def _cell_source(cell: ChartCell) -> str:
    measure = cell.measure.replace("_", " ").replace("center", "centre")
    text = f"Craft Yarn Council standards, {cell.reference}, {measure}, printed {printed_inches(cell)}"
    return f"{text} ({cell.note})" if cell.note else text


def _age_years(group: str, size: str) -> float | None:
    if group == "woman":
        return None
    number = float(size.split()[0])
    return number / 12 if group == "baby" else number


def _nearest(reference: str) -> list[str]:
    """Up to three references like a mistyped one: by number where it has one, else by spelling."""
    wanted = re.sub(r"\s*/\s*", "/", reference.strip().casefold())
    spelled = {item.casefold(): item for item in references()}
    if wanted in spelled:
        return [spelled[wanted]]
    group, _, size = wanted.partition("/")
    number = re.search(r"\d+(?:\.\d+)?", wanted)
    if number and group != "woman":
        groups = (group,) if group in ("baby", "child", "age") else ("child", "age")
        rows = [item for item in references() if item.partition("/")[0] in groups]
        return sorted(
            rows, key=lambda item: abs(float(item.partition("/")[2].split()[0]) - float(number[0]))
        )[:3]
    same_size = [item for key, item in spelled.items() if key.endswith(f"/{size or group}")]
    same_group = [item for key, item in spelled.items() if key.startswith(f"{group}/")]
    close = [spelled[key] for key in difflib.get_close_matches(wanted, spelled, n=3)]
    likely = list(dict.fromkeys([*same_size, *close, *same_group]))
    return likely[:3] or ["baby/12 mo", "child/4", "woman/M"]
