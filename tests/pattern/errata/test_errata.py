"""Errata written out by hand for changes whose figures are worked out by hand; and how lines are found."""

from __future__ import annotations

import re
from collections.abc import Sequence
from pathlib import Path

import pytest

from schematics.checks.evaluation import evaluate
from schematics.document.document import Document, Row, Section, plain
from schematics.document.writers import written
from schematics.drawing.ink.sheet import A4
from schematics.pattern import pattern_files
from schematics.pattern.errata import versions
from schematics.pattern.errata.difference import difference
from schematics.pattern.errata.errata import Erratum, Mend, errata_of
from schematics.pattern.errata.errata_report import errata_document
from schematics.pattern.errata.some_sizes import in_some, named
from schematics.pattern.errata.versions import compare_patterns
from schematics.pattern.pattern_files import document_content, page_look, pattern_document
from tests.document.pdf_reading import page_texts
from tests.pattern.written.lake import FOLDED, ONE, THREE
from tests.shipped import shipped_text
from tests.specs_for_tests import read


@pytest.fixture
def without_pages(monkeypatch: pytest.MonkeyPatch) -> None:
    """Spare the typesetting where a test is not about pages."""
    monkeypatch.setattr(versions, "_pages", lambda *_: {})


def errata(folder: Path, old: str, new: str) -> Document:
    before, after = read(folder, old), read(folder, new)
    found = compare_patterns(before, evaluate(before), after, evaluate(after))
    return errata_document(before, after, found)


def told(folder: Path, old: str, new: str) -> list[str]:
    """Every erratum after the heading it stands under, without its page."""
    return [
        f"{plain(section.heading)}: {re.sub(r'^Page [0-9]+, ', '', plain(words))}"
        for section in errata(folder, old, new).sections
        for words in section.sentences
    ]


@pytest.mark.slow
@pytest.mark.usefixtures("without_pages")
def test_an_arm_band_of_one_size_a_stitch_deeper(tmp_path: Path) -> None:
    """10 sts of 14 to 10 cm are 7.14 cm, 2.81 in; 9 were 6.43 cm, 2.53 in; a chain turns, so 11 are begun."""
    assert told(tmp_path, THREE, THREE.replace("arm_bands: {stitches: 9}", "arm_bands: {stitches: 10}")) == [
        "Finished measurements: arm band depth, size 8: read “7.25 cm; 2 3/4 inches”, "
        "not “6.5 cm; 2 1/2 inches”.",
        "Arm bands: Foundation, size 8: read “Ch 11”, not “Ch 10”.",
        "Arm bands: Row 1 (RS), size 8: read “[10 sts]”, not “[9 sts]”.",
        "Arm bands: Row 24 (WS), size 8: read “[10 sts]”, not “[9 sts]”.",
        "Arm bands: Close the ring, size 8: read “10 times in all”, not “9 times in all”.",
    ]


@pytest.mark.slow
@pytest.mark.usefixtures("without_pages")
def test_a_panel_of_one_size_two_rows_longer(tmp_path: Path) -> None:
    """32 rows of 10 to 10 cm are 32 cm, 12.6 in. 30 body rows to 32: two take 2, first the 8th."""
    new = THREE.replace("panel: {stitches: 12, rows: 30}", "panel: {stitches: 12, rows: 32}")
    first, *rest = told(tmp_path, THREE, new)
    assert first == (
        "Finished measurements: panel length, size 4: read “32 cm; 12 1/2 inches”, "
        "not “30 cm; 11 3/4 inches”."
    )
    assert rest[0] == "Centre panel: Rows 1 to 30, size 4: read “Rows 1 to 32”, not “Rows 1 to 30”."
    assert rest[1] == (
        "Centre panel: “Fasten off at the end …”, size 4: read “Fasten off at the end of Row 32 instead of "
        "turning”, not “Fasten off at the end of Row 30 instead of turning”."
    )
    assert rest[2] == (
        "Seams: Seams A and B, size 4: read “panel row ends: 32; ratio: 9 to 10; exact order: panel row "
        "ends to each body row end: [1 × 7, 2, 1 × 7] × 2”, not “panel row ends: 30; ratio: 1 to 1; exact "
        "order: one to one”."
    )
    assert rest[3:] == [
        "Seams: a quarter from the hem, size 4: read “panel row: 9”, not “panel row: 8”.",
        "Seams: half way, size 4: read “panel row: 16”, not “panel row: 15”.",
        "Seams: a quarter from the top, size 4: read “panel row: 25”, not “panel row: 23”.",
    ]


