"""The published tables as typed rows, read once from the package's ``data`` folder."""

from __future__ import annotations

import csv
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from typing import Literal

Sex = Literal["both", "F", "M"]


@dataclass(frozen=True, slots=True, kw_only=True)
class ChartCell:
    """One measurement of one row of the trade's body size chart, in both printed units.

    ``note`` says what is odd about the printed figures, empty for most cells.
    """

    group: str
    size: str
    measure: str
    low_in: float
    high_in: float
    low_cm: float
    high_cm: float
    note: str

    @property
    def reference(self) -> str:
        """How a spec names the row: ``child/4``."""
        return f"{self.group}/{self.size}"


@dataclass(frozen=True, slots=True, kw_only=True)
class HeadRange:
    """One row of the trade's head size table, cm."""

    low_cm: float
    high_cm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class SurveyBin:
    """Mean, standard deviation and percentiles of one measure in one age bin of the survey of 1977, cm."""

    measure: str
    sex: Sex
    from_years: float
    to_years: float
    count: int
    mean_cm: float
    sd_cm: float
    p5_cm: float
    p50_cm: float
    p95_cm: float

    @property
    def middle_years(self) -> float:
        """The age the bin stands for."""
        return (self.from_years + self.to_years) / 2


@dataclass(frozen=True, slots=True, kw_only=True)
class GrowthRow:
    """Percentiles of a growth reference for one sex at one age, cm."""

    reference: str
    sex: Sex
    age_years: float
    p3_cm: float
    p50_cm: float
    p97_cm: float


def read_rows(name: str, room: str = "wearer") -> list[dict[str, str]]:
    """The rows of the table ``name`` (without ``.csv``) in the ``data`` of a room, all cells as printed."""
    path = files("schematics").joinpath(room, "data", f"{name}.csv")
    return list(csv.DictReader(path.read_text(encoding="utf-8").splitlines()))


@cache
def chart_cells() -> tuple[ChartCell, ...]:
    """The body size chart; the group the trade calls ``child/youth`` is ``child``."""
    return tuple(
        ChartCell(
            group=row["group"].partition("/")[0],
            size=row["size"],
            measure=row["measure"],
            low_in=float(row["in_low"]),
            high_in=float(row["in_high"]),
            low_cm=float(row["cm_low"]),
            high_cm=float(row["cm_high"]),
            note=row["note"],
        )
        for row in read_rows("body_sizes")
    )


@cache
def head_ranges() -> dict[str, HeadRange]:
    """The trade's head sizes by category."""
    return {
        row["category"]: HeadRange(low_cm=float(row["cm_low"]), high_cm=float(row["cm_high"]))
        for row in read_rows("head_sizes")
    }


@cache
def survey_bins() -> dict[tuple[str, Sex], tuple[SurveyBin, ...]]:
    """The survey's bins from youngest to oldest, by measure and sex."""
    series: dict[tuple[str, Sex], list[SurveyBin]] = {}
    for row in read_rows("children_by_age"):
        youngest, _, oldest = row["age_years_bin"].partition("-")
        sex = _sex(row["sex"])
        entry = SurveyBin(
            measure=row["measure_cm"],
            sex=sex,
            from_years=float(youngest),
            to_years=float(oldest),
            count=int(row["n"]),
            mean_cm=float(row["mean"]),
            sd_cm=float(row["sd"]),
            p5_cm=float(row["p5"]),
            p50_cm=float(row["p50"]),
            p95_cm=float(row["p95"]),
        )
        series.setdefault((entry.measure, sex), []).append(entry)
    return {key: tuple(sorted(bins, key=lambda item: item.from_years)) for key, bins in series.items()}


@cache
def growth_series(name: str) -> dict[tuple[str, Sex], tuple[GrowthRow, ...]]:
    """The growth references of ``head_by_age`` or ``height_by_age``, by reference and sex."""
    series: dict[tuple[str, Sex], list[GrowthRow]] = {}
    for row in read_rows(name):
        entry = GrowthRow(
            reference=row["reference"],
            sex=_sex(row["sex"]),
            age_years=float(row["age_years"]),
            p3_cm=float(row["p3_cm"]),
            p50_cm=float(row["p50_cm"]),
            p97_cm=float(row["p97_cm"]),
        )
        series.setdefault((entry.reference, entry.sex), []).append(entry)
    return {key: tuple(sorted(rows, key=lambda item: item.age_years)) for key, rows in series.items()}


@dataclass(frozen=True, slots=True, kw_only=True)
class Landmark:
    """A published proportion, its standard deviation; ``stature_m`` where it is of one height only."""

    stature_m: float | None
    value: float
    sd: float
    source: str

    @property
    def sd_fraction(self) -> float:
        """How much of itself it may be off."""
        return self.sd / self.value


@cache
def landmarks() -> dict[str, tuple[Landmark, ...]]:
    """The proportions of ``landmarks`` by what they are of, those of bodies of one height rising by it."""
    by_quantity: dict[str, list[Landmark]] = {}
    for row in read_rows("landmarks"):
        entry = Landmark(
            stature_m=float(row["stature_m"]) if row["stature_m"] else None,
            value=float(row["value"]),
            sd=float(row["sd"]),
            source=row["source"],
        )
        by_quantity.setdefault(row["quantity"], []).append(entry)
    return {quantity: tuple(entries) for quantity, entries in by_quantity.items()}


def _sex(text: str) -> Sex:
    if text == "M":
        return "M"
    return "F" if text == "F" else "both"
