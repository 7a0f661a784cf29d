"""What the checks say of a design, as a document."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from schematics.analysis.measurements import measurements
from schematics.checks.evaluation import SEVERITIES, Result
from schematics.checks.finding import Severity
from schematics.design.design import Design
from schematics.document.common import cautions_section, design_title, findings_table, rated
from schematics.document.document import Document, Section, Words


def check_document(design: Design, results: Sequence[Result], *, show_all: bool) -> Document:
    """For each size its verdict and its findings, those that stop first.

    Findings that are good are only counted unless ``show_all``.
    """
    return Document(
        title=design_title(design),
        sections=tuple(_size_section(result, show_all) for result in results),
        closing=(
            Section("", ("schematics explain CODE says what a finding means and how to cure it.",)),
            cautions_section(),
        ),
        data=lambda: measurements(design, results),
    )


def _size_section(result: Result, show_all: bool) -> Section:
    counts = Counter(finding.severity for finding in result.findings)
    counted = ", ".join(f"{counts[severity]} {severity.value}" for severity in SEVERITIES if counts[severity])
    heading: Words = (
        f"Size {result.size.name}, {result.wearer.label}: ",
        rated(result.verdict),
        f" ({counted})" if counted else "",
    )
    shown = [each for each in result.findings if show_all or each.severity is not Severity.GOOD]
    shown.sort(key=lambda finding: SEVERITIES.index(finding.severity))
    return Section(heading, (findings_table(shown),) if shown else ())
