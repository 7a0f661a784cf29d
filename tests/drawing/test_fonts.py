"""PNG and PDF are lettered with the font that comes with the program, whatever fonts the machine has."""

from __future__ import annotations

import os
import pickle
import subprocess
import sys
import tempfile
from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from io import BytesIO
from pathlib import Path

import pytest
from fontTools.ttLib import TTFont

from schematics.document.lettering.text import FONT_FOLDER
from schematics.drawing.ink.cairo_font import take_shipped_font
from schematics.drawing.ink.cairo_pen import cairo
from schematics.drawing.ink.marks import Group, Text
from schematics.drawing.ink.pdf import join, to_pdf
from schematics.drawing.ink.raster import to_png
from schematics.drawing.ink.sheet import Paper, Sheet
from schematics.errors import MissingLibraryError
from tests.drawing.fonts import BOLD, NORMAL

ROOT = Path(__file__).parents[2]

_CONFIGURATION = '<?xml version="1.0"?><fontconfig>{}<cachedir>{}</cachedir></fontconfig>'
_WORDS = Sheet(
    paper=Paper(name="label", width=60, height=20),
    scale=None,
    title="",
    description="",
    groups=(Group("words", "one", (Text((2, 8), "neck", 7, bold=True), Text((2, 18), "body 42", 9))),),
)

_BY_ITSELF = """
import cairocffi
surface = cairocffi.ImageSurface(cairocffi.FORMAT_A8, 200, 50)
context = cairocffi.Context(surface)
context.select_font_face("DejaVu Sans")
context.set_font_size(30)
context.move_to(2, 40)
context.show_text("body 42")
surface.flush()
"""
"""cairo asked without the program, and so with the machine's fonts."""
_NOT_OURS = f"{_BY_ITSELF}sys.stdout.buffer.write(bytes(surface.get_data()))"

_PNG = "sys.stdout.buffer.write(to_png(sheet))"
_PDF = "sys.stdout.buffer.write(join([('', to_pdf(sheet))], ''))"
_PROCESSES_AND_THREADS = """
from concurrent.futures import ThreadPoolExecutor
from schematics.batch.pool import processes
with processes(2) as pool:
    drawn = [pool.submit(to_png, sheet).result()]
with ThreadPoolExecutor(4) as pool:
    drawn += pool.map(to_png, [sheet] * 4)
assert len(drawn) == 5
assert len(set(drawn)) == 1
sys.stdout.buffer.write(drawn[0])
"""
_SPOILT = f"""
{_BY_ITSELF}
from schematics.errors import MissingLibraryError
try:
    to_png(sheet)
except MissingLibraryError as error:
    print(error)
"""
_START = (
    "import pickle, sys\n"
    "from schematics.drawing.ink.pdf import join, to_pdf\n"
    "from schematics.drawing.ink.raster import to_png\n"
    "sheet = pickle.load(sys.stdin.buffer)\n"
)


@dataclass(frozen=True, slots=True)
class Machine:
    """A folder with nothing of the tests' machine in it, and what a process is told of it."""

    place: Path
    settings: dict[str, str]

    def run(self, script: str, sheet: Sheet | None = None) -> bytes:
        """What the script prints, of a sheet if one is given; it says nothing else and leaves nothing."""
        (self.place / "tmp").mkdir(exist_ok=True)
        there = {"PYTHONPATH": str(ROOT), "TMPDIR": str(self.place / "tmp")}
        done = subprocess.run(
            [sys.executable, "-c", (_START if sheet else "import sys\n") + script],
            input=pickle.dumps(sheet),
            capture_output=True,
            check=False,
            env={**there, "HOME": str(self.place / "home"), **self.settings},
        )
        assert (done.returncode, done.stderr.decode()) == (0, "")
        assert not list((self.place / "tmp").iterdir())
        assert not (self.place / "home").exists()
        return done.stdout


def with_a_namesake(place: Path) -> Machine:
    """Its only fonts are called DejaVu Sans and are twice as wide."""
    (place / "fonts").mkdir()
    for file in (NORMAL, BOLD):
        (place / "fonts" / file.name).write_bytes(_broad(file))
    return _configured(place, f"<dir>{place / 'fonts'}</dir>")


@cache
def _broad(file: Path) -> bytes:
    broad = BytesIO()
    with TTFont(file, recalcBBoxes=False, lazy=True) as font:
        widths = font["hmtx"].metrics
        widths.update({name: (2 * advance, bearing) for name, (advance, bearing) in widths.items()})
        font.save(broad)
    return broad.getvalue()


def in_a_sysroot(place: Path) -> Machine:
    """fontconfig is told to look for everything, and so for our files, under a folder that has nothing."""
    return Machine(place, {"FONTCONFIG_SYSROOT": str(place)})


def _configured(place: Path, fonts: str) -> Machine:
    (place / "fonts.conf").write_text(_CONFIGURATION.format(fonts, place / "cache"))
    return Machine(place, {"FONTCONFIG_FILE": str(place / "fonts.conf")})


@pytest.mark.slow
@pytest.mark.parametrize("machine", [with_a_namesake, pytest.param(in_a_sysroot, marks=pytest.mark.thorough)])
def test_a_sheet_is_the_same_whatever_fonts_there_are(
    machine: Callable[[Path], Machine], tmp_path: Path
) -> None:
    """Whichever is drawn first: cairo settles how it hints a font when it draws with it, by the surface."""
    printed = machine(tmp_path).run(f"{_PDF};{_PNG}", _WORDS)
    assert printed == join([("", to_pdf(_WORDS))], "") + to_png(_WORDS)


@pytest.mark.thorough
def test_every_process_and_thread_of_a_build_has_the_font(tmp_path_factory: pytest.TempPathFactory) -> None:
    short = tmp_path_factory.mktemp("f")  # the path of a socket in it has 107 letters at most
    printed = with_a_namesake(short).run(_PROCESSES_AND_THREADS + _PDF, _WORDS)
    assert printed == to_png(_WORDS) + join([("", to_pdf(_WORDS))], "")


@pytest.mark.slow
def test_that_machine_would_letter_otherwise(tmp_path: Path) -> None:
    """Else the tests above would prove nothing."""
    places = [tmp_path / name for name in ("namesake", "ours")]
    for place in places:
        place.mkdir()
    namesake, ours = places
    shipped = _configured(ours, f"<dir>{FONT_FOLDER}</dir>")
    assert with_a_namesake(namesake).run(_NOT_OURS) != shipped.run(_NOT_OURS)


@pytest.mark.slow
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
    take_shipped_font(cairo())
    assert dict(os.environ) == whole


def test_without_a_folder_for_temporary_files_it_says_so(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path / "none"))
    with pytest.raises(MissingLibraryError) as caught:
        take_shipped_font(cairo())
    assert str(caught.value) == (
        "PNG and PDF need a folder for temporary files: No such file or directory. Name one in TMPDIR. "
        "The SVG files are complete without it."
    )
