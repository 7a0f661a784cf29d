"""PNG and PDF are lettered with the font that comes with the program, whatever fonts the machine has."""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from pathlib import Path

import pytest
from fontTools.ttLib import TTFont

from schematics.checks.evaluation import evaluate
from schematics.document.lettering.font_files import BOLD, FONT_FOLDER, NORMAL
from schematics.drawing.ink.fonts import take_shipped_font
from schematics.drawing.ink.pdf import join, to_pdf
from schematics.drawing.ink.raster import cairo, to_png
from schematics.drawing.ink.sheet import A4
from schematics.drawing.ink.svg import to_svg
from schematics.drawing.pieces.pieces import common_scale, pieces_sheet
from schematics.errors import MissingLibraryError
from schematics.reading import read_design
from tests.drawing.sheets import SPECS

ROOT = Path(__file__).parents[2]

_CONFIGURATION = '<?xml version="1.0"?><fontconfig>{}<cachedir>{}</cachedir></fontconfig>'
_WORDS = (
    '<svg xmlns="http://www.w3.org/2000/svg" width="60" height="20">'
    '<text x="2" y="15" font-family="DejaVu Sans" font-size="12">body 42</text></svg>'
)

_PNG = "sys.stdout.buffer.write(to_png(svg))"
_PDF = "sys.stdout.buffer.write(join([('', to_pdf(svg))], ''))"
_PROCESSES = """
from schematics.batch.pool import processes
with processes(2) as pool:
    one, other = [pool.submit(to_png, svg) for _ in range(2)]
    assert one.result() == other.result()
    sys.stdout.buffer.write(one.result())
"""
_THREADS = """
from concurrent.futures import ThreadPoolExecutor
with ThreadPoolExecutor(4) as pool:
    drawn = list(pool.map(to_png, [svg] * 4))
assert len(set(drawn)) == 1
sys.stdout.buffer.write(drawn[0])
"""
_SPOILT = """
import cairosvg
cairosvg.svg2png(bytestring=svg.encode())
from schematics.errors import MissingLibraryError
try:
    to_png(svg)
except MissingLibraryError as error:
    print(error)
"""
_NOT_OURS = "import cairosvg; sys.stdout.buffer.write(cairosvg.svg2png(bytestring=svg.encode()))"
_START = (
    "import sys\n"
    "from schematics.drawing.ink.pdf import join, to_pdf\n"
    "from schematics.drawing.ink.raster import to_png\n"
    "svg = sys.stdin.read()\n"
)


@dataclass(frozen=True, slots=True)
class Machine:
    """A folder with nothing of the tests' machine in it, and what a process is told of it."""

    place: Path
    settings: dict[str, str]

    def run(self, script: str, svg: str) -> bytes:
        """What the script prints; it says nothing else and leaves nothing behind."""
        (self.place / "tmp").mkdir(exist_ok=True)
        there = {"PYTHONPATH": str(ROOT), "TMPDIR": str(self.place / "tmp")}
        done = subprocess.run(
            [sys.executable, "-c", _START + script],
            input=svg.encode(),
            capture_output=True,
            check=False,
            env={**there, "HOME": str(self.place / "home"), **self.settings},
        )
        assert (done.returncode, done.stderr.decode()) == (0, "")
        assert not list((self.place / "tmp").iterdir())
        assert not (self.place / "home").exists()
        return done.stdout


def without_fonts(place: Path) -> Machine:
    return _configured(place, "")


def with_a_namesake(place: Path) -> Machine:
    """Its only fonts are called DejaVu Sans and are twice as wide."""
    (place / "fonts").mkdir()
    for file in (NORMAL, BOLD):
        font = TTFont(file)
        widths = font["hmtx"].metrics
        widths.update({name: (2 * advance, bearing) for name, (advance, bearing) in widths.items()})
        font.save(place / "fonts" / file.name)
    return _configured(place, f"<dir>{place / 'fonts'}</dir>")


def in_a_sysroot(place: Path) -> Machine:
    """fontconfig is told to look for everything, and so for our files, under a folder that has nothing."""
    return Machine(place, {"FONTCONFIG_SYSROOT": str(place)})


def _configured(place: Path, fonts: str) -> Machine:
    (place / "fonts.conf").write_text(_CONFIGURATION.format(fonts, place / "cache"))
    return Machine(place, {"FONTCONFIG_FILE": str(place / "fonts.conf")})


@cache
def sheet() -> str:
    design = read_design(next(path for path in SPECS if path.stem == "tidepool"))
    results = evaluate(design)
    return to_svg(pieces_sheet(design, results[0], common_scale(results, A4), A4))


@pytest.mark.parametrize("machine", [without_fonts, with_a_namesake, in_a_sysroot])
def test_a_sheet_is_the_same_whatever_fonts_there_are(
    machine: Callable[[Path], Machine], tmp_path: Path
) -> None:
    there = machine(tmp_path)
    assert there.run(_PNG, sheet()) == to_png(sheet())
    assert there.run(_PDF, sheet()) == join([("", to_pdf(sheet()))], "")


def test_those_machines_would_letter_otherwise(tmp_path: Path) -> None:
    """Else the test above would prove nothing."""
    places = [tmp_path / name for name in ("bare", "namesake", "ours")]
    for place in places:
        place.mkdir()
    bare, namesake, ours = places
    shipped = _configured(ours, f"<dir>{FONT_FOLDER}</dir>")
    machines = [without_fonts(bare), with_a_namesake(namesake), shipped]
    assert len({machine.run(_NOT_OURS, _WORDS) for machine in machines}) == 3


@pytest.mark.parametrize("script", [_PROCESSES, _THREADS], ids=["processes", "threads"])
def test_every_process_and_thread_of_a_build_has_the_font(script: str, tmp_path: Path) -> None:
    assert without_fonts(tmp_path).run(script, _WORDS) == to_png(_WORDS)


def test_a_process_whose_fonts_were_settled_before_is_not_drawn_in_wrongly(tmp_path: Path) -> None:
    said = with_a_namesake(tmp_path).run(_SPOILT, _WORDS).decode()
    assert said == (
        "PNG and PDF would be lettered with the wrong font: the cairo library did not take the one that "
        f"comes with the program. Install the fonts in {FONT_FOLDER} on this machine and try again. "
        "The SVG files are complete without it.\n"
    )


@pytest.mark.parametrize("before", [{}, {"FONTCONFIG_FILE": "mine.conf", "FONTCONFIG_SYSROOT": "mine"}])
def test_the_environment_is_left_as_it_was(before: dict[str, str], monkeypatch: pytest.MonkeyPatch) -> None:
    for name in ("FONTCONFIG_FILE", "FONTCONFIG_SYSROOT"):
        monkeypatch.delenv(name, raising=False)
    for name, value in before.items():
        monkeypatch.setenv(name, value)
    whole = dict(os.environ)
    take_shipped_font(cairo().surface.cairo)
    assert dict(os.environ) == whole


def test_without_a_folder_for_temporary_files_it_says_so(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path / "none"))
    with pytest.raises(MissingLibraryError) as caught:
        take_shipped_font(cairo().surface.cairo)
    assert str(caught.value) == (
        "PNG and PDF need a folder for temporary files: No such file or directory. Name one in TMPDIR. "
        "The SVG files are complete without it."
    )
