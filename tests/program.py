"""Running the program in tests, and looking at what it left behind."""

from __future__ import annotations

import builtins
import hashlib
import io
import os
import shutil
import signal
import subprocess
import sys
import zlib
from collections.abc import Iterator, Mapping, Sequence
from functools import cache, lru_cache, partial
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner, Result
from pypdf import PdfWriter

from schematics.checks.evaluation import Result as Evaluated
from schematics.cli import main
from schematics.design.design import Design
from schematics.document.document import Document
from schematics.document.page_look import PageLook
from schematics.drawing.compose import Drawing, Setting
from schematics.drawing.ink.sheet import A4, BareInk, Sheet
from tests.remembered import remember_drawings, remember_patterns, svg_once


def call(*arguments: object, typed: str | None = None) -> Result:
    """The program in this process; ``typed`` are the answers it is given."""
    return CliRunner().invoke(main, [*map(str, arguments)], input=typed)


def run(
    *arguments: str, folder: Path | None = None, before: Sequence[str] = (), **environment: str
) -> subprocess.CompletedProcess[str]:
    """The program in a process of its own, its output in pipes; ``before`` stands before its command."""
    return subprocess.run(
        [*before, sys.executable, "-m", "schematics", *arguments],
        cwd=folder,
        env={**os.environ, **environment},
        stdin=subprocess.DEVNULL,
        capture_output=True,
        text=True,
        timeout=600,
        check=False,
    )


def without_privileges() -> list[str]:
    """What to put before a command so that modes hold for it, for root too."""
    if not hasattr(os, "geteuid") or os.geteuid() != 0:
        return []
    if shutil.which("setpriv") is None:
        pytest.skip("root may write anywhere, and there is no setpriv to take that away")
    return ["setpriv", "--bounding-set=-all", "--inh-caps=-all"]


def files_in(folder: Path) -> list[str]:
    """Every file below the folder, by its path from there."""
    return sorted(path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file())


def spare_rendering(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """Make PNG, PDF and all pages cost nothing; the SVGs a PNG was asked of, as it goes on.

    Equal designs are drawn once in a process. Each stand-in is another for another sheet; a PDF is one that
    can be bound.
    """
    from schematics.document import typeset, word
    from schematics.drawing.ink import pdf, raster
    from schematics.fitting.page import fit_page as page

    asked: list[str] = []

    def to_png(sheet: Sheet) -> bytes:
        svg = svg_once(sheet)
        asked.append(svg)
        return b"PNG of " + hashlib.sha256(svg.encode()).digest()

    def to_pdf(sheet: Sheet) -> bytes:
        return _blank_page(svg_once(sheet))

    def typeset_pdf(document: Document, look: PageLook) -> bytes:
        return _blank_page(f"{document!r}, {look!r}")

    def paged(document: Document, look: PageLook) -> bytes:
        return f"pages of {document!r}, {look!r}".encode()

    remember_drawings(monkeypatch)
    remember_patterns(monkeypatch)
    monkeypatch.setattr(typeset, "to_pdf", typeset_pdf)
    monkeypatch.setattr(word, "to_docx", paged)
    monkeypatch.setattr(raster, "to_png", to_png)
    monkeypatch.setattr(pdf, "to_pdf", to_pdf)
    monkeypatch.setattr(page, "fit_page", lambda design, results: f"<html>{design.title}</html>")
    return asked


def spare_drawings(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """`spare_rendering` with nothing drawn: no sheet, no bare drawing, no picture of the pattern."""
    spare_sheets(monkeypatch)
    spare_bare_drawings(monkeypatch)
    spare_pictures(monkeypatch)
    return spare_rendering(monkeypatch)


def spare_sheets(monkeypatch: pytest.MonkeyPatch) -> None:
    """Have every sheet say what it is of, and nothing drawn on it, where a build is about something else."""
    from schematics.batch import work
    from schematics.drawing import sheets

    for registered in (sheets.DESIGN_SHEETS, sheets.SIZE_SHEETS):
        for stem in [*registered]:
            monkeypatch.setitem(registered, stem, partial(_said, stem))
    monkeypatch.setattr(sheets, "draw_hang", partial(_said, sheets.WORN))
    monkeypatch.setattr(
        work, "_pages", lru_cache(work._pages.__wrapped__)
    )  # it has none that were drawn before


def spare_pictures(monkeypatch: pytest.MonkeyPatch) -> None:
    """Have patterns without pictures of steps and schematics."""
    from schematics.pattern import published

    monkeypatch.setattr(published, "step_pictures", lambda results, seam, font: ())
    monkeypatch.setattr(published, "bare_schematic", lambda results, look, room: None)


def _said(stem: str, setting: Setting, *results: Evaluated) -> Drawing:
    """What it is of by its lengths, and among which sizes."""
    of = [[item.length_cm for item in each.garment.finished] for each in results or setting.results]
    among = [each.size.name for each in setting.results]
    return Drawing(groups=(), title=stem, description=f"{setting.scale}, {among}: {of}", scale=None)


def spare_bare_drawings(monkeypatch: pytest.MonkeyPatch) -> None:
    """Have bare drawings of one width, and nothing drawn in them, where a build is about something else."""
    from schematics.drawing.bare import drawings, rooms

    monkeypatch.setattr(drawings, "WIDTHS", {"page": rooms.WIDTHS["page"]})

    def stand_ins(
        design: Design, results: Sequence[Evaluated], size: str | None
    ) -> Iterator[tuple[str, Sheet]]:
        for stem in dict(drawings.bare_stems(design, results))[size]:
            title = f"{design.title}, {size}: {stem}"
            ink = BareInk(name=stem)
            yield stem, Sheet(paper=A4, scale=None, title=title, description="", groups=(), ink=ink)

    monkeypatch.setattr(drawings, "bare_drawings", stand_ins)


@cache
def _blank_page(of: str) -> bytes:
    """A PDF of one empty page, whose height is another for another text."""
    writer, out = PdfWriter(), io.BytesIO()
    writer.add_blank_page(width=100, height=100 + zlib.crc32(of.encode()))
    writer.write(out)
    return out.getvalue()


def without_cairo(monkeypatch: pytest.MonkeyPatch) -> None:
    """Make ``import cairocffi`` fail as it does where the cairo library is missing: with OSError."""
    honest = builtins.__import__

    def refuse(
        name: str,
        globals_: Mapping[str, object] | None = None,
        locals_: Mapping[str, object] | None = None,
        fromlist: Sequence[str] = (),
        level: int = 0,
    ) -> Any:
        if name.partition(".")[0] == "cairocffi":
            raise OSError('no library called "cairo-2" was found')
        return honest(name, globals_, locals_, fromlist, level)

    for name in [name for name in sys.modules if name.partition(".")[0] == "cairocffi"]:
        monkeypatch.delitem(sys.modules, name)
    monkeypatch.setattr(builtins, "__import__", refuse)


def hear_interrupts() -> None:
    """For a process about to start: it hears interrupts, even where these tests run in the background."""
    signal.signal(signal.SIGINT, signal.SIG_DFL)


def hang_coarsely(patch: pytest.MonkeyPatch) -> None:
    """Have garments hang on a coarse mesh, of the usual fabric alone: in a tenth of the time."""
    from schematics.analysis.drape import hang_report
    from schematics.garment.cloth.ranges import ranges

    patch.setattr(hang_report, "ranges", lambda garment, size, **_: ranges(garment, size, 100, corners=()))
