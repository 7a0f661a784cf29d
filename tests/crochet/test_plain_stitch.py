"""Which names of stitch patterns are one stitch throughout."""

from __future__ import annotations

import pytest

from schematics.crochet.plain_stitch import plain_stitch


@pytest.mark.parametrize(
    ("pattern", "text"),
    [
        ("half double crochet", "hdc"),
        ("Single  Crochet", "sc"),
        ("hdc", "hdc"),
        ("extended double crochet", "edc"),
        ("single crochet in the back loop", "sc blo"),
        ("single crochet worked through the front loops only", "sc flo"),
        ("half double crochet, in the third loop", "hdc in 3rd loop"),
        ("sl st blo", "sl st blo"),
    ],
)
def test_one_stitch(pattern: str, text: str) -> None:
    found = plain_stitch(pattern)
    assert found
    assert found.text == text


@pytest.mark.parametrize(
    "pattern",
    ["raised ripple stitch", "spike stitch", "crossed trebles", "chain", "cables on single crochet",
     "slip stitch in the back loop, with raised strands", "front post double crochet",
     "popcorn of 5 double crochet"],
)  # fmt: skip
def test_more_than_one_stitch(pattern: str) -> None:
    assert plain_stitch(pattern) is None
