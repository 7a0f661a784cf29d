"""Every command that reports, in every form: each parses, all say the same, every JSON key is explained."""

from __future__ import annotations

import csv
import io
import json
import re
from collections import Counter, defaultdict
from collections.abc import Callable, Iterator, Sequence
from copy import deepcopy
from functools import cache
from itertools import pairwise
from pathlib import Path
from shutil import rmtree
from typing import Any

import html5lib
import pytest
from click.testing import CliRunner
from markdown_it import MarkdownIt
from markdown_it.token import Token

import schematics.checks.evaluation
import schematics.grading.grade
import schematics.reading.design_file
from schematics.analysis.drape import hang_report
from schematics.analysis.drape.hang_keys import KEYS as HANG_KEYS
from schematics.analysis.json_keys import KEYS as DESIGN_KEYS
from schematics.batch import poncho_files
from schematics.checks import EXPLAINED
from schematics.cli import main
from schematics.design.limits import LIMIT_FIELDS, Limits
from schematics.document import writers
from schematics.document.document import Document
from schematics.document.writers import FORMS
from schematics.fitting.fit_keys import KEYS as WEARER_KEYS
from schematics.pattern.errata import versions
from tests.analysis.drape.made_up_hang import made_up_ranges
from tests.examples import covering, thorough
from tests.remembered import remembered
from tests.shipped import SPECS, demo_names, shipped_text

KEYS = {**DESIGN_KEYS, **HANG_KEYS, **WEARER_KEYS}

pytestmark = [pytest.mark.slow, pytest.mark.seeds]

KEPT = {"first-draft": ("4", "8"), "tidepool": ("2", "4", "6", "8")}
"""Sizes of those designs; the others have 4 and 6."""

REPORTS = {
    "check": ("tidepool --all", "first-draft", "sandpiper --size 6", "unweighed --size 6"),
    "figures": tuple(demo_names("first-draft", "driftwood --size 4")),
    "pattern": tuple(demo_names("driftwood --size 4")),
    "workings": ("tidepool --size 6", "saltmarsh --size 4", "driftwood --size 4"),
    "sensitivity": ("first-draft", "driftwood --size 4"),
    "yarn": (
        "tidepool",
        "tidepool --have 6|balls",
        "coloured --have sand:|900|g --have fog:|50|g",
        "unweighed",
    ),
    "hang": ("tidepool --size 6", "unweighed --size 6", "driftwood --size 4"),
    "fit": (
        "tidepool --age 6 --head-girth 56 --size 2",
        "pair --age 5.5 --all --gauge 20|sts|15|rows|over|20|cm",
        "pair --age 6 --height 46 --gauge 20|sts|over|20|cm",
        "first-draft --head-girth 58",
        "driftwood --age 6",
    ),
    "fit --gauge": ("pair --gauge 20|sts|15|rows|over|20|cm", "pair --gauge 20|sts|over|20|cm"),
    "fit --group": (
        "pair --gauge 20|sts|15|rows|over|20|cm --group class.csv",
        "first-draft --gauge 20|sts|over|20|cm --group class.csv",
    ),
    "progress": (
        "tidepool --size 6 --rows 14 --measured 108 20.5 --weighed 170 --have 6|balls --wearer short.txt",
        "driftwood --size 4 --rows 5",
    ),
    "rescue": (
        "tidepool --size 6 --measured neck|band|length|38.5 --measured hem|174 --measured neck|42",
        "driftwood --size 4 --measured body|width|84 --age 4 --height 46",
        "tidepool --size 6 --measured arm|band|depth|5 --age 7 --height 125",
    ),
    "make": (
        "tidepool --age 6 --head-girth 59 --have 5|balls",
        "unweighed --age 4 --size 4",
        "tidepool --age 6 --height 118 --hand-girth 22 --name Mara",
        "driftwood --age 6",
    ),
    "coverage": ("driftwood --ages 4-4",),
    "compare": ("first-draft pair", "pair first-draft", "pair pair"),
    "compare --figures": ("first-draft pair --figures", "pair first-draft --figures", "pair pair --figures"),
    "grade": ("missed", "tidepool"),
    "wearers": ("",),
    "wearers ROW": ("child/4",),
    "explain": ("", "NECK-PASS", "--limits", "--keys"),
}
"""Arguments of each command, blanks in one written ``|``; names of specs stand for their files."""

