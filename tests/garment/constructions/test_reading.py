"""What a spec may say of mitred and folded bodies, and the sentence for everything it may not."""

from __future__ import annotations

from pathlib import Path

import pytest

from schematics.design.design import Size
from schematics.garment.constructions.folded.folded_counts import FoldedArms, FoldedBody
from schematics.garment.constructions.mitred.mitred_counts import MitredBody
from schematics.reading.design_file import read_design
from schematics.reading.problems import SpecError
from tests.specs_for_tests import SPEC

HEAD, _ = SPEC.split("sizes:\n")
MITRED = "{neck: 42, lines: 4, increase_rows: 10, rows: 21}"
FOLDED = (
    "{width: 60, front_rows: 30, back_rows: 32, neck: 20, neck_front_rows: 6, neck_back_rows: 2, slot: 12}"
)
BODY_LINE = HEAD.count("\n") + 4
HEM_ARMS, OPENINGS = "{from_front: 20, stitches: 12}", "{rows: 12}"


def spec(word: str, body: str, arms: str) -> str:
    """A spec of one size; its body stands on `BODY_LINE` and its arms on the next."""
    return f"""{HEAD.replace("construction: flared", f"construction: {word}")}sizes:
  "4":
    wearer: child/4
    body: {body}
    arms: {arms}
    panel: {{stitches: 12, rows: 24}}
    neck_band: {{stitches: 6}}
    arm_bands: {{stitches: 8}}
"""


def size(folder: Path, text: str) -> Size:
    path = folder / "lake.yaml"
    path.write_text(text, encoding="utf-8")
    return read_design(path).sizes[0]


def told(folder: Path, text: str) -> list[str]:
    """The problems of the spec without the file's name."""
    with pytest.raises(SpecError) as error:
        size(folder, text)
    return [line.removeprefix(f"{folder / 'lake.yaml'}:") for line in str(error.value).splitlines()]


def test_mitred_counts(tmp_path: Path) -> None:
    body = size(tmp_path, spec("mitred", MITRED, HEM_ARMS)).body
    assert body == MitredBody(neck=42, lines=4, increase_rows=10, rows=21)
    assert (body.increase_every, body.sections, body.hem) == (1, None, 42 + 2 * 4 * 10)
    assert body.neck_sections == (5, 11, 10, 11, 5)


def test_increases_that_end_above_the_hem(tmp_path: Path) -> None:
    text = MITRED.replace("rows: 21", "rows: 21, increase_every: 1, increase_until: 11")
    assert size(tmp_path, spec("mitred", text, HEM_ARMS)).body.increase_until == 11
    flared = "{neck: 60, hem: 176, rows: 30, increase_every: 2, increase_until: 24}"
    assert size(tmp_path, spec("flared", flared, HEM_ARMS)).body.increase_until == 24
    assert size(tmp_path, SPEC).body.increase_until is None


@pytest.mark.parametrize(
    ("rows", "problem"),
    [
        (
            "rows: 20, increase_until: 24",
            "the last row with increases, 24, would be below the hem: the body has 20 rows",
        ),
        (
            "rows: 1, increase_until: 2",
            "the last row with increases, 2, would be below the hem: the body has 1 row",
        ),
        (
            "rows: 30, increase_every: 3, increase_until: 24",
            "row 24 is no increase row: increases are on row 2 and every 3 rows after it, so make it 23 or "
            "26",
        ),
    ],
)
def test_flared_problems(tmp_path: Path, rows: str, problem: str) -> None:
    body = f"{{neck: 60, hem: 176, {rows}}}"
    assert told(tmp_path, spec("flared", body, HEM_ARMS)) == [
        f'{BODY_LINE}: sizes."4".body.increase_until: {problem}'
    ]


def test_mitred_sections_of_ones_own(tmp_path: Path) -> None:
    text = MITRED.replace("rows: 21", "rows: 21, increase_every: 2, sections: [4, 12, 10, 12, 4]")
    body = size(tmp_path, spec("mitred", text, HEM_ARMS)).body
    assert body.neck_sections == (4, 12, 10, 12, 4)
    assert MitredBody.model_validate(body.model_dump()) == body
    assert hash(body) == hash(body.model_copy())


def test_folded_counts(tmp_path: Path) -> None:
    read = size(tmp_path, spec("folded", FOLDED, OPENINGS))
    assert read.body == FoldedBody(
        width=60, front_rows=30, back_rows=32, neck=20, neck_front_rows=6, neck_back_rows=2, slot=12
    )
    assert read.body.side_seam is True
    assert read.arms == FoldedArms(rows=12)
    open_sides = FOLDED.replace("slot: 12", "slot: 12, side_seam: false")
    assert size(tmp_path, spec("folded", open_sides, OPENINGS)).body.side_seam is False


