"""The work of a batch in pieces that any process can do: nothing here reads or writes but the spec itself.

Every function takes and gives what can be sent to another process, and gives the same for the same.
"""

from __future__ import annotations

import pickle
from collections.abc import Sequence
from contextlib import suppress
from dataclasses import dataclass, field, replace
from functools import lru_cache
from typing import TYPE_CHECKING

from schematics.batch.digest import digest, program_digest, sha256
from schematics.batch.manifest import Planned
from schematics.batch.source import Source, spec_digest
from schematics.errors import MissingLibraryError, SchematicsError, UsageError

if TYPE_CHECKING:
    from schematics.checks.evaluation import Result
    from schematics.design.design import Design
    from schematics.drawing.sheets import Pages

MEASUREMENTS = "measurements.json"
WORKBOOK = "workbook.pdf"
PAGE = "fit.html"
BARE = "schematics"
"""The folder of the bare drawings."""
PATTERNS = ("pattern.pdf", "pattern-large.pdf", "pattern.docx", "pattern.html", "pattern.md")
_OTHER_PAPER = {"a4": "letter", "letter": "a4"}
FIGURES = ("figures.md", "figures.csv", "figures.json", "figures.html")


@dataclass(frozen=True, slots=True, kw_only=True)
class Work:
    """A design to be drawn; ``key`` is that of no other, and ``payload`` is the design, pickled.

    With ``cloth`` its sizes are hung on cloth, too.
    """

    key: str
    paper: str
    common_scale: bool
    cloth: bool = False
    payload: bytes = field(compare=False, repr=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """What is to be made of a design: its sizes, and the name of each page.

    A page's name is its stem and its size, which is None for a sheet of the whole design; ``slow`` are the
    places of those that take seconds to draw. ``bare`` are the places of each set of bare drawings, without
    the ending of their form.
    """

    work: Work
    title: str
    sizes: tuple[Planned, ...]
    pages: tuple[tuple[str, str | None], ...]
    slow: frozenset[int]
    bare: tuple[tuple[BareSet, tuple[str, ...]], ...]


@dataclass(frozen=True, slots=True)
class BareSet:
    """Bare drawings that are made together: those of a size, or of the whole design if None.

    With ``cloth`` it is the picture of how the size hangs.
    """

    size: str | None
    cloth: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class BareDrawn:
    """The bare drawings of a set, by the place of the file.

    ``source`` is the digest of what decides them. ``files`` is None where they are as they were; PNG and PDF
    are left out where ``problem`` says why they cannot be made.
    """

    source: str
    files: dict[str, bytes] | None = None
    unplaced: tuple[str, ...] = ()
    problem: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawn:
    """One page: its SVG, and what was made of that.

    ``source`` is the digest of what decides its PNG and PDF. All three are None where the page is as it
    was; the PNG and PDF alone where they were not asked for or ``problem`` says why they cannot be made.
    """

    source: str
    svg: bytes | None = None
    png: bytes | None = None
    pdf: bytes | None = None
    unplaced: tuple[str, ...] = ()
    problem: str = ""


def key_of(
    source: Source, paper: str, *, common_scale: bool, terms: str | None = None, cloth: bool = False
) -> str:
    """The digest of all that decides what is made of a source."""
    return digest(source.digest, paper, str(common_scale), terms or "", str(cloth), program_digest())


def plan(
    source: Source,
    paper: str,
    sizes: Sequence[str] | None,
    common_scale: bool = False,
    terms: str | None = None,
    cloth: bool = False,
) -> Plan | str:
    """Read and work out a source; ``sizes`` are the names that must be sizes of it.

    ``terms`` are ``US`` or ``UK``, the design's own when None. With ``cloth`` sizes are hung on cloth.

    Returns:
        What is to be made, or why it cannot be built, in words for the author of the spec.
    """
    from schematics.checks.evaluation import choose
    from schematics.crochet.terms import Terms
    from schematics.wearer.asking import distinct_questions, questions_of

    try:
        digest_of, design = _read(source)
        if terms:
            design = replace(design, terms=Terms(terms))
        key = key_of(
            replace(source, digest=digest_of), paper, common_scale=common_scale, terms=terms, cloth=cloth
        )
        work = Work(
            key=key,
            paper=paper,
            common_scale=common_scale,
            cloth=cloth,
            payload=pickle.dumps(design, protocol=pickle.HIGHEST_PROTOCOL),
        )
        results = _worked_out(work)[1]
        choose(design, results, sizes)
    except SchematicsError as error:
        return str(error)
    pages = _pages(work)
    return Plan(
        work=work,
        title=design.title,
        sizes=tuple(
            Planned(
                name=result.size.name,
                verdict=result.verdict.value,
                digest=digest(repr(replace(result.size, line=0)), repr(design.parts)),
                graded=result.size.name in design.graded,
                asked=distinct_questions(questions_of(result.wearer, design.unit)),
            )
            for result in results
        ),
        pages=pages.names,
        slow=frozenset(index for index in range(len(pages.names)) if pages.content(index)),
        bare=_bare_places(design, results, pages.hung),
    )


def _bare_places(
    design: Design, results: Sequence[Result], hung: Sequence[str]
) -> tuple[tuple[BareSet, tuple[str, ...]], ...]:
    """Of the sizes ``hung`` on cloth there is a picture more."""
    from schematics.drawing.bare.drawings import bare_stems
    from schematics.drawing.draped.hang_sheet import PICTURE

    flat = (
        (BareSet(size), tuple(bare_place(size, stem) for stem in stems))
        for size, stems in bare_stems(design, results)
    )
    return (*flat, *((BareSet(size, cloth=True), (bare_place(size, PICTURE),)) for size in hung))


def bare_place(size: str | None, stem: str) -> str:
    """Where a bare drawing is, without the ending of its form."""
    return f"{BARE}/{stem}" if size is None else f"{BARE}/{size}/{stem}"


def _read(source: Source) -> tuple[str, Design]:
    """The design and its source's digest; a spec that is saved while it is read is read again."""
    from schematics.reading.design_file import read_design

    if source.payload is not None:
        design: Design = pickle.loads(source.payload)
        return source.digest, design
    while True:
        before = spec_digest(source.path)
        design = read_design(source.path)
        if spec_digest(source.path) == before:
            return before, design


@lru_cache(maxsize=4)
def _worked_out(work: Work) -> tuple[Design, tuple[Result, ...]]:
    from schematics.checks.evaluation import evaluate

    design: Design = pickle.loads(work.payload)
    return design, evaluate(design)


@lru_cache(maxsize=4)
def _pages(work: Work) -> Pages:
    from schematics.drawing.ink.sheet import PAPERS
    from schematics.drawing.sheets import Pages, setting_of

    given = _worked_out(work)
    return Pages(setting_of(*given, PAPERS[work.paper], one_scale=work.common_scale, cloth=work.cloth))


def numbers(work: Work) -> dict[str, bytes]:
    """Measurements and figures of all sizes, by the name of the file."""
    from schematics.analysis.measurements import measurements
    from schematics.document.json_text import as_text
    from schematics.document.writers import file_content
    from schematics.pattern import figures

    design, results = _worked_out(work)
    document = figures(design, results)
    files = {name: file_content(document, name.rpartition(".")[2]) for name in FIGURES}
    files[MEASUREMENTS] = as_text(measurements(design, results)).encode(errors="replace")
    return files


def pattern_places(paper: str) -> tuple[str, ...]:
    """The names of the pattern's files where that is the paper; a PDF on the other has its name in it."""
    return (*PATTERNS, f"pattern-{_OTHER_PAPER[paper]}.pdf")


def pattern(work: Work) -> dict[str, bytes]:
    """The pattern in every form, by the name of the file, but what wants a library that is not there."""
    from schematics.drawing.ink.sheet import PAPERS
    from schematics.pattern.pattern_files import LARGE, document_content, page_look, pattern_documents

    design, results = _worked_out(work)
    documents = pattern_documents(design, results)
    files: dict[str, bytes] = {}
    for place in pattern_places(work.paper):
        stem, _, form = place.rpartition(".")
        edition = stem.removeprefix("pattern").removeprefix("-")
        look = page_look(design, PAPERS.get(edition) or PAPERS[work.paper], large=edition == "large")
        with suppress(MissingLibraryError):  # the sheets, which want it too, say so
            files[place] = document_content(documents[LARGE if look.large else form], form, look)
    return files


def templates_place(size: str) -> str:
    """The place of the templates of the size of that name."""
    return f"{size}/templates.pdf"


def templates(work: Work, size: str) -> bytes | str:
    """The templates of a size as a PDF, or why there are none; empty where the sheets say that too."""
    from schematics.checks.evaluation import choose
    from schematics.drawing.ink.sheet import PAPERS
    from schematics.drawing.templates.templates import templates_pdf

    design, results = _worked_out(work)
    try:
        return templates_pdf(design, choose(design, results, [size]), PAPERS[work.paper])
    except MissingLibraryError:
        return ""
    except UsageError as error:
        return str(error).removeprefix(f"{design.path}: ")


def maker_page(work: Work) -> dict[str, bytes]:
    """The page for the maker, by the name of the file."""
    from schematics.fitting.page.fit_page import fit_page

    return {PAGE: fit_page(*_worked_out(work)).encode(errors="replace")}


def draw(work: Work, index: int, current: str | None, forms: frozenset[str]) -> Drawn:
    """One page of a design.

    Args:
        work: the design.
        index: which of the plan's pages, from 0.
        current: the ``source`` of what there is of the page already, if all of it is whole.
        forms: which of ``png`` and ``pdf`` are wanted beside the SVG.
    """
    from schematics.drawing.ink import pdf, raster
    from schematics.drawing.ink.svg import to_svg

    pages = _pages(work)
    before = pages.content(index)
    source = digest(program_digest(), before) if before else ""
    if source and source == current:
        return Drawn(source=source)
    page = pages.draw(index)
    svg = to_svg(page.sheet).encode()
    if not source or page.sheet.unplaced:
        source = digest(program_digest(), sha256(svg))
    if source == current:
        return Drawn(source=source, unplaced=page.sheet.unplaced)
    try:
        bare = pdf.to_pdf(page.sheet) if "pdf" in forms else None
        png = raster.to_png(page.sheet) if "png" in forms else None
    except MissingLibraryError as error:
        return Drawn(source=source, svg=svg, unplaced=page.sheet.unplaced, problem=str(error))
    bound = None if bare is None else pdf.join([(page.bookmark, bare)], page.sheet.title)
    return Drawn(source=source, svg=svg, png=png, pdf=bound, unplaced=page.sheet.unplaced)


def draw_bare(work: Work, of: BareSet, current: str | None) -> BareDrawn:
    """The bare drawings of a set; ``current`` as of `draw`."""
    from schematics.drawing.bare.drawings import bare_drawings
    from schematics.drawing.ink import pdf, raster
    from schematics.drawing.ink.svg import to_svg

    source = ""
    if of.cloth and of.size is not None:
        source = digest(program_digest(), "bare", _pages(work).hung_content(of.size))
        if source == current:
            return BareDrawn(source=source)
        drawings = _pages(work).hung_picture(of.size)
    else:
        drawings = bare_drawings(*_worked_out(work), of.size)
    drawn = [(bare_place(of.size, stem), sheet) for stem, sheet in drawings]
    files = {f"{place}.svg": to_svg(sheet).encode() for place, sheet in drawn}
    source = source or digest(program_digest(), *map(sha256, files.values()))
    unplaced = tuple(f"{each} of {place}" for place, sheet in drawn for each in sheet.unplaced)
    if source == current:
        return BareDrawn(source=source, unplaced=unplaced)
    try:
        for place, sheet in drawn:
            files[f"{place}.png"] = raster.to_png(sheet)
            files[f"{place}.pdf"] = pdf.to_pdf(sheet)
    except MissingLibraryError as error:
        return BareDrawn(source=source, files=files, unplaced=unplaced, problem=str(error))
    return BareDrawn(source=source, files=files, unplaced=unplaced)


def workbook_words(work: Work) -> tuple[tuple[str, bytes], ...]:
    """What the designer's workbook has beside the sheets: first what comes before them, then what after."""
    from schematics.analysis import workbook
    from schematics.document import typeset
    from schematics.drawing.ink.sheet import PAPERS

    design, results = _worked_out(work)
    look = workbook.workbook_look(design, PAPERS[work.paper])
    documents = (
        (workbook.FINDINGS, workbook.findings_document(design, results)),
        *workbook.workings_documents(design, results),
    )
    return tuple((words, typeset.to_pdf(document, look)) for words, document in documents)


def bind(pages: Sequence[tuple[str, bytes]], title: str) -> bytes:
    """The designer's workbook of these PDFs, each with its bookmark."""
    from schematics.analysis import workbook
    from schematics.drawing.ink.pdf import join

    return join(pages, workbook.workbook_title(title))