CASES = [(command, words) for command, several in REPORTS.items() for words in several]
OF_EACH_COMMAND = CASES if thorough() else [(command, words) for command, (words, *_) in REPORTS.items()]
OF_EACH_KIND = "check", "figures", "workings", "hang", "fit", "fit --group", "progress", "compare"
"""Commands in whose documents each kind of block is, in every place."""
AS_PAGES = CASES if thorough() else [(command, REPORTS[command][0]) for command in OF_EACH_KIND]
"""Those of which the page, which takes longest to read, is held against text and Markdown."""

LISTS = {"check", "figures", "pattern", "workings", "sensitivity", "yarn", "hang"}
"""Commands whose JSON has a list of designs."""

NUMBER = re.compile(r"\d+(?:\.\d+)?")
NAMES_AS_KEYS = re.compile(r"(\bbody|\.figures|stash_g|criteria|ages\[\]\.sizes)\.[^.\[]*")


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """All demo designs, and what shows the rest of the keys."""
    place = tmp_path_factory.mktemp("forms")
    texts = {path.stem: shipped_text(path.stem, *KEPT.get(path.stem, ("4", "6"))) for path in SPECS}
    texts["pair"] = shipped_text("tidepool", "4", "6")
    use = "yarn_use: {colours: {body: sand, centre_panel: fog, neck_band: fog, arm_bands: sand}}\n"
    texts["coloured"] = texts["tidepool"] + use
    unweighed = texts["tidepool"].replace(", mass: 44", ", guessed: true")
    texts["unweighed"] = unweighed.replace("wearer: child/6", "wearer: {chart: child/6, head_girth: 28}")
    texts["missed"] = texts["sandpiper"].replace("  intent:", "  tolerance: {panel.width: 2 mm}\n  intent:")
    for name, text in texts.items():
        (place / f"{name}.yaml").write_text(text, "utf-8")
    children = "name,age,head_girth\nAnn,6,52\n<b>Bo|</b>,4,\n=Cy,9,54\nBig,30,70\nEve,,51\nOdd,x,\n"
    (place / "class.csv").write_text(children, "utf-8")
    (place / "short.txt").write_text("age: 4\nheight: 46\n", "utf-8")
    return place


SLOW = (
    (schematics.reading.design_file, "read_design"),
    (schematics.reading.design_file, "read_draft"),
    (schematics.checks.evaluation, "evaluate"),
    (schematics.grading.grade, "grade"),
)
"""What takes long and is the same for several commands."""


def printed(folder: Path, command: str, words: str, form: str) -> str:
    rmtree(folder / "output", ignore_errors=True)
    parts = [part.replace("|", " ") for part in words.split()]
    paths = [f"{part}.yaml" if (folder / f"{part}.yaml").exists() else part for part in parts]
    result = CliRunner().invoke(main, [command.split()[0], *paths, "--format", form])
    assert result.exit_code in (0, 1) or "class.csv:7: age" in result.stderr, result.stderr
    return result.stdout


@pytest.fixture(scope="module")
def report(folder: Path) -> Iterator[Callable[[str, str, str], str]]:
    """What a command is to print in a form: it runs once, and its documents are written in each form.

    A pattern runs twice, as its page has drawings. A spec is read, graded and worked out once for all.
    """
    last: list[tuple[Sequence[Document], str]] = []
    honest = writers.written
    patch = pytest.MonkeyPatch()
    patch.chdir(folder)
    patch.setenv("COLUMNS", "5000")
    for module, name in SLOW:
        patch.setattr(module, name, remembered(getattr(module, name)))
    patch.setattr(hang_report, "ranges", made_up_ranges)
    patch.setattr(poncho_files, "_drawn", lambda made, paper: ({}, ""))
    patch.setattr(poncho_files, "_pattern", lambda made, paper: {poncho_files.FIRST: b"%PDF-"})
    patch.setattr(versions, "_pages", lambda *_: {1: 1, 2: 1})

    def kept(documents: Sequence[Document], form: str, together: str = "") -> Iterator[str]:
        last.append((documents, together))
        return honest(documents, form, together)

    patch.setattr(writers, "written", kept)

    @cache
    def made(command: str, words: str, form: str) -> tuple[Sequence[Document], str]:
        last.clear()
        printed(folder, command, words, form)
        return last[-1]

    @cache
    def told(command: str, words: str, form: str) -> str:
        documents, together = made(command, words, form if command == "pattern" and form == "html" else "md")
        return "".join(honest(documents, form, together)).replace("\r\n", "\n")

    yield told
    patch.undo()


Report = Callable[[str, str, str], str]


@cache
def blocks(markdown: str) -> list[Token]:
    return MarkdownIt("commonmark").enable("table").parse(markdown)


def shown(markdown: str) -> list[str]:
    """The text of every block as a reader sees it."""
    return [
        "".join(child.content for child in token.children or ())
        for token in blocks(markdown)
        if token.type == "inline"
    ]


