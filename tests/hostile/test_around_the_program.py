"""What a command comes to where its arguments and streams are not as they should be."""

from __future__ import annotations

import io
import subprocess
import sys
from pathlib import Path

import click
import pytest
import yaml
from click.testing import CliRunner

from schematics.cli import main
from schematics.reading.design_file import read_draft
from tests.examples import covering, seeds
from tests.program import call
from tests.specs_for_tests import SPEC, TIGHT_NECK, write

SWATCH = "--swatch=19 sts 14 rows over 20 cm"
FULL = "cannot write the output: no space left on device\n"
needs_dev_full = pytest.mark.skipif(
    not Path("/dev/full").exists(), reason="this system has no /dev/full, or no sh"
)


@pytest.fixture(autouse=True)
def _here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    for text, name in ((SPEC, "lake.yaml"), (TIGHT_NECK, "tight.yaml")):
        write(tmp_path, text.partition('  "6 years":')[0], name)


IS_A_FOLDER = "this is a folder; name a file in it, such as"
NO_TITLE = "--title: it is needed, such as 'Lake poncho'; the file's name makes none"
NO_LETTER = (
    "the lettering of the sheets has no 'ポ' (U+30DD); "
    "use Latin, Greek, Cyrillic, Armenian or Georgian letters"
)
PLAIN = "expected a whole number in plain digits, got"
FOLDED = "--construction=folded"

REFUSED = [
    (["new", "ポンチョ.yaml", SWATCH], NO_TITLE),
    (["new", "🧶.yaml", SWATCH], NO_TITLE),
    (
        ["new", f"{'a' * 75}.yaml", SWATCH],
        f"{'a' * 75}.yaml: the file's name becomes a folder's: expected 1 to 64 printable characters",
    ),
    *(
        (["new", f"{'a' * 300}{ending}", SWATCH],
         f"{'a' * 300}{ending}: the file's name becomes a folder's: expected 1 to 64 printable characters")
        for ending in ("", ".yaml")
    ),
    (
        ["new", "a\nb.yaml", SWATCH],
        r"a\nb.yaml: the file's name becomes a folder's: expected 1 to 64 printable characters",
    ),
    (["new", "", SWATCH], f".: {IS_A_FOLDER} lake.yaml"),
    (["new", ".", SWATCH], f".: {IS_A_FOLDER} lake.yaml"),
    (["new", "/", SWATCH], f"/: {IS_A_FOLDER} /lake.yaml"),
    (["new", "..", SWATCH], f"..: {IS_A_FOLDER} ../lake.yaml"),
    (["new", ".yaml", SWATCH], ".yaml: a spec's name ends in .yaml, such as yaml.yaml"),
    (["new", "w.yaml", SWATCH, "--title=ポ"], f"--title: {NO_LETTER}"),
    (["new", "w.yaml", SWATCH, "--yarn=a\nb"],
     r"--yarn: expected one line of 1 to 80 printable characters, got 'a\nb'"),
    (["new", "w.yaml", SWATCH, "--neck-ease=-100 cm"],
     "--neck-ease: grading.intent.\"neck.edge\": size '2': comes to -52.1 cm; expected more than nothing"),
    (["new", "w.yaml", SWATCH, "--below-waist=-1000 mm"],
     "--below-waist: grading.intent.\"body.depth\": size '2': comes to -78.5 cm; expected more than nothing"),
    (["new", "w.yaml", SWATCH, FOLDED, "--below-waist=100"],
     '--below-waist: grading.intent."body.back".ease: expected a length from 0 to 100 cm, got 102 cm'),
    (["new", "w.yaml", "--swatch=9999 sts 9999 rows over 1 cm"],
     "--swatch: expected 0.5 to 200 stitches to 10 cm, got 99990; expected 0.5 to 200 rows to 10 cm, "
     "got 99990, in '9999 sts 9999 rows over 1 cm'"),
    (["new", "w.yaml", SWATCH, "--rib-swatch=20 sts 2000 rows over 20 cm"],
     "--rib-swatch: expected 0.5 to 200 rows to 10 cm, got 1000, in '20 sts 2000 rows over 20 cm'"),
    (["new", "w.yaml", SWATCH, "--row-repeat=2001+4+0"],
     "--row-repeat: fabrics.panel.row_repeat.setup: expected 2000 or less, got 2001"),
    *(
        (["build", "none.yaml", "--jobs", each], f"Error: Invalid value for '--jobs': {PLAIN} {each!r}")
        for each in ("1_0", " 2 ", "+2", "２", "")
    ),
    *(
        (["progress", "lake.yaml", "--size=4", "--rows", each],
         f"Error: Invalid value for '--rows': {PLAIN} {each!r}")
        for each in ("1_0", "２")
    ),
    *(
        (["fit", "lake.yaml", f"--height={each}"],
         f"--height: expected a length such as 20, '20 cm' or '8 1/2 in', got {each!r}")
        for each in ("1_00", "１００", "nan", "")
    ),
    (["check", "lake.yaml/a/b.yaml"],
     "lake.yaml/a/b.yaml: the file cannot be read: lake.yaml is a file, not a folder"),
]  # fmt: skip


