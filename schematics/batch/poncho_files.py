"""The files of a design made to measure, put in place all together in a folder of their own."""

from __future__ import annotations

import pickle
from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from schematics.batch import work
from schematics.batch.digest import digest, program_digest, sha256
from schematics.batch.folder import DesignFolder
from schematics.batch.lock import locked
from schematics.batch.manifest import Manifest, Planned
from schematics.batch.source import design_source
from schematics.document.document import Document, Section
from schematics.document.writers import file_content
from schematics.drawing.draped.worn_pictures import measured_picture
from schematics.drawing.ink import pdf, raster
from schematics.drawing.ink.sheet import PAPERS
from schematics.drawing.ink.svg import to_svg
from schematics.errors import MissingLibraryError, UsageError
from schematics.fitting.to_measure.made_to_measure import MadeToMeasure
from schematics.fitting.to_measure.poncho_json import poncho_json
from schematics.fitting.to_measure.poncho_pattern import poncho_pattern
from schematics.fitting.to_measure.poncho_report import poncho_document
from schematics.fitting.to_measure.poncho_spec import SPEC, files_beside, poncho_spec
from schematics.pattern.pattern_files import document_content, page_look

PAGE = "measurements.html"
FIRST = "pattern.pdf"
"""What a maker opens first."""

WORN = "worn"


@dataclass(frozen=True, slots=True, kw_only=True)
class PonchoFiles:
    """What was written: all the files, which of them changed, and which somebody else had changed before.

    ``problem`` says why no PNG or PDF of the drawings could be made, if none could.
    """

    folder: Path
    files: tuple[Path, ...]
    written: tuple[Path, ...]
    edited: tuple[Path, ...]
    problem: str = ""


def usual_folder(poncho: MadeToMeasure) -> Path:
    """Where it is written by default: ``output/tidepool/made/Mara``."""
    return Path("output", poncho.design.slug, "made", poncho.design.sizes[0].name)


def written_document(poncho: MadeToMeasure, files: PonchoFiles) -> Document:
    """The page of what was made, and where its files are."""
    document = poncho_document(poncho)
    folder, first = files.folder, files.files[0]
    as_they_were = "" if files.written else ", as they were"
    where = f"{len(files.files)} files in {folder}{as_they_were}", f"Open this first, the pattern: {first}"

    def data() -> dict[str, Any]:
        names = {
            key: [path.relative_to(folder).as_posix() for path in paths]
            for key, paths in (("files", files.files), ("written", files.written))
        }
        return {**poncho_json(poncho), "folder": str(folder), "open_first": names["files"][0], **names}

    return replace(document, closing=(*document.closing, Section("", where)), data=data)


def write_poncho(
    poncho: MadeToMeasure, folder: Path, *, paper: str = "a4", spec: bool = False, force: bool = False
) -> PonchoFiles:
    """Write the pattern, the drawings, the page and, if asked for, the spec.

    Args:
        poncho: what was made to measure.
        folder: where to; what is there from another making of that title is replaced.
        paper: ``a4`` or ``letter``.
        spec: whether to write ``design.yaml``, with the images and fonts that it names.
        force: whether to replace files that are not from this program.

    Raises:
        UsageError: files of somebody else, of a build, or of what is made otherwise are in the folder.
        WriteError: a file cannot be written; every file there is whole.
    """
    page = file_content(poncho_document(poncho), "html")
    beside = {SPEC: poncho_spec(poncho), **_beside(poncho)} if spec else {}
    source = design_source(poncho.design)
    key = digest(source.digest, paper, program_digest(), page, *_flat(beside))
    with locked(folder):
        opened = DesignFolder(folder, force)
        _refuse_others(opened, poncho.design.title, force)
        problem = ""
        if not opened.is_current(key, None):
            drawn, problem = _drawn(poncho, paper)
            files = {PAGE: page, **_pattern(poncho, paper), **drawn, **beside}
            opened.clear()
            try:
                _stage(opened, files, poncho, key)
                committed = opened.commit(_manifest(poncho, key), files.keys(), prune=True)
            except BaseException:
                opened.clear()
                raise
            written, edited = committed.written, committed.edited
        else:
            written = edited = ()
    return PonchoFiles(
        folder=folder,
        files=tuple(folder / place for place in sorted(opened.manifest.files, key=_first)),
        written=tuple(folder / place for place in sorted(written)),
        edited=tuple(folder / place for place in sorted(edited)),
        problem=problem,
    )


def _first(place: str) -> tuple[bool, str]:
    return place != FIRST, place


def _stage(opened: DesignFolder, files: Mapping[str, bytes], poncho: MadeToMeasure, key: str) -> None:
    for place, content in files.items():
        opened.stage(place, content, size=poncho.design.sizes[0].name, key=key, source=sha256(content))


def _manifest(poncho: MadeToMeasure, key: str) -> Manifest:
    (size,) = poncho.design.sizes
    verdict = poncho.result.verdict.value
    planned = Planned(name=size.name, verdict=verdict, digest=digest(repr(size)))
    return Manifest(key=key, title=poncho.design.title, sizes=(planned,))


def _refuse_others(opened: DesignFolder, title: str, force: bool) -> None:
    """Refuse a folder with what was built, or made of another design or for another child."""
    files, there = opened.manifest.files, opened.manifest.title
    if not files or force:
        return
    if PAGE not in files:
        held = f"what was built of {there!r}"
    elif there != title:
        held = f"{there!r}"
    else:
        return
    raise UsageError(
        f"nothing was written to {opened.folder}: it holds {held}; name another folder with -o, or replace "
        "it with --force"
    )


def _pattern(poncho: MadeToMeasure, paper: str) -> dict[str, bytes]:
    look = page_look(poncho.design, PAPERS[paper])
    drawn, text = (poncho_pattern(poncho, form, worn=True) for form in ("pdf", "md"))
    documents = {"pdf": drawn, "html": drawn, "md": text}
    return {f"pattern.{form}": document_content(each, form, look) for form, each in documents.items()}


def _drawn(poncho: MadeToMeasure, paper: str) -> tuple[dict[str, bytes], str]:
    """The bare pieces in every width and the worn figure in every form; why there are SVGs only, if so."""
    name, payload = poncho.design.sizes[0].name, pickle.dumps(poncho.design)
    of_one = work.Work(key=digest(payload), paper=paper, common_scale=False, payload=payload)
    bare = work.draw_bare(of_one, work.BareSet(name), None)
    inner = f"{work.BARE}/{name}/"
    files = {f"{work.BARE}/{place.removeprefix(inner)}": each for place, each in (bare.files or {}).items()}
    sheet = measured_picture(poncho.design, poncho.result)
    if sheet is None:
        return files, bare.problem
    files[f"{WORN}.svg"] = to_svg(sheet).encode()
    try:
        return files | {f"{WORN}.png": raster.to_png(sheet), f"{WORN}.pdf": pdf.to_pdf(sheet)}, bare.problem
    except MissingLibraryError as error:
        return files, str(error)


def _beside(poncho: MadeToMeasure) -> dict[str, bytes]:
    return {place: path.read_bytes() for place, path in files_beside(poncho.design)}


def _flat(files: Mapping[str, bytes]) -> list[bytes | str]:
    return [part for place, content in sorted(files.items()) for part in (place, content)]
