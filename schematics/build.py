"""Building a design: its drawings and measurements worked out, then put in place."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING

from schematics.design import Design
from schematics.errors import MissingLibraryError
from schematics.evaluate import Result, choose, evaluate
from schematics.figures import FORMATS, figures, figures_file
from schematics.report.files import write_whole
from schematics.report.json_text import as_text
from schematics.report.measurements import measurements

if TYPE_CHECKING:
    from schematics.drawing.sheets import Page

MEASUREMENTS = "measurements.json"
BOOKLET = "booklet.pdf"
PAGE = "fit.html"


@dataclass(frozen=True, slots=True, kw_only=True)
class BuildReport:
    """What was built: the results of the sizes asked for, and the files written.

    ``problems`` says what could not be drawn for want of a library, ``unplaced`` what found no
    room on its sheet.
    """

    design: Design
    folder: Path
    results: tuple[Result, ...]
    files: tuple[Path, ...]
    problems: tuple[str, ...]
    unplaced: tuple[str, ...]


@dataclass(slots=True)
class _Drawn:
    """Sheets drawn so far: files by their place in the design's folder, and what went wrong."""

    files: dict[Path, bytes] = field(default_factory=dict)
    problems: list[str] = field(default_factory=list)
    unplaced: list[str] = field(default_factory=list)


def build_design(
    design: Design,
    out: Path,
    sizes: Sequence[str] | None = None,
    paper: str = "a4",
    progress: Callable[[int, int], None] | None = None,
) -> BuildReport:
    """Draw a design and write it out; a finding never keeps a size from being drawn.

    Everything is drawn before the first file is written, so that what stops a drawing leaves an
    earlier build as it was.

    Args:
        design: what to build.
        out: folder that gets a folder named by the design's slug, with a folder for each size; the
            spec reader sees to it that both kinds of name can be folders and no two are the same.
        sizes: names of the sizes whose sheets are written, all when None. Measurements, figures, booklet
            and the page for the maker are those of every size and the scale is the whole design's either
            way, so a part never differs from the whole.
        paper: ``a4`` or ``letter``.
        progress: called after each sheet with the number of sheets drawn and of all to draw.

    Raises:
        UsageError: a name is no size of the design, or a wearer cannot be resolved.
        WriteError: a file cannot be written; every file there is whole, old or new.
    """
    from schematics.page.page import fit_page

    results = evaluate(design)
    chosen = choose(design, results, sizes)
    drawn = _draw(design, results, frozenset(result.size.name for result in chosen), paper, progress)
    numbers = as_text(measurements(design, results)).encode(errors="replace")
    folder = out / design.slug
    contents = {folder / place: content for place, content in drawn.files.items()}
    contents[folder / MEASUREMENTS] = numbers
    document = figures(design, results)
    for ending in FORMATS:
        contents[folder / f"figures.{ending}"] = figures_file(document, ending)
    contents[folder / PAGE] = fit_page(design, results).encode(errors="replace")
    for path, content in contents.items():
        write_whole(path, content)
    return BuildReport(
        design=design,
        folder=folder,
        results=chosen,
        files=tuple(contents),
        problems=tuple(drawn.problems),
        unplaced=tuple(drawn.unplaced),
    )


def _draw(
    design: Design,
    results: tuple[Result, ...],
    chosen: frozenset[str],
    paper: str,
    progress: Callable[[int, int], None] | None,
) -> _Drawn:
    from schematics.drawing.pdf import join
    from schematics.drawing.sheet import PAPERS
    from schematics.drawing.sheets import draw_sheets, setting_of
    from schematics.drawing.svg import to_svg

    drawn = _Drawn()
    bound: list[tuple[str, bytes]] = []
    pages = list(draw_sheets(setting_of(design, results, PAPERS[paper])))
    for done, page in enumerate(pages, start=1):
        svg = to_svg(page.sheet)
        pdf = _through_cairo(drawn, svg)
        if page.size is None or page.size in chosen:
            _keep(drawn, design, page, svg, pdf)
        if pdf is not None:
            bound.append((page.bookmark, pdf))
        if progress is not None:
            progress(done, len(pages))
    if not drawn.problems:
        drawn.files[Path(BOOKLET)] = join(bound, design.title)
    return drawn


def _keep(drawn: _Drawn, design: Design, page: Page, svg: str, pdf: bytes | None) -> None:
    """Keep one sheet in all its forms, and what found no room on it."""
    from schematics.drawing.pdf import join
    from schematics.drawing.raster import to_png

    place = Path(page.size or "") / page.stem
    whose = "all sizes" if page.size is None else f"size {page.size}"
    drawn.unplaced += [
        f"{design.path}: {whose}, {page.stem}: no room for {each}" for each in page.sheet.unplaced
    ]
    drawn.files[place.with_name(f"{page.stem}.svg")] = svg.encode()
    if pdf is not None:
        drawn.files[place.with_name(f"{page.stem}.png")] = to_png(svg)
        drawn.files[place.with_name(f"{page.stem}.pdf")] = join([(page.bookmark, pdf)], page.sheet.title)


def _through_cairo(drawn: _Drawn, svg: str) -> bytes | None:
    """The sheet as PDF, or None, told once, where the cairo library is missing."""
    from schematics.drawing.pdf import to_pdf

    if drawn.problems:
        return None
    try:
        return to_pdf(svg)
    except MissingLibraryError as error:
        drawn.problems.append(f"no PNG or PDF was drawn, any there are from an earlier build: {error}")
        return None