@pytest.mark.slow
@pytest.mark.parametrize(
    ("arguments", "sentence"), REFUSED, ids=[ascii(each[0][1:])[:60] for each in REFUSED]
)
def test_an_odd_argument_is_refused_in_one_sentence(
    arguments: list[str], sentence: str, tmp_path: Path
) -> None:
    result = call(*arguments)
    assert (result.exit_code, result.stdout) == (2, "")
    told = result.stderr.removesuffix("\n")
    assert (told.rpartition("\n")[2] if told.startswith("Usage:") else told) == sentence
    assert sorted(path.name for path in tmp_path.iterdir()) == ["lake.yaml", "tight.yaml"]


STRETCH = {"across": "0.00001 %", "along": "12.34567 %"}


@pytest.mark.slow
@pytest.mark.parametrize(
    ("arguments", "key", "value"),
    [
        (["e\u0301te\u0301.yaml"], "title", "Été poncho"),
        (["ポンチョ.yaml", "--title=Lake"], "title", "Lake"),
        (["w.yaml", "--title=u\u0308"], "title", "ü"),
        (["w.yaml", "--title=null"], "title", "null"),
        (["w.yaml", "--title=- a: {b} # 'c' \"d\" \\n"], "title", "- a: {b} # 'c' \"d\" \\n"),
        (["w.yaml", "--stretch=0.00001 % 12.34567 %"], "stretch", STRETCH),
    ],
)
def test_an_odd_answer_stands_in_the_spec_as_it_was_given(
    arguments: list[str], key: str, value: object
) -> None:
    result = call("new", *arguments, SWATCH, "--sizes=child/4")
    assert (result.exit_code, result.stderr) == (0, "")
    spec = yaml.safe_load(Path(arguments[0]).read_text("utf-8"))
    assert {**spec, **spec["fabrics"]["main"]}[key] == value
    assert read_draft(Path(arguments[0])).sizes


def test_what_makes_no_spec_is_asked_for_again() -> None:
    flags = [SWATCH, "--neck-ease=-100 cm", "--lines=4"]
    typed = "\n" * 21 + "child/2, child/4\n" + "\n" * 2 + "-90 cm\n-2 cm\n" + "\n" * 3
    result = CliRunner().invoke(main, ["new", "w.yaml", "--ask", *flags], input=typed)
    clash = "grading.intent.\"neck.edge\": size '2': comes to {} cm; expected more than nothing"
    assert result.exit_code == 0, result.output
    assert result.stderr.splitlines() == [
        "--lines: only a mitred body has it",
        f"--neck-ease: {clash.format(-52.1)}",
        f"  {clash.format(-42.1)}",
    ]
    assert yaml.safe_load(Path("w.yaml").read_text())["grading"]["intent"]["neck.edge"]["ease"] == -2


COMMANDS = [
    ("-h", 0),
    ("--version", 0),
    ("check lake.yaml", 0),
    ("check tight.yaml", 1),
    ("check none.yaml tight.yaml", 2),
    ("compare lake.yaml lake.yaml", 0),
    ("coverage lake.yaml --ages 6-6", 0),
    ("explain", 0),
    ("figures lake.yaml", 0),
    ("pattern lake.yaml", 0),
    ("fit lake.yaml --age 6", 0),
    ("grade lake.yaml", 0),
    ("new wave.yaml --overwrite --swatch=19sts14rows=20", 0),
    ("progress lake.yaml --size 4 --rows 9", 0),
    ("schema", 0),
    ("sensitivity lake.yaml --size 4", 0),
    ("wearers", 0),
    ("workings lake.yaml --size 4", 0),
    ("yarn lake.yaml", 0),
]
SILENT = [
    ("build none.yaml --jobs 1", "none.yaml: there is no such file\n"),
    ("check none.yaml", "none.yaml: there is no such file\n"),
    ("hang none.yaml", "none.yaml: there is no such file\n"),
    ("make none.yaml --age 6", "none.yaml: there is no such file\n"),
    ("explain NECK-KNOT", "no finding has the code 'NECK-KNOT'; did you mean NECK-TIGHT?\n"),
    ("rescue none.yaml --size 4 --measured hem=9", "none.yaml: there is no such file\n"),
    ("serve none.yaml", "none.yaml: there is no such file\n"),
    ("templates none.yaml -o t.pdf", "none.yaml: there is no such file\n"),
    ("new wave.yaml", "--swatch: it is needed, such as '19 sts 14 rows over 20 cm'\n"),
]
"""Commands that only tell what is wrong, and print nothing."""


