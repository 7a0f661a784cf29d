"""How far a piece is, as a document."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from schematics.analysis.measurements import questions_json
from schematics.analysis.yarn.yarn_tables import mass_words
from schematics.checks.finding import Severity
from schematics.design.design import Design
from schematics.document.common import cautions_section, rated, uncoded_findings_table
from schematics.document.document import Document, Section, Table
from schematics.document.json_text import number, picked
from schematics.fitting.fit_keys import EXPECTED, MEASURED, YARN_LEFT
from schematics.fitting.fit_report import finished_sections, questions_sections
from schematics.fitting.progress import BANDS, Outcome, PieceProgress, YarnLeft
from schematics.fitting.progress_words import ALIKE, ALONE, GAUGE, instead_words
from schematics.fitting.report_json import head_and_cautions, size_json
from schematics.fitting.whom_for import whom_for
from schematics.units import Grain, Unit, format_both, printed_mass


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnPiece:
    """What the maker measured and weighed; None where she did not."""

    width_cm: float | None
    height_cm: float | None
    weighed_g: float | None


def progress_document(
    design: Design,
    size: str,
    now: PieceProgress,
    measured: OwnPiece,
    outcome: Outcome | None,
    yarn: Sequence[YarnLeft],
) -> Document:
    """What the piece should be now, what it is, and what becomes of it."""
    table = Table(
        header=("", "by the pattern", "yours"),
        rows=(
            ("stitches in the last row", str(now.stitches), ""),
            ("along the last row", format_both(now.width_cm, now.width_grain), _length(measured.width_cm)),
            ("up the rows", format_both(now.height_cm, now.height_grain), _length(measured.height_cm)),
            (
                "weight",
                mass_words(now.mass_g, design.unit),
                mass_words(measured.weighed_g, design.unit) if measured.weighed_g else "",
            ),
            ("worked", f"{now.share * 100:.0f} % of the stitches", ""),
        ),
    )
    parted = "The work is parted here: stitches and width are of both sides together."
    return Document(
        title=f"{design.title}, size {size}: {now.piece}, {now.rows} of {now.all_rows} rows",
        sections=(
            Section("", (table, parted) if now.parted else (table,)),
            *(_outcome_sections(design, now, outcome) if outcome else []),
            _yarn_section(now, measured, yarn, design.unit),
        ),
        closing=(cautions_section(),),
        data=lambda: {
            **head_and_cautions(design),
            "size": size,
            **_json(now, measured, outcome, yarn, design.unit),
        },
    )


def _length(length_cm: float | None) -> str:
    return "" if length_cm is None else format_both(length_cm, Grain.USUAL)


def _outcome_sections(design: Design, now: PieceProgress, outcome: Outcome) -> Sequence[Section]:
    own, usual = outcome.gauge, now.fabric
    over, (_, span) = design.unit.gauge_figure, design.unit.gauge_span
    gauge = [
        GAUGE.format(
            stitches=over(own.stitches_per_cm),
            rows=over(own.rows_per_cm),
            span=span,
            usual_stitches=over(usual.stitches_per_cm),
            usual_rows=over(usual.rows_per_cm),
        ),
        ALIKE if outcome.alike else ALONE,
    ]
    if outcome.rows_instead != now.all_rows:
        gauge.append(instead_words(now.piece, now.all_rows, outcome.rows_instead, band=now.piece in BANDS))
    findings = outcome.fit.reported
    whom = "your wearer" if outcome.given else "the wearer the size is for"
    verdict = (
        f"on {whom} ({whom_for(outcome.wearer.label)}): ",
        rated(findings[0].severity if findings else Severity.GOOD),
        " as far as is known" if outcome.fit.unknown else "",
    )
    return (
        Section("Your gauge", tuple(gauge)),
        Section(
            "If you go on like this", (verdict, uncoded_findings_table(findings)) if findings else (verdict,)
        ),
        *questions_sections(outcome.wearer, design.unit),
        *finished_sections(design, [outcome.fit]),
    )


def _yarn_section(now: PieceProgress, measured: OwnPiece, yarn: Sequence[YarnLeft], unit: Unit) -> Section:
    sentences: list[str] = []
    if measured.weighed_g is not None:
        whole_g = measured.weighed_g / now.share
        whole, rest = (printed_mass(each, unit) for each in (whole_g, whole_g - measured.weighed_g))
        sentences.append(f"The whole {now.piece} comes to {whole}; {rest} of it are to come.")
    if not yarn:
        sentences.append("What the other pieces take is not known: weigh the swatches and give their mass.")
        return Section("Yarn", tuple(sentences))
    basis = "as heavy as it is here" if measured.weighed_g is not None else "as heavy as by the pattern"
    return Section(
        "Yarn",
        (
            *sentences,
            *(_yarn_words(each, unit) for each in yarn),
            f"Counted without a margin, everything {basis}, the pieces before the {now.piece} finished.",
        ),
    )


def _yarn_words(each: YarnLeft, unit: Unit) -> str:
    words = f"{each.colour}: still" if each.colour else "Still"
    still = f"{words} to be worked: {printed_mass(each.rest_g, unit)}"
    if each.have_g is None:
        return f"{still}. Say what is left with --have '350 g'."
    left = printed_mass(abs(each.have_g - each.rest_g), unit)
    verdict = {
        "yes": f"it lasts, {left} are over",
        "only just": f"it only just lasts, {left} are over",
        "no": f"it does not last, {left} are missing",
    }[each.lasts]
    return f"{still}, at hand {printed_mass(each.have_g, unit)}: {verdict}."


def _json(
    now: PieceProgress, measured: OwnPiece, outcome: Outcome | None, yarn: Sequence[YarnLeft], unit: Unit
) -> dict[str, Any]:
    return {
        **picked(now, ("piece", "rows", "all_rows")),
        "expected": picked(now, EXPECTED),
        "measured": picked(measured, MEASURED),
        "outcome": None
        if outcome is None
        else {
            "stitches_to_10_cm": number(10 * outcome.gauge.stitches_per_cm),
            "rows_to_10_cm": number(10 * outcome.gauge.rows_per_cm),
            "other_fabrics_alike": outcome.alike,
            "rows_for_the_patterns_length": outcome.rows_instead,
            "questions": questions_json(outcome.wearer, unit),
            "size": size_json(outcome.fit),
        },
        "yarn": [picked(each, YARN_LEFT, colour=each.colour or None) for each in yarn],
    }