@cache
def page(html: str) -> Any:
    """The page, which has to be HTML without a single error."""
    return html5lib.HTMLParser(strict=True, namespaceHTMLElements=False).parse(html)


def page_texts(html: str) -> str:
    """The texts of the page; a value that stands once for several columns is read in each."""
    body = deepcopy(page(html).find("body"))
    body.remove(body.find("nav"))
    for cell in (cell for cell in body.iter("td") if cell.get("colspan")):
        cell.text = " ".join([cell.text] * int(cell.get("colspan")))
    return " ".join(body.itertext()).replace("\N{NO-BREAK SPACE}", " ")


def numbers(text: str) -> Counter[str]:
    return Counter(NUMBER.findall(text))


@pytest.mark.parametrize(("command", "words"), AS_PAGES)
def test_markdown_is_markdown_with_tables_and_nothing_else(command: str, words: str, report: Report) -> None:
    tokens = blocks(report(command, words, "md"))
    assert not {token.type for token in tokens} & {"html_block", "code_block", "fence", "blockquote_open"}
    spans = {child.type for token in tokens for child in token.children or ()}
    assert spans <= {"text", "text_special", "strong_open", "strong_close"}
    assert [token.type for token in tokens].count("heading_open") >= 1
    tables = [token.type for token in tokens].count("table_open")
    assert tables == len(page(report(command, words, "html")).findall(".//table"))


@pytest.mark.parametrize(("command", "words"), AS_PAGES)
def test_html_is_a_whole_page(command: str, words: str, report: Report) -> None:
    html = report(command, words, "html")
    whole = page(html)
    assert html.startswith("<!DOCTYPE html>")
    assert whole.get("lang") == "en-GB"
    assert whole.find("head/title").text == whole.find("body/header/h1").text
    assert whole.find("head/meta[@name='viewport']").get("content").startswith("width=device-width")
    levels = [int(element.tag[1]) for element in whole.iter() if re.fullmatch(r"h[1-6]", str(element.tag))]
    assert levels[0] == 1
    assert all(after <= before + 1 for before, after in pairwise(levels))
    assert not re.search(r"https?:|url\(|@import|\bon\w+=|javascript:|<script", html)
    ids = [element.get("id") for element in whole.iter() if element.get("id")]
    assert len(ids) == len(set(ids))


@pytest.mark.parametrize(("command", "words"), OF_EACH_COMMAND)
def test_every_line_of_the_csv_has_all_columns_and_no_formula(
    command: str, words: str, report: Report
) -> None:
    header, *lines = csv.reader(io.StringIO(report(command, words, "csv"), newline=""), strict=True)
    assert all(header)
    assert len(set(header)) == len(header)
    assert {len(line) for line in lines} <= {len(header)}
    for cell in (cell for line in lines for cell in line):
        assert not cell.lstrip().startswith(("=", "+", "@")), cell
        assert not cell.startswith("-") or re.fullmatch(r"-[\d.]+", cell), cell


@pytest.mark.parametrize(("command", "words"), AS_PAGES)
def test_text_markdown_and_page_hold_the_same_numbers(command: str, words: str, report: Report) -> None:
    text, markdown, html = (report(command, words, form) for form in ("text", "md", "html"))
    assert numbers(text) == numbers("\n".join(shown(markdown))) == numbers(page_texts(html))


@pytest.mark.parametrize(("command", "form"), covering([*REPORTS], sorted(FORMS)))
def test_a_command_prints_the_form_that_it_is_asked_for(
    command: str, form: str, folder: Path, report: Report
) -> None:
    words = REPORTS[command][-1]
    assert report(command, words, form) == printed(folder, command, words, form)


def leaves(value: Any, path: str = "") -> Iterator[str]:
    if isinstance(value, dict) and value:
        for key, each in value.items():
            yield from leaves(each, f"{path}.{key}" if path else key)
    elif isinstance(value, list) and value:
        for each in value:
            yield from leaves(each, f"{path}[]")
    else:
        yield path


def test_every_key_of_every_json_is_explained_and_every_explained_key_is_there(report: Report) -> None:
    emitted: dict[str, set[str]] = defaultdict(set)
    for command, words in CASES:
        values = json.loads(report(command, words, "json"))
        designs = values["designs"] if command in LISTS else [values]
        paths = {path for design in designs for path in leaves(design)}
        emitted[command] |= {NAMES_AS_KEYS.sub(r"\1.*", path) for path in paths}
    assert set(KEYS) == set(REPORTS)
    for command, keys in KEYS.items():
        containers = {path for path in emitted[command] - set(keys) if _holds(path, keys)}
        assert emitted[command] - containers - set(keys) == set(), command
        assert set(keys) - emitted[command] == NEVER_SHOWN.get(command, set()), command


