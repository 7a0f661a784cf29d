"""Two versions of a design: the corrections listed are those made, no more and no fewer."""

from __future__ import annotations

from pathlib import Path

import pytest

from schematics.checks.evaluation import evaluate
from schematics.design.design import Design
from schematics.pattern.corrections import Comparison, Correction, compare, correction_lines
from tests.specs_for_tests import SPEC, read


def compared(tmp_path: Path, old: str, new: str) -> Comparison:
    before, after = read(tmp_path, old), read(tmp_path, new)
    return compare(before, evaluate(before), after, evaluate(after))


def by_key(found: tuple[Correction, ...]) -> dict[str, tuple[str, str]]:
    """Old and new by key; tables that are only pointed to are left out."""
    return {each.key: (each.old, each.new) for each in found if each.key != "increases.row"}


def edited(*changes: tuple[str, str]) -> str:
    text = SPEC
    for old, new in changes:
        assert old in text
        text = text.replace(old, new, 1)
    return text


def test_nothing_changed(tmp_path: Path) -> None:
    assert compared(tmp_path, SPEC, SPEC).same


@pytest.mark.parametrize("change", [("# ", ""), ("date: 2024-03-01", "date: 2024-03-02")])
def test_what_prints_alike_is_no_correction(tmp_path: Path, change: tuple[str, str]) -> None:
    assert compared(tmp_path, f"# a note\n{SPEC}", edited(change) if change[0] in SPEC else SPEC).same


def test_a_panel_two_rows_longer(tmp_path: Path) -> None:
    """Size 4 only: 32 panel rows are 32 cm (12 1/2 in); to 30 body rows that is 10 to 9 within 5 %."""
    comparison = compared(tmp_path, SPEC, edited(("stitches: 12, rows: 30", "stitches: 12, rows: 32")))
    assert comparison.everywhere == ()
    assert list(comparison.by_size) == ["4"]
    found = by_key(comparison.by_size["4"])
    assert found.pop("panel.length.cm") == ("30", "32")
    assert found.pop("panel.length.in") == ("11 3/4", "12 1/2")
    assert found.pop("panel.length.count") == ("30", "32")
    assert found.pop("centre_panel.rows") == ("30", "32")
    for seam in "AB":
        assert found.pop(f"join.{seam}.second") == ("30", "32")
        assert found.pop(f"join.{seam}.ratio") == (
            "1 panel row to 1 body row",
            "10 panel rows to 9 body rows",
        )
        old, new = found.pop(f"join.{seam}.schedule")
        assert old == "30 panel rows to 30 body rows: one to one"
        assert new.startswith("32 panel rows to 30 body rows: 28 take 1 and 2 take 2")
    assert set(found) == {"yarn.all.joins_and_tails"}


def test_the_words_of_a_correction(tmp_path: Path) -> None:
    comparison = compared(tmp_path, SPEC, edited(("{neck: 60,", "{neck: 62,")))
    words = list(correction_lines(comparison.by_size["4"]))
    assert "body neck edge: read 44.5 cm, 17 1/2 in, 62 sts, not 43 cm, 16 3/4 in, 60 sts" in words
    assert "body: foundation chain: read 64 ch, not 62 ch" in words
    assert "stitches before the first increase: read 62 sts, not 60 sts" in words
    assert len(words) == len(set(words))


def test_a_new_gauge_is_told_once_for_all_sizes(tmp_path: Path) -> None:
    change = ("swatch: {stitches: 14, rows: 10, width: 10", "swatch: {stitches: 15, rows: 10, width: 10")
    comparison = compared(tmp_path, SPEC, edited(change))
    everywhere = by_key(comparison.everywhere)
    assert everywhere["gauge.half double.stitches"] == ("14", "15")
    for found in comparison.by_size.values():
        assert not everywhere.keys() & by_key(found).keys()
        assert "body.hem.cm" in by_key(found)
        assert "body.hem.count" not in by_key(found)


def test_sizes_added_left_out_and_the_other_way_round(tmp_path: Path) -> None:
    fewer = SPEC[: SPEC.index('  "6 years":')]
    forth, back = compared(tmp_path, fewer, SPEC), compared(tmp_path, SPEC, fewer)
    assert (forth.added, forth.removed, forth.by_size) == (("6 years",), (), {})
    assert (back.added, back.removed) == ((), ("6 years",))


def test_swapping_the_versions_turns_every_correction_over(tmp_path: Path) -> None:
    new = edited(("hem: 176, rows: 30", "hem: 180, rows: 31"), ("hook: 6", "hook: 7"))
    forth, back = compared(tmp_path, SPEC, new), compared(tmp_path, new, SPEC)
    assert by_key(forth.everywhere) == {key: each[::-1] for key, each in by_key(back.everywhere).items()}
    for size, found in forth.by_size.items():
        assert by_key(found) == {key: each[::-1] for key, each in by_key(back.by_size[size]).items()}


