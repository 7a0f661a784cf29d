"""No maker is told codes of findings, in any form but the JSON; Markdown and page say what the text says."""

from __future__ import annotations

from pathlib import Path

import pytest

from schematics.checks import EXPLAINED
from tests.fitting.children import SPECS
from tests.program import call

TIDEPOOL = SPECS / "tidepool.yaml"
TIGHT = ("--age", "6", "--head-girth", "55")
GROUP = "name,age,head\nA,2,54\nB,9,53\nC,,55\n"


@pytest.mark.slow
@pytest.mark.parametrize("form", ["text", "csv"])
def test_fit_names_what_it_checks_in_words(form: str, tmp_path: Path) -> None:
    path = tmp_path / "class.csv"
    path.write_text(GROUP, encoding="utf-8")
    own = call("fit", TIDEPOOL, *TIGHT, "--sizes", "2,6", "--format", form).stdout
    group = call("fit", TIDEPOOL, "--group", path, "--sizes", "2,6", "--format", form).stdout
    for told in (own, group):
        assert "shoulders over neck" in " ".join(told.split())
        assert [code for code in EXPLAINED if code in told] == []


@pytest.mark.slow
def test_progress_and_rescue_name_what_they_check_in_words() -> None:
    for arguments in (
        ("progress", TIDEPOOL, "--size", "4", "--rows", "12", "--measured", "80", "17"),
        ("rescue", TIDEPOOL, "--size", "4", "--measured", "body hem edge 120", *TIGHT),
    ):
        told = call(*arguments).stdout
        assert "neck" in told
        assert [code for code in EXPLAINED if code in told] == []


@pytest.mark.slow
def test_makers_are_told_nothing_of_how_a_spec_was_made() -> None:
    """Kelp's counts are found, its sizes are rows of charts: neither is a maker's business."""
    for arguments in (
        ("fit", SPECS / "kelp.yaml", "--age", "6", "--sizes", "6"),
        ("rescue", SPECS / "kelp.yaml", "--size", "6", "--measured", "body hem edge 70 in"),
    ):
        result = call(*arguments)
        assert result.stderr == ""
        assert "chart row" not in " ".join(result.stdout.split())


@pytest.mark.slow
def test_what_to_shorten_is_told_in_counts_that_are_worked() -> None:
    told = " ".join(call("yarn", TIDEPOOL, "--have", "600 g", "--sizes", "6").stdout.split())
    assert "fewer body rows (" in told
    assert [words for words in ("increase until", "arms from", "severity") if words in told] == []