FIGURE_KEYS = {key for key in KEYS["explain"] if ".figures[]" in key}
NEVER_SHOWN = {
    "pattern": FIGURE_KEYS,
    "sensitivity": FIGURE_KEYS,
    "explain": {*FIGURE_KEYS, "sections[].sentences[]"},
}
"""Of the keys of any document, what these commands leave empty."""


def _holds(path: str, keys: Any) -> bool:
    """Whether a null, an empty list or an empty mapping holds keys that are explained."""
    return any(key.startswith((f"{path}.", f"{path}[]")) for key in keys)


def test_the_keys_command_lists_them_all(report: Report) -> None:
    rows = list(csv.DictReader(io.StringIO(report("explain", "--keys", "csv"))))
    listed = [(row["section"], row["key"], row["what it means"]) for row in rows if row["key"]]
    told = [
        (f"schematics {command} --format json", key, words)
        for command, keys in KEYS.items()
        for key, words in keys.items()
    ]
    assert listed == told


def test_the_limits_command_lists_every_limit_with_its_default_range_and_source(report: Report) -> None:
    rows = [row for row in csv.DictReader(io.StringIO(report("explain", "--limits", "csv"))) if row["limit"]]
    assert [row["limit"] for row in rows] == list(LIMIT_FIELDS)
    text = report("explain", "--limits", "text")
    for row in rows:
        name, about = row["limit"], LIMIT_FIELDS[row["limit"]].metadata
        assert float(row["default"]) == getattr(Limits(), name)
        assert (row["means"], row["source"]) == (about["words"], about["source"])
        low, high = (float(end) for end in re.findall(r"-?[\d.]+", row["may be"]))
        assert low <= float(row["default"]) <= high
        assert row["may be"].endswith(" cm") == name.endswith("_cm")
        assert f"  {name}: {float(row['default']):g}" in text
        codes = row["findings"].removeprefix("of ").split(", ")
        assert all(name in EXPLAINED[code].limits for code in codes)


HEM_CM = 166 * 20 / 19
"""Tidepool, size 6: 166 stitches at the hem, 19 stitches over 20 cm."""


def test_a_measurement_is_the_same_in_every_output(report: Report) -> None:
    """174.7368 cm; to the half centimetre and the quarter inch of a pattern 174.5 cm and 68 3/4 in."""
    exact = round(HEM_CM, 3)
    assert exact == 174.737
    (check,) = json.loads(report("check", "tidepool --all", "json"))["designs"]
    (six,) = (size for size in check["sizes"] if size["name"] == "6")
    (hem,) = (each for each in six["finished"] if each["key"] == "body.hem")
    assert (hem["cm"], hem["cm_printed"], hem["inches_printed"]) == (exact, 174.5, "68 3/4")
    figures = csv.DictReader(io.StringIO(report("figures", "tidepool", "csv")))
    assert [row["size 6"] for row in figures if row["key"] == "body.hem.cm"] == [str(exact)]
    for form in ("text", "md", "html"):
        said = report("figures", "tidepool", form)
        row = re.search(r"body hem edge(.*?)sts", said, re.DOTALL)
        assert row
        assert "174.5" in row[1]
        workings = report("workings", "tidepool --size 6", form).replace("\N{NO-BREAK SPACE}", " ")
        assert "166 sts / (19 sts / 20 cm) = 174.7368 cm" in workings
        assert "printed 174.5 cm (68 3/4 in)" in workings
    steps = json.loads(report("workings", "tidepool --size 6", "json"))["designs"][0]["steps"]
    assert [step["result"] for step in steps if step["key"] == "body.hem"] == [exact]
    lines = csv.DictReader(io.StringIO(report("workings", "tidepool --size 6", "csv")))
    assert [line["result"] for line in lines if line["key"] == "body.hem"] == [str(exact)]


@pytest.mark.parametrize(("form", "words"), covering([*FORMS], demo_names("driftwood --size 4")))
def test_what_is_passed_on_names_no_code_no_command_and_one_file(
    form: str, words: str, report: Report
) -> None:
    """A pattern's figures name the spec they are made from, once, and nothing else of the program."""
    said = report("figures", words, form)
    assert [code for code in EXPLAINED if code in said] == []
    assert "--" not in re.sub(
        r"<!--|-->|---+|\w--\w", "", re.sub(r"<style>.*?</style>", "", said, flags=re.S)
    )
    assert said.count(".yaml") == (0 if form == "csv" else 1)