@pytest.mark.slow
@pytest.mark.seeds
@pytest.mark.usefixtures("without_pages")
def test_a_row_of_the_chart_is_told_once_for_all_sizes(tmp_path: Path) -> None:
    demo = shipped_text("tidepool", "2", "6")
    new = demo.replace("hdc, (hdc, 2 BPdc, hdc) across, hdc", "hdc, (2 BPdc, 2 hdc) across, hdc", 1)
    assert told(tmp_path, demo, new) == [
        "Centre panel: Row 4 (WS): read “[2 BPdc, 2 hdc] to last st”, not “[hdc, 2 BPdc, hdc] to last st”."
    ]


@pytest.mark.slow
@pytest.mark.usefixtures("without_pages")
def test_a_hook_is_told_wherever_it_is_printed(tmp_path: Path) -> None:
    hook = "read “with a 7 mm hook”, not “with a 6 mm (US J-10) hook”."
    parts = {
        "Body": "Work flat in rows, back …",
        "Centre panel": "Work flat in rows, back …",
        "Neck band": "Work the neck band sideways …",
        "Arm bands": "Make two, with a …",
    }
    assert told(tmp_path, THREE, THREE.replace("hook: 6", "hook: 7")) == [
        "Materials: “6 mm (US J-10), for …”: read “7 mm”, not “6 mm (US J-10)”.",
        *(f"{part}: “{begins}”: {hook}" for part, begins in parts.items()),
    ]


@pytest.mark.slow
def test_both_versions_are_told_in_the_new_ones_terms(tmp_path: Path) -> None:
    assert told(tmp_path, THREE, f"{THREE}terms: UK\n") == [
        "Head: stitch names: read “UK terms”, not “US terms”."
    ]


def test_another_construction_is_not_told_row_by_row(tmp_path: Path) -> None:
    found = errata(tmp_path, ONE, FOLDED)
    assert [plain(section.heading) for section in found.sections] == ["Head"]
    assert found.lead == ("No row is as it was: the pattern is to be read anew as a whole.",)


@pytest.mark.slow
def test_nothing_that_is_printed_has_changed(tmp_path: Path) -> None:
    found = errata(tmp_path, THREE, f"# a note\n{THREE}")
    assert (found.lead, found.sections) == (("Nothing that is printed in the pattern has changed.",), ())


@pytest.mark.slow
@pytest.mark.usefixtures("without_pages")
def test_sizes_added_and_left_out_are_named(tmp_path: Path) -> None:
    for old, new, words in (
        (ONE, THREE, "Sizes 6 years and 8 are added to the new version."),
        (THREE, ONE, "Sizes 6 years and 8 are left out of the new version."),
    ):
        assert words in errata(tmp_path, old, new).lead


