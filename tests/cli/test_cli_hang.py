"""``schematics hang``: what it prints and writes, and what it refuses."""

from __future__ import annotations

import csv
import io
import json
import re
from pathlib import Path

import pytest
from pypdf import PdfReader

from schematics.analysis.drape import hang_report
from schematics.checks.evaluation import evaluate
from schematics.checks.finding import Severity
from schematics.reading.design_file import read_design
from tests.analysis.drape.made_up_hang import made_up_ranges
from tests.program import call, hang_coarsely
from tests.shipped import shipped_text
from tests.specs_for_tests import write

pytestmark = pytest.mark.usefixtures("place")


def test_a_spec_that_was_not_weighed_is_told_by_the_plane_model_alone(place: Path) -> None:
    write(place)
    result = call("hang", "lake.yaml", "--size", "4", "--format", "json")
    assert (result.exit_code, result.stderr) == (0, "")
    (design,) = json.loads(result.stdout)["designs"]
    (four,) = design["sizes"]
    assert "were not weighed (give their mass), so the plane model alone is told." in four["without_cloth"]
    assert {each["cloth_cm"] for each in four["lengths"]} == {None}
    assert {each["decides"] for each in four["findings"]} == {"plane model"}
    assert four["verdict"] == "mind"
    written = call("hang", "lake.yaml", "--size", "4", "-o", "four.pdf")
    assert (written.exit_code, written.stderr) == (
        2,
        "lake.yaml: four.pdf was not written: no size could be hung on cloth\n",
    )
    assert "the plane model alone is told" in written.stdout
    assert not Path("four.pdf").exists()


@pytest.mark.parametrize(
    ("arguments", "message"),
    [
        (("lake.yaml", "--size", "5"), "lake.yaml: no size '5'; the sizes are 4, 6 years"),
        (("lake.yaml", "-o", "four.png"), "-o writes a PDF; let the name 'four.png' end in .pdf"),
        (("lake.yaml", "-o", "four.json"), "-o writes a PDF; let the name 'four.json' end in .pdf"),
        (
            ("lake.yaml", "shore.yaml", "-o", "four.pdf"),
            "-o takes the pictures of one design, and there are 2",
        ),
        (("nowhere.yaml",), "nowhere.yaml: "),
    ],
)
def test_what_cannot_be_is_told_once(place: Path, arguments: tuple[str, ...], message: str) -> None:
    write(place)
    result = call("hang", *arguments)
    assert (result.exit_code, result.stdout) == (2, "")
    assert result.stderr.startswith(message)
    assert result.stderr.count("\n") == 1


def test_what_is_found_is_told_worst_first_and_stops(place: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Its hem hangs 38 to 43 cm below the nape, and is to stay 50 cm above the knee."""
    monkeypatch.setattr(hang_report, "ranges", made_up_ranges)
    text = shipped_text("tidepool", "6") + "limits: {knee_clearance_cm: 50 cm}\n"
    (place / "tidepool.yaml").write_text(text, "utf-8")
    result = call("hang", "tidepool.yaml", "--csv")
    assert result.exit_code == 1
    lines = csv.DictReader(io.StringIO(result.stdout))
    codes = [each["code"] for each in lines if each["code"]]
    assert codes[0] == "DRAPE-KNEE"
    assert sorted(codes) == ["DRAPE-KNEE", "DRAPE-NECK", "DRAPE-WAIST"]


@pytest.mark.slow
def test_the_pictures_of_a_size_are_a_page_of_the_paper_asked_for(
    place: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    hang_coarsely(monkeypatch)
    (place / "tidepool.yaml").write_text(shipped_text("tidepool", "4"), "utf-8")
    result = call("hang", "tidepool.yaml", "-o", "t.pdf", "--paper", "letter")
    assert (result.exit_code, result.stderr) == (0, "")
    assert "arms level: hem at centre back" in result.stdout
    pdf = PdfReader("t.pdf")
    assert [str(each.title) for each in pdf.outline if not isinstance(each, list)] == ["size 4"]
    (page,) = pdf.pages
    width, height = (float(each) * 25.4 / 72 for each in page.mediabox[2:])
    assert (width, height) == pytest.approx((279.4, 215.9), abs=0.1)
    text = page.extract_text()
    assert "hung as cloth" in text
    severities = [finding.severity for finding in evaluate(read_design(Path("tidepool.yaml")))[0].findings]
    hung = re.findall(r"(\w+) +DRAPE-", result.stdout)
    assert hung.count("mind") == 1
    told = f"{severities.count(Severity.MIND) + 1} mind of {len(severities) + len(hung)} checks"
    assert told in text
