"""Sections of the figures against what a spec's own numbers make them, worked out by hand."""

from __future__ import annotations

from pathlib import Path

from schematics.checks.evaluation import evaluate
from schematics.document.writers import file_content
from schematics.pattern import figures
from tests.analysis.test_yarn_needed import WEIGHED
from tests.pattern.reading import Page, read_page
from tests.specs_for_tests import SPEC, read


def page_of(tmp_path: Path, text: str) -> Page:
    design = read(tmp_path, text)
    return read_page(file_content(figures(design, evaluate(design)), "md").decode())


def test_whom_a_size_is_for(tmp_path: Path) -> None:
    """53 cm are 20.87 in and 118 cm are 46.46 in, to the quarter 20 3/4 and 46 1/2."""
    own = SPEC.replace("wearer: child/4", "wearer: {head_girth: 53, height: 118}")
    page = page_of(tmp_path, own[: own.index('  "6 years":')])
    told = {row["body measurement"]: (row["cm"], row["inches"]) for row in page.table("Sizes", "To fit")}
    assert told == {"head girth": ("53", "20 3/4"), "height": ("118", "46 1/2")}
    assert page.sentences["Sizes"] == [
        "Body measurements, not those of the poncho: size 4, own measurements.",
    ]


def test_where_body_measurements_are_borrowed_it_is_said(tmp_path: Path) -> None:
    """The trade's chart knows no height, and its heads are not used: both are from tables by age.

    The median head at six years is 53.2 cm for boys and 52.2 cm for girls (UK 1990 reference), together
    52.7 cm; the chest of the trade's child size 6 is 25 in, 63.5 cm (Craft Yarn Council).
    """
    page = page_of(tmp_path, SPEC)
    assert page.size_strings("Sizes", "To fit", "head girth", "cm")[1] == "52.5"
    assert page.size_strings("Sizes", "To fit", "chest girth", "cm")[1] == "63.5"
    assert page.size_strings("Sizes", "To fit", "chest girth", "inches")[1] == "25"
    (_, borrowed) = page.sentences["Sizes"]
    assert borrowed == (
        "From tables by age or estimated, not from the size's own row: head girth and height."
    )


def test_stitches_picked_up_by_hand(tmp_path: Path) -> None:
    """Square stitches, so one to each row end: 40 along an arm opening, 14 along each side of the neck."""
    page = page_of(tmp_path, WEIGHED)
    told = {
        caption: [(row["row ends"], row["stitches"], row["schedule"]) for row in rows]
        for caption, rows in page.tables["Ribbing"].items()
        if caption.startswith("Picked up")
    }
    assert told == {
        "Picked up along each arm opening": [
            ("40", "40", "40 edge stitches to 40 body rows: one to one"),
        ],
        "Picked up along each side of the neck hole": [
            ("14", "14", "14 edge stitches to 14 body rows: one to one"),
        ],
    }


def test_an_odd_stitch_is_picked_up_on_one_side(tmp_path: Path) -> None:
    """An even ring of 60 + 19 + an odd number: nearest to 28, upwards, is 29, that is 15 and 14.

    The 7th of 14 row ends is reached by 15 x 7 / 14 = 7.5 stitches, rounded up 8, the 6th by 6.4, 6.
    """
    page = page_of(tmp_path, WEIGHED.replace("panel: {stitches: 20", "panel: {stitches: 19"))
    right = page.table("Ribbing", "Picked up along right side of the neck hole")
    left = page.table("Ribbing", "Picked up along left side of the neck hole")
    assert [(row["stitches"], row["schedule"]) for row in (*right, *left)] == [
        ("15", "15 edge stitches to 14 body rows: 13 take 1 and 1 takes 2, in turn 1 × 6, 2, 1 × 7"),
        ("14", "14 edge stitches to 14 body rows: one to one"),
    ]


def test_the_centre_back_stitch(tmp_path: Path) -> None:
    """The middle one of 61 is the 31st; of 60, the second of the two in the middle is the 31st as well."""
    for neck, panel in ((60, 12), (61, 13)):
        text = SPEC.replace("neck: 60,", f"neck: {neck},").replace(
            "stitches: 12, rows: 30", f"stitches: {panel}, rows: 30"
        )
        page = page_of(tmp_path, text)
        told = page.size_strings(
            "Ribbing", "Neck band and arm bands", "neck band: stitch to join yarn in", "stitches or rows"
        )
        assert told[0] == "31"


def test_what_was_not_weighed_has_no_line_of_dashes(tmp_path: Path) -> None:
    page = page_of(tmp_path, SPEC)
    assert list(page.tables["Yarn"]) == ["In all"]
    assert [row["yarn"] for row in page.table("Yarn", "In all")] == ["joins and tails"]
