"""Malformed specs and the exact sentences they get: `malformed_*.txt`, and what needs more than an edit."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from schematics.garment.constructions import CONSTRUCTIONS
from schematics.reading.design_file import read_design
from schematics.reading.problems import SpecError
from tests.reading.files import GOOD, HERE, edited, told, write

SIZES_LINE = GOOD.splitlines().index("sizes:") + 1


def cases() -> Iterator[object]:
    for table in sorted(HERE.glob("malformed_*.txt")):
        for block in table.read_text(encoding="utf-8").split("\n@ ")[1:]:
            name, *lines = block.rstrip("\n").split("\n")
            old, new, problems = ([line[2:] for line in lines if line[:1] == mark] for mark in "-+=")
            yield pytest.param("\n".join(old), "\n".join(new), problems, id=name)


@pytest.mark.slow
@pytest.mark.parametrize(("old", "new", "problems"), list(cases()))
def test_each_fault_gets_its_own_sentence(old: str, new: str, problems: list[str], tmp_path: Path) -> None:
    assert told(tmp_path, edited((old, new))) == problems


def test_all_problems_are_told_at_once_in_line_order(tmp_path: Path) -> None:
    path = write(
        tmp_path,
        edited(
            ("sizes:\n", "sizes:\n  T:\n    wearer: child/2\n"),
            ("arm_bands: rib", "arm_bands: lace"),
            ("unit: cm", "unit: yd"),
            ("date: 2026-09-14", "date: soon"),
            ("of: 4, plus: 2", "plus: 2, plus: 3"),
            ("height: 46 1/2 in", "height: 46 ells"),
            ("hem: 168", "hemm: 168.5"),
            ("neck: 48", "neck: 1"),
            ("hem: 180", "hem: '180'"),
        ),
    )
    with pytest.raises(SpecError) as error:
        read_design(path)
    assert str(error.value).replace(f"{path}:", "").splitlines() == [
        "3: date: expected a day of the calendar such as 2026-09-14, got 'soon'",
        "4: unit: expected cm or in, got 'yd'",
        "21: fabrics.cable.multiple: the key 'of' is missing: stitches in one repeat; or 'exactly' where "
        "nothing repeats",
        "21: fabrics.cable.multiple: the key 'plus' stands twice, first on line 21; keep one",
        "33: parts.arm_bands: there is no fabric 'lace'; expected one of 'body', 'cable' or 'rib'",
        "40: sizes.T: the key 'body' is missing: counts of the body, unless a grading: block says "
        "how each size should fit and its counts are to be found",
        "40: sizes.T: the key 'arms' is missing: where the arm bands are worked",
        "40: sizes.T: the key 'panel' is missing: stitches and rows of the centre panel",
        "40: sizes.T: the key 'neck_band' is missing: depth of the neck band in stitches",
        "40: sizes.T: the key 'arm_bands' is missing: depth of the arm bands in stitches",
        "44: sizes.\"4\".body: unknown key 'hemm'; did you mean 'hem'?",
        "54: sizes.\"6\".wearer.height: expected the unit cm, mm, m, in or ft, got 'ells' in '46 ells'",
        '56: sizes."6".body.neck: expected 2 or more, got 1',
        "57: sizes.\"6\".body.hem: expected a whole number, got '180'; write it without quotes",
    ]


def test_problems_know_their_parts(tmp_path: Path) -> None:
    path = write(tmp_path, edited(("hem: 180", "hem: 12,5")))
    with pytest.raises(SpecError) as error:
        read_design(path)
    (problem,) = error.value.entries
    assert (problem.file, problem.line, problem.path) == (str(path), 55, 'sizes."6".body.hem')
    assert problem.sentence == "expected a whole number, got '12,5'"


def test_an_unknown_construction_hides_nothing_but_its_own_counts(tmp_path: Path) -> None:
    known = " or ".join([", ".join(map(repr, list(CONSTRUCTIONS)[:-1])), repr(list(CONSTRUCTIONS)[-1])])
    one_of = "one of " if len(CONSTRUCTIONS) > 1 else ""
    text = edited(
        ("construction: flared", "construction: basket"),
        ("hem: 168", "hem: -1"),
        ("panel: {stitches: 14", "panel: {stitches: no"),
    )
    assert told(tmp_path, text) == [
        f"5: construction: there is no construction 'basket'; expected {one_of}{known.removeprefix(' or ')}",
        "44: sizes.\"4\".panel.stitches: expected a whole number, got 'no'",
    ]


def test_without_a_unit_bare_lengths_are_not_judged_but_others_are(tmp_path: Path) -> None:
    text = edited(("unit: cm", "unit: 1"), ("head_girth: 52.5", "head_girth: 525"), ("6 in", "600 in"))
    assert told(tmp_path, text) == [
        "4: unit: expected cm or in, got 1",
        "20: fabrics.cable.swatch.height: expected a length from 1 to 200 cm, got '600 in', that is 1524 cm",
    ]


def test_a_length_bare_in_inches_is_told_in_both_units(tmp_path: Path) -> None:
    text = edited(("unit: cm", "unit: in"), ("width: 20,", "width: 100,"))
    problem = "fabrics.body.swatch.width: expected a length from 1 to 200 cm, got 100 in, that is 254 cm"
    assert f"12: {problem}" in told(tmp_path, text)


@pytest.mark.parametrize(("first", "second"), [("s", "S"), ("Straße", "STRASSE"), ("\u00e9", "\u00c9")])
def test_two_sizes_that_would_share_a_folder(first: str, second: str, tmp_path: Path) -> None:
    problems = told(tmp_path, edited(("  4:", f"  {first}:"), ('"6":', f"{second}:")))
    assert [problem.rpartition(": ")[2] for problem in problems] == [
        f"a size's name becomes a folder's, and {first!r} gives the same one; rename one"
    ]
    assert problems[0].startswith("47: ")


def _with_sizes(count: int) -> str:
    head, first = GOOD.split("  4:\n")
    block = first.split('  "6":')[0]
    return head + "".join(f"  {number}:\n{block}" for number in range(count))


@pytest.mark.slow
def test_sixty_sizes_are_enough(tmp_path: Path) -> None:
    assert len(read_design(write(tmp_path, _with_sizes(60))).sizes) == 60
    line = SIZES_LINE + 60 * 7 + 1
    assert told(tmp_path, _with_sizes(63)) == [
        f'{line}: sizes."60": a design holds at most 60 sizes; delete this one and those after it'
    ]


@pytest.mark.parametrize(
    ("block", "problem"),
    [
        ("sizes: {}\n", "expected at least one entry, got an empty mapping"),
        ("sizes:\n", "expected a mapping of names to their blocks, got nothing"),
        ("sizes: [4, 6]\n", "expected a mapping of names to their blocks, got a list"),
    ],
)
def test_a_design_needs_sizes(block: str, problem: str, tmp_path: Path) -> None:
    text = GOOD[: GOOD.index("sizes:")] + block
    assert told(tmp_path, text) == [f"{SIZES_LINE}: sizes: {problem}"]


def test_no_fabric_is_one_problem_not_five(tmp_path: Path) -> None:
    start, end = GOOD.index("fabrics:"), GOOD.index("parts:")
    assert told(tmp_path, f"{GOOD[:start]}fabrics: {{}}\n{GOOD[end:]}") == [
        "9: fabrics: expected at least one entry, got an empty mapping"
    ]


def test_what_an_alias_repeats_is_told_once(tmp_path: Path) -> None:
    text = edited(
        ("body: {neck: 44, hem: 168, rows: 26}", "body: &b {neck: 44, hem: 168.5}"),
        (
            "    body:\n      neck: 48\n      hem: 180\n      rows: 28\n      increase_every: 2\n",
            "    body: *b\n",
        ),
    )
    assert told(tmp_path, text) == [
        "42: sizes.\"4\".body: the key 'rows' is missing: rows from neck to hem",
        '42: sizes."4".body.hem: expected a whole number, got 168.5',
    ]


def test_a_merge_key_is_told_without_the_keys_it_would_have_brought(tmp_path: Path) -> None:
    text = edited(("fabrics:\n", "fabrics:\n  <<: {lace: 1}\n"), ("neck_band: rib", "neck_band: lace"))
    (problem,) = told(tmp_path, text)
    assert problem.startswith("10: fabrics: merge keys (<<) are not understood")


@pytest.mark.slow
def test_a_thousand_problems_are_not_all_told(tmp_path: Path) -> None:
    path = write(tmp_path, edited(("parts:\n", "parts:\n" + "".join(f"  part{n}: x\n" for n in range(1000)))))
    with pytest.raises(SpecError) as error:
        read_design(path)
    assert len(error.value.entries) == 1000
    lines = str(error.value).splitlines()
    assert len(lines) == 51
    first = error.value.entries[50].line
    assert lines[-1] == f"{path}:{first}: 950 more problems from here on; mend those above first"


def test_a_design_has_few_fabrics(tmp_path: Path) -> None:
    fabric = GOOD[GOOD.index("    stitch:") : GOOD.index("  cable:")]
    text = edited(
        (
            "  body:\n    stitch:",
            "".join(f"  more {n}:\n{fabric}" for n in range(18)) + "  body:\n    stitch:",
        )
    )
    assert told(tmp_path, text) == ["9: fabrics: expected at most 20 entries, got a mapping"]


def test_a_name_typed_in_two_ways_is_one(tmp_path: Path) -> None:
    text = edited(
        ("  rib:\n", '  "re\u0301b":\n'),
        ("neck_band: rib", "neck_band: r\u00e9b"),
        ("arm_bands: rib", "arm_bands: re\u0301b"),
    )
    assert read_design(write(tmp_path, text)).parts.neck_band.name == "r\u00e9b"


def test_two_sizes_that_only_look_alike_are_one(tmp_path: Path) -> None:
    problems = told(tmp_path, edited(("  4:", "  \u00e9:"), ('"6":', "e\u0301:")))
    assert problems == ["47: sizes: the key 'é' stands twice, first on line 40; keep one"]


def test_the_name_of_a_file_is_told_safely(tmp_path: Path) -> None:
    folder = tmp_path / "a\n\x1b[2J\u202eb"
    folder.mkdir()
    path = write(folder, edited(("title: Harbour poncho", "title: 1")))
    with pytest.raises(SpecError) as error:
        read_design(path)
    assert str(error.value) == (
        rf"{tmp_path}/a\n\x1b[2J\u202eb/lake.yaml:2: title: expected text, got 1; put it in quotes"
    )
