"""A row of instructions in every form: its label stands out, its count is in brackets, no sign is markup."""

from __future__ import annotations

import json

import pytest

from schematics.document.document import Document, Row, Section
from schematics.document.writers import written

LINE = Row("Row 5 (RS)", "Ch 2, *2 hdc; rep from * to last 2 sts, turn.", "54 (58) sts")
DOCUMENT = Document(title="Lake", sections=(Section("Body", (LINE, Row("End", "Fasten off."))),))


@pytest.mark.parametrize(
    ("form", "line"),
    [
        ("text", "  Row 5 (RS): Ch 2, *2 hdc; rep from * to last 2 sts, turn. [54 (58) sts]\n"),
        ("md", "\n**Row 5 (RS):** Ch 2, \\*2 hdc; rep from \\* to last 2 sts, turn. [54 (58) sts]\n"),
        (
            "html",
            '<p class="row"><strong>Row 5 (RS):</strong> Ch 2, *2\N{NO-BREAK SPACE}hdc; rep from * to last '
            "2\N{NO-BREAK SPACE}sts, turn. [54\N{NO-BREAK SPACE}(58) sts]</p>",
        ),
        ("csv", '"Body","Row 5 (RS): Ch 2, *2 hdc; rep from * to last 2 sts, turn. [54 (58) sts]"'),
    ],
)
def test_a_row(form: str, line: str) -> None:
    text = "".join(written([DOCUMENT], form))
    assert line.replace("2\N{NO-BREAK SPACE}hdc", "2 hdc") in text


def test_a_row_as_json_is_a_sentence_and_one_without_a_count_has_no_brackets() -> None:
    (section,) = json.loads("".join(written([DOCUMENT], "json")))["sections"]
    assert section["sentences"] == [
        "Row 5 (RS): Ch 2, *2 hdc; rep from * to last 2 sts, turn. [54 (58) sts]",
        "End: Fasten off.",
    ]
