"""The public functions: what the commands do, for Python. Their names are those of the package itself.

Lengths are centimetres where a name ends in ``_cm``; sheets are in millimetres. A path is a `str` or an
`os.PathLike`. What is wrong with a spec, a wearer or a file is a `SchematicsError`, with a text for each
in its ``problems``; an argument of another type than the signature says is a `TypeError`.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from concurrent.futures import Executor
from functools import cache
from typing import TYPE_CHECKING, Unpack

from schematics.design.design import Design
from schematics.errors import UsageError
from schematics.library.arguments import (
    Measurements,
    PathLike,
    as_argument,
    design_of,
    gauge_of,
    given_of,
    item_of,
    kind_of,
    one_of,
    paper_of,
    path_of,
    texts_of,
)

if TYPE_CHECKING:
    from schematics.batch import BuildReport
    from schematics.checks.evaluation import Result
    from schematics.drawing.sheets import Page
    from schematics.fitting.fitting import Fitting
    from schematics.grading.grade import Graded
    from schematics.grading.reasons import GradedLength, Miss


class Results(Mapping[str, "Result"]):
    """The sizes of a design worked out and checked, by name and in the spec's order."""

    def __init__(self, design: Design, results: Sequence[Result]) -> None:
        self._path = design.path
        self._results = {result.size.name: result for result in results}

    def __getitem__(self, name: str) -> Result:
        sizes = ", ".join(map(repr, self))
        return item_of(self._results, name, f"{self._path}: no size {name!r}; the sizes are {sizes}")

    def __iter__(self) -> Iterator[str]:
        return iter(self._results)

    def __len__(self) -> int:
        return len(self._results)

    def __repr__(self) -> str:
        verdicts = ", ".join(f"{name!r}: {result.verdict.value}" for name, result in self.items())
        return f"<Results {verdicts}>"


class Sheets(Mapping[str | tuple[str, str], "Page"]):
    """The sheets of a design in the order of its workbook, each drawn when it is first asked for.

    Those of a size have its name and theirs as their key, ``("6", "pieces")``; those of the whole design
    their name alone, ``"nest"``.
    """

    def __init__(
        self,
        design: Design,
        results: Sequence[Result],
        paper: str = "a4",
        *,
        common_scale: bool = False,
        cloth: bool = True,
    ) -> None:
        from schematics.drawing.ink.sheet import PAPERS
        from schematics.drawing.sheets import Pages, setting_of

        self._path = design.path
        on = PAPERS[paper_of(paper)]
        given = setting_of(design, tuple(results), on, one_scale=common_scale, cloth=cloth)
        self._pages = Pages(given)
        self._places: dict[str | tuple[str, str], int] = {
            stem if size is None else (size, stem): place
            for place, (stem, size) in enumerate(self._pages.names)
        }
        self._draw = cache(self._pages.draw)

    def __getitem__(self, key: str | tuple[str, str]) -> Page:
        return self._draw(item_of(self._places, key, f"{self._path}: no sheet {key!r}; {self._names()}"))

    def __iter__(self) -> Iterator[str | tuple[str, str]]:
        return iter(self._places)

    def __len__(self) -> int:
        return len(self._places)

    def __contains__(self, key: object) -> bool:
        return key in self._places

    def __repr__(self) -> str:
        return f"<Sheets {self._names()}>"

    def _names(self) -> str:
        whole = [repr(key) for key in self._places if isinstance(key, str)]
        first = next(key[0] for key in self._places if not isinstance(key, str))
        sized = [repr(key) for key in self._places if not isinstance(key, str) and key[0] == first]
        return f"the sheets are {', '.join(whole)}, and of each size those like {', '.join(sized)}"


