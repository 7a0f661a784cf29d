"""Building a design: its drawings and measurements worked out, then put in place."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from schematics.design import Design
from schematics.errors import MissingLibraryError
from schematics.evaluate import Result, choose, evaluate
from schematics.report.files import write_whole
from schematics.report.json_text import as_text
from schematics.report.measurements import measurements

MEASUREMENTS = "measurements.json"
SVG, PNG = "pieces.svg", "pieces.png"


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


def build_design(
    design: Design,
    out: Path,
    sizes: Sequence[str] | None = None,
    progress: Callable[[str], None] | None = None,
) -> BuildReport:
    """Draw a design and write it out; a finding never keeps a size from being drawn.

    Everything is drawn before the first file is written, so that what stops a drawing leaves an
    earlier build as it was.

    Args:
        design: what to build.
        out: folder that gets a folder named by the design's slug, with a folder for each size; the
            spec reader sees to it that both kinds of name can be folders and no two are the same.
        sizes: names of the sizes to draw, all when None. The measurements are those of every size
            and the scale is the whole design's either way, so a part never differs from the whole.
        progress: called with the name of each size when it is drawn.

    Raises:
        UsageError: a name is no size of the design, or a wearer cannot be resolved.
        WriteError: a file cannot be written; every file there is whole, old or new.
    """
    results = evaluate(design)
    chosen = choose(design, results, sizes)
    folder = out / design.slug
    contents: dict[Path, bytes] = {}
    problems: dict[str, None] = {}
    unplaced: list[str] = []
    for drawing in _drawings(design, results, chosen):
        size = drawing.size
        contents |= {folder / size / name: content for name, content in drawing.files.items()}
        problems |= dict.fromkeys(drawing.problems)
        unplaced += [f"{design.path}: size {size}: no room for {each}" for each in drawing.unplaced]
        if progress is not None:
            progress(size)
    contents[folder / MEASUREMENTS] = as_text(measurements(design, results)).encode(errors="replace")
    for path, content in contents.items():
        write_whole(path, content)
    return BuildReport(
        design=design,
        folder=folder,
        results=chosen,
        files=tuple(contents),
        problems=tuple(problems),
        unplaced=tuple(unplaced),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Drawing:
    size: str
    files: dict[str, bytes]
    problems: tuple[str, ...]
    unplaced: tuple[str, ...]


def _drawings(design: Design, results: Sequence[Result], chosen: Sequence[Result]) -> Iterator[_Drawing]:
    """The chosen sizes drawn, at the scale at which all results fit."""
    from schematics.drawing.pieces import common_scale, pieces_sheet
    from schematics.drawing.raster import to_png
    from schematics.drawing.svg import to_svg

    scale = common_scale(results)
    missing: tuple[str, ...] = ()
    for result in chosen:
        sheet = pieces_sheet(design, result, scale)
        svg = to_svg(sheet)
        files = {SVG: svg.encode()}
        if not missing:
            try:
                files[PNG] = to_png(svg)
            except MissingLibraryError as error:
                missing = (f"no PNG was drawn, any that are there are from an earlier build: {error}",)
        yield _Drawing(size=result.size.name, files=files, problems=missing, unplaced=sheet.unplaced)