def test_every_command_is_tried_here() -> None:
    names = {command.split()[0] for command, _ in (*COMMANDS, *SILENT)}
    assert names - {"-h", "--version"} == set(main.list_commands(click.Context(main)))


def code_of(command: str) -> int:
    with pytest.raises(SystemExit) as ended:
        main(command.split())
    return int(ended.value.code or 0)


ENDS = [(command, code, FULL) for command, code in COMMANDS] + [(each, 2, told) for each, told in SILENT]
"""Commands, their exit codes, and what they tell where their output is full."""


@pytest.mark.slow
@needs_dev_full
@pytest.mark.parametrize(("ends", "what"), covering(ENDS, ("output full", "all closed", "errors full")))
def test_streams_that_take_nothing(
    ends: tuple[str, int, str], what: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A stream that was closed when the interpreter started is None."""
    command, code, with_full_output = ends
    if what == "all closed":
        for name in ("stdin", "stdout", "stderr"):
            monkeypatch.setattr(sys, name, None)
        assert code_of(command) == code
        return
    told = io.StringIO()
    full, other = ("stdout", "stderr") if what == "output full" else ("stderr", "stdout")
    monkeypatch.setattr(sys, other, told)
    with Path("/dev/full").open("w") as nowhere:
        monkeypatch.setattr(sys, full, nowhere)
        found = code_of(command), told.getvalue()
    assert found == (2, with_full_output) if what == "output full" else found[0] == code


@pytest.mark.slow
@needs_dev_full
@pytest.mark.parametrize(
    ("line", "code", "told"),
    seeds(
        [
            ("explain NECK-KNOT >&- 2>&-", 2, ""),
            ("check tight.yaml >&- 2>&-", 1, ""),
            ("check tight.yaml >&-", 1, ""),
            ("check tight.yaml 2>&-", 1, ""),
            ("check none.yaml 2>/dev/full", 2, ""),
            ("check none.yaml >/dev/full", 2, "none.yaml: there is no such file\n"),
            ("check tight.yaml >/dev/full", 2, FULL),
            ("check tight.yaml >/dev/full 2>/dev/full", 2, ""),
            (f"new wave.yaml '{SWATCH}' <&- >&- 2>&-", 0, ""),
        ],
        9,
    ),
)
def test_a_shell_sees_the_true_exit_code(line: str, code: int, told: str) -> None:
    done = subprocess.run(
        ["sh", "-c", f"'{sys.executable}' -m schematics {line}"],
        stdin=subprocess.DEVNULL,
        capture_output=True,
        text=True,
        timeout=600,
        check=False,
    )
    assert (done.returncode, done.stderr) == (code, told)


DRAWING = """
import click
from schematics.batch.pool import processes
from schematics.cli.program import Program

@click.group(cls=Program)
def program(): pass

@program.command()
def draw():
    with processes(2) as pool:
        return pool.submit(abs, -1).result() - 1

if __name__ == "__main__":
    program(["draw"])
"""


@pytest.mark.thorough
@needs_dev_full
def test_processes_start_where_streams_are_closed() -> None:
    Path("drawing.py").write_text(DRAWING, encoding="utf-8")
    done = subprocess.run(
        ["sh", "-c", f"'{sys.executable}' drawing.py <&- >&- 2>&-"], timeout=600, check=False
    )
    assert done.returncode == 0


def test_bytes_that_are_no_text_are_asked_for_again() -> None:
    done = CliRunner().invoke(main, ["new", "wave.yaml", "--ask"], input=b"\xff\n")
    assert done.exit_code == 130
    assert done.stderr.startswith("  the lettering of the sheets has no '\ufffd' (U+FFFD); use ")