class Grading:
    """A design whose counts were found, and how: see `grade`."""

    def __init__(self, graded: Graded) -> None:
        self._graded = graded

    @property
    def design(self) -> Design:
        """The design with all its counts."""
        return self._graded.design

    @property
    def counts(self) -> dict[str, dict[str, float]]:
        """The counts of each size by their keys in the spec, such as ``body.neck``; those by hand too.

        They are whole but for ``body.increase_every``, which may be 1.5.
        """
        sizes = zip(self._graded.design.sizes, self._graded.solution.counts, strict=True)
        return {size.name: dict(counts) for size, counts in sizes}

    @property
    def lengths(self) -> dict[str, tuple[GradedLength, ...]]:
        """For each size the finished lengths in cm: what it is, what was meant, its tolerance."""
        from schematics.grading.reasons import rows

        return {case.size.name: tuple(rows(self._graded, case)) for case in self._graded.search.cases}

    @property
    def misses(self) -> tuple[Miss, ...]:
        """The lengths off by more than their tolerance, worst first, each with its reason if there is one.

        Grades anew without this rule and that, so it takes longer than the grading itself.
        """
        from schematics.grading.reasons import misses

        return misses(self._graded)

    @property
    def gap_cm(self) -> float | None:
        """How much less other counts might cost at most, in centimetres off; 0 if these are proven best.

        None where every count was given, so that none was found.
        """
        return None if self._graded.draft.complete else self._graded.solution.gap_cm

    @property
    def spec(self) -> str:
        """The text of the spec with the counts in it; all else is as it was. Nothing is written.

        Raises:
            UsageError: the counts cannot be put into the text.
        """
        from schematics.reading.writing import with_counts

        return with_counts(self._graded.draft, self._graded.solution.counts).decode("utf-8-sig")

    def __repr__(self) -> str:
        how = "every count given" if self.gap_cm is None else f"gap {self.gap_cm:.2f} cm"
        return f"<Grading of {self.design.path}, {how}>"


def read(path: PathLike) -> Design:
    """Read a spec; counts it leaves out are found by grading, and ``graded`` names those sizes.

    Raises:
        SchematicsError: there is no such file, or it cannot be used; ``problems`` has a text for each thing
            wrong in it, with file and line.

    >>> design = read("specs/tidepool.yaml")
    >>> [size.name for size in design.sizes]
    ['2', '4', '6', '8', '10', 'S', 'M']
    """
    from schematics.reading.design_file import read_design

    return read_design(path_of(path))


def evaluate(design: Design) -> Results:
    """Work out and check every size of a design.

    Returns:
        A mapping from a size's name to its result: counts in ``size``, lengths in ``garment``, the verdict
        and the findings.

    Raises:
        SchematicsError: wearers cannot be resolved; ``problems`` has a text for each size.

    >>> result = evaluate(read("specs/tidepool.yaml"))["6"]
    >>> result.verdict.value
    'good'
    >>> {each.key: round(each.length_cm, 1) for each in result.garment.finished}["body.hem"]
    174.7
    """
    return Results(design, _results(design))


def draw(design: Design, paper: str = "a4", *, common_scale: bool = False, cloth: bool = True) -> Sheets:
    """The sheets of a design, drawn when they are asked for; nothing is written.

    Args:
        design: what to draw; a size is drawn whatever its findings.
        paper: ``a4`` or ``letter``.
        common_scale: draw all sizes at one scale, so that prints compare; each as large as fits when False.
        cloth: whether there are sheets of how each size hangs; one takes some seconds when it is asked for.

    Returns:
        A mapping from names to pages with ``svg``, ``png`` and ``pdf``; see `Sheets`. In a notebook a page
        shows itself.

    Raises:
        SchematicsError: wearers cannot be resolved, or there is no such paper.

    >>> sheets = draw(read("specs/tidepool.yaml"))
    >>> sheets["6", "pieces"].svg[:19]
    '<?xml version="1.0"'
    >>> sheets["nest"].bookmark
    'nest'
    """
    return Sheets(design, _results(design), paper, common_scale=common_scale, cloth=cloth)


def draw_templates(
    design: Design, sizes: Sequence[str] | None = None, *, paper: str = "a4", whole: bool = False
) -> bytes:
    """The pieces at full size to block on, as a PDF: on pages to be joined, or each size ``whole`` on one.

    Raises:
        SchematicsError: wearers cannot be resolved, there is no such size or paper, or one is too large.
    """
    from schematics.checks.evaluation import choose
    from schematics.drawing.ink.sheet import PAPERS
    from schematics.drawing.templates.templates import templates_pdf

    results = choose(design, _results(design), _size_names(sizes))
    return templates_pdf(design, results, PAPERS[paper_of(paper)], whole=whole)


def write_pattern(
    design: Design, form: str = "md", *, sizes: Sequence[str] | None = None, terms: str | None = None
) -> str:
    """The pattern as its maker gets it, every piece row by row in all sizes.

    Args:
        design: what to write.
        form: ``md``, ``text``, ``html``, ``csv`` or ``json``.
        sizes: names of the sizes, all when None.
        terms: ``US`` or ``UK`` stitch names, the design's own choice when None.

    Raises:
        SchematicsError: wearers cannot be resolved, or there is no such form, size or terms.

    >>> write_pattern(read("specs/tidepool.yaml")).splitlines()[0]
    '# Tidepool poncho'
    """
    from schematics.checks.evaluation import choose
    from schematics.crochet.terms import Terms
    from schematics.document.writers import FORMS, written
    from schematics.pattern.written import written_pattern

    names = _size_names(sizes)
    results = choose(design, _results(design), names)
    words = None if terms is None else Terms(one_of(terms, [each.value for each in Terms], "terms"))
    document = written_pattern(design, results, words)
    return "".join(written([document], one_of(form, list(FORMS), "form")))