@pytest.mark.slow
def test_every_erratum_names_the_page_that_its_line_is_on(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Looked up in the PDF of the old version on A4, page by page; it is typeset once."""
    design = read(tmp_path, THREE)
    pattern, look = pattern_document(design, evaluate(design), "pdf"), page_look(design, A4)
    pdf = document_content(pattern, "pdf", look)
    shown = page_texts(pdf)

    def typeset(*of: object) -> bytes:
        assert of == (pattern, "pdf", look)
        return pdf

    monkeypatch.setattr(pattern_files, "document_content", typeset)
    new = THREE.replace("arm_bands: {stitches: 9}", "arm_bands: {stitches: 10}")
    words = [plain(each) for part in errata(tmp_path, THREE, new).sections for each in part.sentences]
    (ring,) = (
        number
        for number, text in enumerate(shown, start=1)
        if "8 (8, 9) times in all" in " ".join(text.split())
    )
    (depth,) = (number for number, text in enumerate(shown, start=1) if "arm band depth" in text)
    assert words[0].startswith(f"Page {depth}, arm band depth")
    assert words[-1].startswith(f"Page {ring}, Close the ring")


def document(rows: Sequence[Row]) -> Document:
    return Document(title="t", sections=(Section("Body", tuple(rows)),))


def rows_of(old: Sequence[Row], new: Sequence[Row], names: Sequence[str]) -> list[Erratum]:
    return list(errata_of(document(old), names, document(new), names))


def numbered(texts: Sequence[str]) -> list[Row]:
    return [
        Row(f"Row {number} ({'RS' if number % 2 else 'WS'})", f"{text}.")
        for number, text in enumerate(texts, start=1)
    ]


@pytest.mark.parametrize(
    ("more", "now"),
    [(["a", "b"], "Rows 33 to 60"), (["a"], "Rows 32 to 59, RS and WS changing places")],
)
def test_a_renumbered_stretch_is_told_once(more: list[str], now: str) -> None:
    words = [f"work {'x' * number}" for number in range(1, 59)]
    found = rows_of(numbered(words), numbered([*words[:30], *more, *words[30:]]), ["4", "6"])
    assert [(each.kind, each.place, each.new) for each in found] == [
        *((Mend.ADD, "Row 30 (WS)", row.text) for row in numbered([*words[:30], *more])[30:]),
        (Mend.RENUMBER, "Rows 31 to 58", now),
    ]


def test_a_row_that_fewer_sizes_work() -> None:
    """Row 2 of size 6 is another; size 4 works it as before."""
    old = [Row("Row 1 (RS)", "A."), Row("Row 2 (WS)", "B 3 (4).")]
    new = [
        Row("Row 1 (RS)", "A."),
        Row("Size 4 only, row 2 (WS)", "B 3."),
        Row("Size 6 only, row 2 (WS)", "C 4."),
    ]
    (found,) = rows_of(old, new, ["4", "6"])
    assert (found.kind, found.place, found.sizes) == (Mend.READ, "Row 2 (WS)", ("6",))
    assert (found.old, found.new) == ("B 4", "C 4")


@pytest.mark.parametrize(
    ("text", "chosen", "read"),
    [
        ("Row 27 (31, 35) (RS (WS, RS))", ["4"], "Row 31 (WS)"),
        ("18 3/4 (20, 20 3/4) inches", ["2", "6"], "18 3/4 (20 3/4) inches"),
        ("15.6 (19.2, 24.0)", ["6"], "24.0"),
        ("9 mm (US M/N-13), 3 (3, 4) in 5 (6) sts", ["4"], "9 mm (US M/N-13), 3 in 5 (6) sts"),
        ("– (3, 4)", ["2"], "–"),
    ],
)
def test_some_sizes_of_a_size_string(text: str, chosen: list[str], read: str) -> None:
    assert in_some(text, ["2", "4", "6"], chosen) == read


def test_names_that_hold_the_words_between_them() -> None:
    names = ["2", "4 and 5", "6, tall", "6"]
    assert named("2, 4 and 5 and 6, tall", names) == ("2", "4 and 5", "6, tall")
    assert named("7", names) is None


@pytest.mark.parametrize(
    ("old", "new", "quoted"),
    [
        ("Ch 2, 3 hdc, turn. [54 sts]", "Ch 2, 3 hdc, turn. [56 sts]", ("[54 sts]", "[56 sts]")),
        ("3 hdc, inc, 3 hdc, turn.", "3 hdc, inc, 4 hdc, turn.", ("inc, 3 hdc", "inc, 4 hdc")),
        ("A, [2 hdc, inc] 3 times, b.", "A, [2 hdc, inc] 4 times, b.",
         ("[2 hdc, inc] 3 times", "[2 hdc, inc] 4 times")),
        ("A, b.", "A, c, b.", ("A", "A, c")),
    ],
)  # fmt: skip
def test_what_is_quoted_of_a_line(old: str, new: str, quoted: tuple[str, str]) -> None:
    assert difference(old, new) == quoted


@pytest.mark.slow
def test_a_customer_reads_nothing_of_the_designers_in_errata(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(versions, "_pages", lambda *_: {})
    found = errata(tmp_path, THREE, THREE.replace("rows: 30}", "rows: 32}"))
    for form in ("text", "md", "html"):
        said = "".join(written([found], form, ""))
        assert "read" in said
        assert ".yaml" not in said
        assert "schematics" not in said
