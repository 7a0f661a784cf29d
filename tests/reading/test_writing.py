"""Counts go into a spec's text: in the right place whatever the layout, and nothing else changes."""

from __future__ import annotations

import difflib
from itertools import product
from pathlib import Path
from typing import Any
from unicodedata import normalize

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from schematics.errors import UsageError
from schematics.grading.draft import Draft
from schematics.reading.design_file import parse_draft
from schematics.reading.problems import SpecError
from schematics.reading.writing import with_counts
from tests.examples import covering, examples
from tests.specs_for_tests import SPEC

PATH = Path("lake.yaml")
HEAD = SPEC[: SPEC.index("sizes:")]
WISHES = """\
grading:
  increases: exact
  intent:
    neck.edge: 42 cm
    body.hem: 125 cm
    body.depth: 30 cm
    arm.from_front: 30 cm
    arm.run: 15 cm
    panel.width: 8 cm
    panel.length: 30 cm
    neck_band.depth: 4 cm
    arm_band.depth: 6 cm
"""
BLOCK = """\
  "4":
    wearer: child/4   # the chart's
    body:
      neck: 60   # counted twice
      # and no other
    arms: {from_front: 40,}
    panel: {}
"""
BRACES = '  "6": {wearer: child/6, body: {neck: 60 }}   # a note\n'
LINE_ENDS = {
    "LF": "\n", "CRLF": "\r\n", "CR": "\r", "next line": "\x85", "line separator": "\u2028",
    "paragraph separator": "\u2029",
}  # fmt: skip


def draft_of(text: str) -> Draft:
    return parse_draft(PATH, text.encode())


def invented(draft: Draft) -> list[dict[str, float]]:
    """Counts that grading might find, each another number."""
    keys = (*draft.counts, *draft.shaping)
    return [
        {**{key: 100 * at + number for number, key in enumerate(keys)}, **size.given}
        for at, size in enumerate(draft.sizes, start=1)
    ]


def written(text: str) -> str:
    draft = draft_of(text)
    return with_counts(draft, invented(draft)).decode()


def assert_only_counts_are_added(text: str, after: str) -> None:
    """Held against PyYAML's own constructor, which the program does not use."""
    draft = draft_of(text)
    wanted: dict[str, Any] = yaml.safe_load(text.removeprefix("\ufeff"))
    names = {normalize("NFC", name): name for name in wanted["sizes"]}
    for size, counts in zip(draft.sizes, invented(draft), strict=True):
        for key in draft.missing(size):
            block, name = key.split(".")
            wanted["sizes"][names[size.name]].setdefault(block, {})[name] = counts[key]
    assert yaml.safe_load(after.removeprefix("\ufeff")) == wanted
    rest = iter(after)
    assert all(letter in rest for letter in text)  # what stood there still does, in its order


@pytest.mark.parametrize("sizes", [BLOCK, BRACES, BLOCK + BRACES], ids=range(3))
def test_comments_stand_beside_counts_on_lines_of_their_own(sizes: str) -> None:
    text = HEAD + WISHES + "sizes:\n" + sizes
    draft = draft_of(text)
    comments = [dict.fromkeys(draft.counts, "as {meant}, 3: 4 cm") for _ in draft.sizes]
    after = with_counts(draft, invented(draft), comments).decode()
    assert_only_counts_are_added(text, after)
    assert after.count("# as {meant}, 3: 4 cm") >= len(draft.sizes)


def test_comments_stand_behind_braces_that_were_there() -> None:
    """A body in braces in a size in braces, which is the last of its line."""
    text = HEAD + WISHES + 'sizes:\n  "4": {wearer: child/4, body: {neck: 48}}\n'
    draft = draft_of(text)
    after = with_counts(draft, invented(draft), [{count: f"of {count}" for count in draft.counts}]).decode()
    assert_only_counts_are_added(text, after)
    (line,) = (line for line in after.splitlines() if "body: {" in line)
    assert line.endswith("# of body.hem; of body.rows")


@pytest.mark.slow
@pytest.mark.parametrize(
    ("end_and_last", "mark_and_sizes"),
    covering(
        [*product(LINE_ENDS.values(), (True, False))],
        [*product(("", "\ufeff"), (BLOCK, BRACES, BLOCK + BRACES, BRACES + BLOCK))],
    ),
)
def test_whatever_ends_the_lines(end_and_last: tuple[str, bool], mark_and_sizes: tuple[str, str]) -> None:
    """``last``: whether the last line ends, too."""
    (end, last), (mark, sizes) = end_and_last, mark_and_sizes
    text = mark + (HEAD + WISHES + "sizes:\n" + sizes).removesuffix("" if last else "\n").replace("\n", end)
    after = written(text)
    assert_only_counts_are_added(text, after)
    assert set(LINE_ENDS.values()).isdisjoint(after.replace(end, ""))