def grade(path: PathLike) -> Grading:
    """Find the counts a spec leaves out, and say how; nothing is written.

    Raises:
        SchematicsError: the spec cannot be used, or no counts keep all rules; the text names what clashes.

    >>> grading = grade("specs/tidepool.yaml")  # here every count is given
    >>> grading.counts["6"]["body.hem"], grading.design.graded
    (166, ())
    """
    from schematics.grading.grade import grade as find
    from schematics.reading.design_file import read_draft

    return Grading(find(read_draft(path_of(path))))


def fit(
    design: Design,
    *,
    age: float | None = None,
    gauge: str | Sequence[str] = (),
    **measurements: Unpack[Measurements],
) -> Fitting:
    """How a design fits one wearer, in every size. Nothing given is kept.

    Args:
        design: the pattern.
        age: in years; what is not measured is then read from the age table.
        gauge: the maker's own swatch of the body, ``20 sts 15 rows over 20 cm``, and of other fabrics,
            ``rib: 20 sts ...``; the pattern's where left out.
        measurements: by name, such as ``head_girth="52 cm"``; see `Measurements`.

    Returns:
        The advised size in ``advised``, every size in ``fits``, and in ``advice`` what would make it right.

    Raises:
        SchematicsError: nothing is known of the wearer, or a measurement, the age or the gauge cannot be
            used; ``problems`` has a text for each.

    >>> fitting = fit(read("specs/tidepool.yaml"), head_girth="52 cm", height="118 cm", age=6)
    >>> fitting.advised.name, fitting.wearable
    ('6', True)
    """
    from schematics.fitting.fitting import fitting
    from schematics.fitting.gauge_text import read_gauge
    from schematics.fitting.measured import given_wearer, resolved

    design = design_of(design)
    given, texts = given_of(age, measurements), gauge_of(gauge)
    try:
        wearer = resolved(given_wearer(given, design.unit))
        return fitting(design, design.sizes, wearer, read_gauge(texts, design).parts if texts else None)
    except UsageError as error:
        raise UsageError(*map(as_argument, error.problems)) from None


def build(
    design: Design,
    out: PathLike,
    *,
    sizes: Sequence[str] | None = None,
    paper: str = "a4",
    common_scale: bool = False,
    force: bool = False,
    templates: bool = False,
    cloth: bool = True,
    executor: Executor | None = None,
) -> BuildReport:
    """Draw a design and write all its files into the folder of its name in ``out``.

    What is there already and would come out the same is left alone; files the program did not write are
    never replaced unless ``force`` is given.

    Args:
        design: what to build.
        out: the folder that gets a folder for the design.
        sizes: names of the sizes whose sheets are written, all when None.
        paper: ``a4`` or ``letter``.
        common_scale: draw all sizes at one scale, so that prints compare; each as large as fits when False.
        force: make everything anew, and replace files that are not from this program.
        templates: whether those of each size are drawn too; see `draw_templates`.
        cloth: whether how each size hangs is drawn too, which takes some seconds of one that has changed.
        executor: who does the work; this process when None.

    Raises:
        SchematicsError: there is no such size or paper, a wearer cannot be resolved, a file of somebody else
            is in the way or one cannot be written.

    >>> report = build(read("specs/tidepool.yaml"), "output", sizes=["6"])  # doctest: +SKIP
    >>> report.folder, report.verdicts  # doctest: +SKIP
    (PosixPath('output/tidepool'), (('6', 'good'),))
    """
    from schematics.batch import build_design

    names = _size_names(sizes)
    if executor is not None and not hasattr(executor, "submit"):
        raise TypeError(f"expected an executor, such as of concurrent.futures, got {kind_of(executor)}")
    if names == []:
        raise UsageError("no size is named; leave sizes out for all")
    given = design_of(design), path_of(out), names, paper_of(paper)
    return build_design(
        *given, common_scale=common_scale, force=force, templates=templates, cloth=cloth, executor=executor
    )


def _results(design: Design) -> tuple[Result, ...]:
    from schematics.checks.evaluation import evaluate as worked_out

    return worked_out(design_of(design))


def _size_names(sizes: Sequence[str] | None) -> list[str] | None:
    return None if sizes is None else texts_of(sizes, "names of sizes, such as ['4', '6']")