@pytest.mark.slow
def test_what_one_version_does_not_have(tmp_path: Path) -> None:
    comparison = compared(tmp_path, edited(("hook: 6\n", "")), SPEC)
    assert list(correction_lines(comparison.everywhere)) == ["Hook: add 6 mm (US J-10)"]
    comparison = compared(tmp_path, SPEC, edited(("hook: 6\n", "")))
    assert list(correction_lines(comparison.everywhere)) == ["Hook: delete 6 mm (US J-10)"]


def test_a_size_called_all_sizes_is_a_size(tmp_path: Path) -> None:
    old = edited(('"4":', '"all sizes":'))
    comparison = compared(tmp_path, old, old.replace("neck: 60", "neck: 62"))
    assert comparison.everywhere == ()
    assert list(comparison.by_size) == ["all sizes"]


def test_both_versions_are_told_in_the_new_ones_terms(tmp_path: Path) -> None:
    """No stitch is another one because it is called otherwise; that it is called so is told once."""
    comparison = compared(tmp_path, SPEC, SPEC + "terms: UK\n")
    assert comparison.by_size == {}
    assert list(correction_lines(comparison.everywhere)) == ["stitch names: read UK terms, not US terms"]


def test_seams_that_read_alike_are_told_together(tmp_path: Path) -> None:
    comparison = compared(tmp_path, SPEC, edited(("stitches: 12, rows: 30", "stitches: 12, rows: 32")))
    lines = list(correction_lines(comparison.by_size["4"]))
    assert "seams A and B: panel rows: read 32 rows, not 30 rows" in lines
    assert not any(line.startswith("seam A:") for line in lines)


def test_words_with_commas_stand_in_quotation_marks(tmp_path: Path) -> None:
    comparison = compared(tmp_path, SPEC, edited(("title: Lake poncho", "title: Lake, poncho")))
    assert list(correction_lines(comparison.everywhere)) == ["title: read “Lake, poncho”, not Lake poncho"]


@pytest.mark.slow
def test_a_row_of_the_chart(tmp_path: Path) -> None:
    demo = (Path(__file__).parents[2] / "specs" / "tidepool.yaml").read_text(encoding="utf-8")
    old, new = "hdc, (hdc, 2 BPdc, hdc) across, hdc", "hdc, (2 BPdc, 2 hdc) across, hdc"
    comparison = compared(tmp_path, demo, demo.replace(old, new, 1))
    assert comparison.by_size == {}
    assert list(correction_lines(comparison.everywhere)) == [
        "centre panel, Row 4 (WS): read “hdc, [2 BPdc, 2 hdc] to last st, hdc; turn”, "
        "not “hdc, [hdc, 2 BPdc, hdc] to last st, hdc; turn”"
    ]


@pytest.mark.parametrize(
    ("change", "told"),
    [
        (("stitch: cables", "multiple: {of: 3}\n    stitch: cables"),
         "centre panel, across, it takes: add a multiple of 3 sts"),
        (("centre_panel: cable", "centre_panel: ribbing"), "ribbing: used for: read"),
        (("swatch: {stitches: 14, rows: 10, width: 10, height: 10",
          "swatch: {stitches: 28, rows: 20, width: 20, height: 20"), "half double: measured over: read"),
    ],
)  # fmt: skip
def test_what_all_sizes_share(tmp_path: Path, change: tuple[str, str], told: str) -> None:
    lines = list(correction_lines(compared(tmp_path, SPEC, edited(change)).everywhere))
    assert any(line.startswith(told) for line in lines), lines


def test_rows_told_stitch_by_stitch_are_corrected_by_their_table(tmp_path: Path) -> None:
    """A neck two stitches wider moves increases of size 4; the other size has them where they were."""
    comparison = compared(tmp_path, SPEC, edited(("{neck: 60,", "{neck: 62,")))
    lines = list(correction_lines(comparison.by_size["4"]))
    words = "increase rows, stitch by stitch: read the table of the new version, not that of the old version"
    assert lines.count(words) == 1
    assert list(comparison.by_size) == ["4"]


def test_every_correction_says_under_which_heading(tmp_path: Path) -> None:
    comparison = compared(tmp_path, SPEC, edited(("{neck: 60,", "{neck: 62,")))
    headings = {each.key: each.section for each in comparison.by_size["4"]}
    assert headings["body.neck.cm"] == "Finished measurements"
    assert headings["body.chain"] == "Foundation chains and rows"


def test_a_design_of_another_construction(tmp_path: Path, folded_spec: Design) -> None:
    old = read(tmp_path)
    comparison = compare(old, evaluate(old), folded_spec, evaluate(folded_spec))
    assert ("construction", "flared", "folded") in {
        (each.key, each.old, each.new) for each in comparison.everywhere
    }


@pytest.fixture
def folded_spec() -> Design:
    from schematics.reading.design_file import read_design

    return read_design(Path(__file__).parents[2] / "specs" / "driftwood.yaml")