def test_lines_that_end_in_different_ways() -> None:
    ends = list(LINE_ENDS.values())
    lines = (HEAD + WISHES + "sizes:\n" + BLOCK + BRACES).split("\n")
    text = "".join(line + ends[at % len(ends)] for at, line in enumerate(lines[:-1]))
    assert_only_counts_are_added(text, written(text))


def test_every_count_stands_where_a_designer_would_write_it() -> None:
    text = HEAD + WISHES + "sizes:\n" + BLOCK + BRACES
    added = [line for line in difflib.ndiff(text.splitlines(), written(text).splitlines()) if line[0] == "+"]
    assert added == [
        "+       hem: 101",
        "+       rows: 102",
        "+     arms: {from_front: 40, stitches: 104,}",
        "+     panel: {stitches: 105, rows: 106}",
        "+     neck_band: {stitches: 107}",
        "+     arm_bands: {stitches: 108}",
        '+   "6": {wearer: child/6, body: {neck: 60, hem: 201, rows: 202 },',
        "+     arms: {from_front: 203, stitches: 204},",
        "+     panel: {stitches: 205, rows: 206},",
        "+     neck_band: {stitches: 207},",
        "+     arm_bands: {stitches: 208}}   # a note",
    ]


@pytest.mark.parametrize("name", ["ete\u0301", "\u00e9te", "Ω", "\u212b", "6 (7)", "#1", "~"])
def test_a_size_of_any_name(name: str) -> None:
    """Decomposed letters too: the file keeps them, the program reads them composed."""
    text = HEAD + WISHES + "sizes:\n" + BLOCK.replace("4", name, 1)
    draft = draft_of(text)
    after = with_counts(draft, invented(draft))
    assert f'"{name}":'.encode() in after
    again = parse_draft(PATH, after)
    assert again.complete
    assert again.sizes[0].given == invented(draft)[0]


@pytest.mark.parametrize(
    "sizes",
    [
        '  "4": {wearer: child/4, body: {neck: &n 60}}\n  "6": {wearer: child/6, body: {neck: *n}}\n',
        '  "4": {wearer: &w child/4}\n  "6":\n    body: {neck: 60}\n    wearer: *w\n',
        '  "4":\n    wearer: child/4\n    arms: &arms {from_front: 40, stitches: 20}\n'
        '  "6":\n    wearer: child/6\n    arms: *arms   # the same\n',
        '  "4":\n    wearer: child/4\n    body:\n      neck: &n 60\n'
        '  "6":\n    wearer: child/6\n    body:\n      neck: *n\n',
    ],
    ids=range(4),
)  # fmt: skip
def test_an_alias_ends_where_it_stands(sizes: str) -> None:
    text = HEAD + WISHES + "sizes:\n" + sizes
    assert_only_counts_are_added(text, written(text))


@pytest.mark.parametrize(
    ("sizes", "size", "line"),
    [
        ('  "4": &four {wearer: child/4}\n  "6": *four\n', "6", 2),
        ('  "4": {wearer: child/4, body: &b {neck: 60}}\n  "6": {wearer: child/6, body: *b}\n', "6", 2),
        ('  "4":\n    wearer: child/4\n    body: &b {neck: 60}\n  "6":\n    wearer: child/6\n    body: *b\n',
         "6", 4),
    ],
    ids=range(3),
)  # fmt: skip
def test_counts_behind_an_alias_are_refused_by_line(sizes: str, size: str, line: int) -> None:
    text = HEAD + WISHES + "sizes:\n" + sizes
    with pytest.raises(UsageError) as error:
        written(text)
    line += text[: text.index('  "4":')].count("\n")
    assert str(error.value) == (
        f"lake.yaml:{line}: size '{size}' shares its counts with another by an alias; write them out, then "
        "its own can be put in"
    )


TAB = "a tab stands here, and this reader takes only spaces; use spaces"


@pytest.mark.parametrize(
    "sizes",
    [
        '  ? "4"\n  : {wearer: child/4}\n',
        '  ? "4"\n  : wearer: child/4\n    body:\n      neck: 60\n',
        '  "4": {wearer: child/4,\n  body:\n  {\n  neck:\n  60\n  }\n  }\n',
        '  "4":\n    wearer: "child/\\\n      4"\n',
        '  "4":\n      body: {neck: 60}\n      wearer: {chart: child/4,\n    head_girth: 50}\n',
        '  "4":\n    wearer: child/4\n...\n# the end\n',
    ],
    ids=range(6),
)  # fmt: skip
def test_odd_layouts_are_right(sizes: str) -> None:
    text = HEAD + WISHES + "sizes:\n" + sizes
    assert_only_counts_are_added(text, written(text))


