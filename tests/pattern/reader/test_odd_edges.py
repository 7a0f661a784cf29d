"""An edge with an odd number of stitches: that size is refused in one sentence, the others are worked."""

from __future__ import annotations

from pathlib import Path

import pytest
import yaml

from schematics.crochet.terms import Terms
from tests.examples import seeds
from tests.pattern.designs import design_of
from tests.pattern.reader.complaint import CannotWorkError
from tests.pattern.reader.expected import faults
from tests.pattern.reader.maker import make
from tests.pattern.reader.patterns import markdown_of, workable_spec
from tests.pattern.written.lake import THREE
from tests.specs_for_tests import read

NECK = (
    "Size 6 years: this band cannot be worked yet. Its edge has 77 sts and the ribbing takes two of them at "
    "a time: [to be corrected: 76 or 78 edge sts]"
)
"""65 sts of the body and 12 of the panel."""


@pytest.mark.slow
def test_the_sentence_and_the_other_sizes(tmp_path: Path) -> None:
    text = THREE.replace("neck: 64", "neck: 65").replace("stitches: 24}", "stitches: 23}")
    written, sizes = markdown_of(read(tmp_path, text), Terms.US), yaml.safe_load(text)["sizes"]
    assert written.count(NECK) == 1
    assert "- Neck band, size 6 years: 76 or 78 edge sts" in written
    assert "- Arm bands, size 8: 22 or 24 edge sts" in written
    assert faults(make(written, "4"), sizes["4"]) == []
    with pytest.raises(CannotWorkError) as neck:
        make(written, "6 years")
    assert str(neck.value) == f"Neck band: {NECK}"
    with pytest.raises(CannotWorkError, match=r"Arm bands: Size 8: .* Its edge has 23 sts"):
        make(written, "8")


def test_no_row_is_told_where_no_size_can_be_worked(tmp_path: Path) -> None:
    text = THREE
    for neck in (60, 64, 68):
        text = text.replace(f"neck: {neck},", f"neck: {neck + 1},")
    written = markdown_of(read(tmp_path, text), Terms.US)
    band = written.partition("## Neck band")[2].partition("## Arm bands")[0]
    assert band.count("this band cannot be worked yet") == 3
    assert "**" not in band


@pytest.mark.slow
@pytest.mark.parametrize("number", seeds(range(20), step=15))
def test_one_odd_neck_in_random_designs(number: int) -> None:
    """Of flared bodies and of mitred ones with an even number of lines; row ends of folded bodies are picked
    up so that the sum is even, and an odd number of lines asks for an even neck.
    """
    spec = workable_spec(number)
    name = list(spec["sizes"])[number % len(spec["sizes"])]
    body = spec["sizes"][name]["body"]
    if "width" in body or body.get("lines", 0) % 2:
        return
    body["neck"] += 1
    if "hem" in body:
        body["hem"] += 1
    written = markdown_of(design_of(spec, number), Terms.US)
    for size, counts in spec["sizes"].items():
        if size == name:
            with pytest.raises(CannotWorkError, match=f"^Neck band: Size {size}: this band cannot be worked"):
                make(written, size)
        else:
            assert faults(make(written, size), counts) == []
