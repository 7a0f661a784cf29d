"""A finished measurement reads in the sentences of findings as it does wherever it is printed."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace

import pytest

from schematics.checks.evaluation import Result, evaluate
from schematics.checks.finding import Finding
from schematics.checks.seams import LENGTH as SEAM
from schematics.garment.printed_lengths import finished_figure
from schematics.units import CM_PER, Grain, Unit, printed
from tests.shipped import shipped_design, shipped_results

LENGTH = re.compile(r"(?<![\d./])((?:\d+ )?\d+/\d+|\d+(?:\.\d+)?) (cm|in)\b")
NEAR_CM = 0.4
"""A printed length as near as this to a finished one that the finding goes by is that one, rounded."""


def in_figures(number: str) -> float:
    whole, _, fraction = number.rpartition(" ") if "/" in number else (number, "", "0/1")
    over, under = fraction.split("/")
    return float(whole or 0) + int(over) / int(under)


def found_of(finding: Finding) -> str:
    """Its sentence, of a seam without what another count would be."""
    return finding.sentence.partition("; ")[0] if finding.code == SEAM else finding.sentence


def told(result: Result, unit: Unit) -> Iterator[tuple[str, str, set[str]]]:
    """Code, what is printed of a finished length in its sentence, what is printed of it everywhere else."""
    words = {item.length_cm: f"{finished_figure(item, unit)} {unit}" for item in result.garment.finished}
    for finding in result.findings:
        gone_by = [value for name, value in finding.figures.items() if name.endswith("_cm")]
        finished = {
            length: next((each for each in words if abs(each - length) < 1e-9), None) for length in gone_by
        }
        others = {printed(length, unit, Grain.USUAL) for length, key in finished.items() if key is None}
        for number, of in LENGTH.findall(found_of(finding)):
            length = in_figures(number) * CM_PER[of]
            usual = {words[key] for key in finished.values() if key and abs(length - key) < NEAR_CM}
            if usual and f"{number} {of}" not in others:
                yield finding.code, f"{number} {of}", usual


@pytest.mark.slow
@pytest.mark.parametrize(
    ("name", "unit"),
    [
        ("tidepool", Unit.CM),
        ("saltmarsh", Unit.CM),
        ("driftwood", Unit.CM),
        ("driftwood", Unit.IN),
        ("sandpiper", Unit.CM),
        pytest.param("kelp", Unit.IN, marks=pytest.mark.thorough),
    ],
)
def test_what_a_finding_says_of_a_finished_length_is_what_is_printed_of_it(name: str, unit: Unit) -> None:
    """Every size of every design that comes with the program, good findings too."""
    design = shipped_design(name)
    results = shipped_results(name) if design.unit is unit else evaluate(replace(design, unit=unit))
    said = [(result.size.name, *each) for result in results for each in told(result, unit)]
    assert {code for _, code, *_ in said} >= {"NECK-TIGHT", "ARM-REST", SEAM}
    assert [each for each in said if each[2] not in each[3]] == []