@pytest.mark.parametrize(
    ("old", "new", "problem"),
    [
        (
            "increase_rows: 10",
            "increase_rows: 21",
            "increase_rows: 21 increase rows do not fit into 21 rows: there are 20 to increase on, row 2 and "
            "every row after it",
        ),
        (
            "rows: 21}",
            "rows: 18, increase_every: 2}",
            "increase_rows: 10 increase rows do not fit into 18 rows: there are 9 to increase on, row 2 and "
            "every 2 rows after it",
        ),
        (
            "rows: 21}",
            "rows: 2}",
            "increase_rows: 10 increase rows do not fit into 2 rows: there is 1 to increase on, row 2 and "
            "every row after it",
        ),
        (
            "rows: 21}",
            "rows: 21, increase_every: 2, increase_until: 22}",
            "increase_until: the last row with increases, 22, would be below the hem: the body has 21 rows",
        ),
        (
            "rows: 21}",
            "rows: 21, increase_every: 2, increase_until: 19}",
            "increase_until: row 19 is no increase row: increases are on row 2 and every 2 rows after it, so "
            "make it 18 or 20",
        ),
        (
            "increase_rows: 10, rows: 21}",
            "increase_rows: 5, rows: 21, increase_every: 4, increase_until: 20}",
            "increase_until: row 20 is no increase row: increases are on row 2 and every 4 rows after it, so "
            "make it 18",
        ),
        (
            "rows: 21}",
            "rows: 21, increase_every: 2, increase_until: 18}",
            "increase_rows: row 2 and every 2 rows after it, row 18 the last of them, make 9 increase rows, "
            "not 10",
        ),
        ("rows: 21}", "rows: 21, increase_until: 1}", "increase_until: expected 2 or more, got 1"),
        (
            "neck: 42, lines: 4",
            "neck: 4, lines: 4",
            "lines: 4 lines make 5 sections of at least one stitch, more than the neck (4) has",
        ),
        (
            "neck: 42, lines: 4",
            "neck: 41, lines: 3",
            "lines: an odd number of lines (3) puts one at centre back, where it halves the neck, which "
            "needs an even number of stitches (40 or 42), got 41",
        ),
        ("lines: 4", "lines: 0", "lines: expected 1 or more, got 0"),
        (
            "rows: 21}",
            "rows: 21, sections: [21, 21]}",
            "sections: expected 5 sections, one more than there are lines (4), got 2",
        ),
        (
            "rows: 21}",
            "rows: 21, sections: [5, 11, 11, 11, 5]}",
            "sections: the sections add up to 43 stitches, the neck has 42",
        ),
        (
            "rows: 21}",
            "rows: 21, sections: [5, 11, 10, 10, 6]}",
            "sections: the sections (5, 11, 10, 10, 6) are not the same from either front edge",
        ),
        ("rows: 21}", "rows: 21, sections: 42}", "sections: expected a list, got 42"),
        (
            "rows: 21}",
            "rows: 21, sections: [5, 11.5, 10, 11, 5]}",
            "sections[1]: expected a whole number, got 11.5",
        ),
        (
            "rows: 21}",
            "rows: 21, sections: [0, 16, 10, 11, 5]}",
            "sections[0]: expected 1 or more, got 0",
        ),
    ],
)
def test_mitred_problems(tmp_path: Path, old: str, new: str, problem: str) -> None:
    assert old in MITRED
    assert told(tmp_path, spec("mitred", MITRED.replace(old, new), HEM_ARMS)) == [
        f'{BODY_LINE}: sizes."4".body.{problem}'
    ]


@pytest.mark.parametrize(
    ("old", "new", "problem"),
    [
        (
            "slot: 12",
            "slot: 22",
            "slot: a slot of 22 stitches is wider than the neck hole (20) it starts from",
        ),
        (
            "slot: 12",
            "slot: 13",
            "slot: a slot of 13 stitches is not in the middle of the neck (20): make both even or both odd",
        ),
        ("neck: 20", "neck: 60", "neck: a neck of 60 stitches leaves no shoulders in a width of 60"),
        (
            "width: 60",
            "width: 59",
            "neck: a neck of 20 stitches leaves 39 of 59, which make no two equal shoulders: make it 19 or "
            "21",
        ),
        (
            "neck_front_rows: 6",
            "neck_front_rows: 30",
            "neck_front_rows: the neck hole reaches 30 rows down the front, which has only 30: nothing is "
            "left below it",
        ),
        (
            "neck_back_rows: 2",
            "neck_back_rows: 40",
            "neck_back_rows: the neck hole reaches 40 rows down the back, which has only 32: nothing is left "
            "below it",
        ),
        (
            "slot: 12",
            "slot: 12, side_seam: maybe",
            "side_seam: expected true or false, got 'maybe'",
        ),
        ("slot: 12", "slot: 12.5", "slot: expected a whole number, got 12.5"),
    ],
)
def test_folded_problems(tmp_path: Path, old: str, new: str, problem: str) -> None:
    assert old in FOLDED
    assert told(tmp_path, spec("folded", FOLDED.replace(old, new), OPENINGS)) == [
        f'{BODY_LINE}: sizes."4".body.{problem}'
    ]


def test_every_problem_of_a_folded_body_is_told_at_once(tmp_path: Path) -> None:
    text = FOLDED.replace("neck_front_rows: 6", "neck_front_rows: 31").replace("slot: 12", "slot: 21")
    assert len(told(tmp_path, spec("folded", text, "{rows: 13}"))) == 3


@pytest.mark.parametrize(
    ("arms", "problem"),
    [
        (
            "{rows: 13}",
            ".rows: an opening of 13 rows cannot have its middle on the shoulder fold: make it 12 or 14",
        ),
        ("{rows: 0}", ".rows: expected 2 or more, got 0"),
        ("{}", ": the key 'rows' is missing: row ends in one arm opening, half of them on the front"),
    ],
)
def test_folded_arm_problems(tmp_path: Path, arms: str, problem: str) -> None:
    assert told(tmp_path, spec("folded", FOLDED, arms)) == [f'{BODY_LINE + 1}: sizes."4".arms{problem}']


@pytest.mark.slow
def test_a_body_of_another_construction_is_told_its_keys(tmp_path: Path) -> None:
    problems = told(tmp_path, spec("folded", "{neck: 60, hem: 176, rows: 30}", OPENINGS))
    assert any("unknown key 'hem'" in each for each in problems)
    assert any("the key 'width' is missing: stitches across, from side to side" in each for each in problems)