@pytest.mark.parametrize(
    ("sizes", "line", "sentence"),
    [
        ('  "4": !!map {wearer: child/4}\n', 1,
         'sizes."4": the tag !!map is not understood in a spec; delete it'),
        ('  "4":\n    wearer: >\n      child/4\n\n', 2,
         "sizes.\"4\".wearer: there is no chart row 'child/4\\n' ('schematics wearers' lists them); "
         "did you mean 'child/4', 'child/14' or 'child/8'?"),
        ('  "4":\twearer\n', 1, TAB),
        ('  "4": {wearer: child/4, body: {neck:\t60}}\n', 1, TAB),
        ('  "4": {wearer: child/4,\tbody: {neck: 60}}\n', 1, TAB),
        ('  "4":\n    wearer:\tchild/4\n', 2, TAB),
    ],
    ids=range(6),
)  # fmt: skip
def test_other_layouts_are_refused_by_line(sizes: str, line: int, sentence: str) -> None:
    text = HEAD + WISHES + "sizes:\n"
    with pytest.raises(SpecError) as error:
        written(text + sizes)
    assert str(error.value) == f"lake.yaml:{text.count(chr(10)) + line}: {sentence}"


@pytest.mark.parametrize("key", ["sizes", '"4"', "body", "arms"])
def test_an_alias_as_a_key_is_the_key(key: str) -> None:
    """Its value stands elsewhere, but it has the place of the counts beside it."""
    text = HEAD.replace("title: Lake poncho", f"title: &key {key}") + WISHES + "sizes:\n" + BLOCK
    assert "&key" in text
    before, after = text.split("&key")
    text = f"{before}&key{after.replace(f'{key}:', '*key :')}"
    assert "*key :" in text
    assert_only_counts_are_added(text, written(text))


@pytest.mark.slow
def test_a_file_that_would_be_too_large_to_be_read_is_refused() -> None:
    text = HEAD + WISHES + "sizes:\n" + BLOCK
    room = 1_000_000 - len(text.encode())
    filled = text + "#" * (room % 4 + 4) + "\N{SOCKS}" * (room // 4 - 1)
    with pytest.raises(UsageError) as error:
        written(filled)
    assert str(error.value) == (
        "lake.yaml: with its counts the file would be over 1 MB, which is not read; a spec needs a few "
        "kilobytes, so shorten it first"
    )


def test_what_would_not_read_back_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    """A fault in placing counts is caught before it reaches a file."""
    from schematics.reading import writing

    text = HEAD + WISHES + "sizes:\n" + BLOCK
    line = text[: text.index('  "4":')].count("\n") + 1
    for fault in (" oops: [", "      hem: 7\n", "      neckk: 7\n"):
        monkeypatch.setattr(
            writing, "_in_block", lambda text, *_, fault=fault: writing._Insertion(len(text), fault)
        )
        with pytest.raises(UsageError) as error:
            written(text)
        assert str(error.value) == (
            f"lake.yaml:{line}: the counts of size '4' cannot be put in without changing something else; "
            "write them in by hand: body.hem: 101, body.rows: 102, arms.stitches: 104, panel.stitches: 105, "
            "panel.rows: 106, neck_band.stitches: 107, arm_bands.stitches: 108"
        )


@st.composite
def layouts(draw: st.DrawFn) -> str:
    """A sizes block in any of the layouts designers use, some counts given."""
    end = draw(st.sampled_from(list(LINE_ENDS.values())))
    comment = st.sampled_from(["", "   # a note", "  # {not: this}", " # 'nor: this"])
    blank = st.sampled_from(["", "\n", "      # between\n", "\n# at the margin\n"])
    counts = {
        "body": {"neck": 60, "hem": 176, "rows": 30},
        "arms": {"from_front": 40, "stitches": 20},
        "panel": {"stitches": 12},
    }
    lines = ["sizes:\n"]
    for name in draw(st.lists(st.sampled_from(["2", "4", "6 years", "Zoe\u0308"]), min_size=1, unique=True)):
        blocks = [f"wearer: child/4{draw(comment)}\n"]
        for block in draw(st.lists(st.sampled_from(list(counts)), unique=True)):
            given = draw(st.lists(st.sampled_from(list(counts[block])), unique=True))
            entries = [f"{key}: {counts[block][key]}" for key in given]
            if bool(entries) and draw(st.booleans()):
                inner = "".join(f"      {entry}{draw(comment)}\n{draw(blank)}" for entry in entries)
                blocks.append(f"{block}:{draw(comment)}\n{inner}")
            else:
                comma = draw(st.sampled_from(["", ","])) if entries else ""
                blocks.append(f"{block}: {{{', '.join(entries)}{comma}}}{draw(comment)}\n")
        order: st.SearchStrategy[list[str]] = st.permutations(blocks)
        lines.append(f"  '{name}':{draw(comment)}\n")
        lines += [f"    {block}{draw(blank)}" for block in draw(order)]
    return "".join(lines).replace("\n", end)


@pytest.mark.slow
@examples(60, part=10)
@given(layouts())
def test_any_layout(sizes: str) -> None:
    text = HEAD + WISHES + sizes
    assert_only_counts_are_added(text, written(text))
