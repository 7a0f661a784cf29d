"""One design on its way to disk: which pieces of work it takes, and what becomes of each."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import asdict, dataclass
from functools import cache, partial
from pathlib import Path
from typing import Any

from schematics.batch import work
from schematics.batch.digest import digest, program_digest, sha256
from schematics.batch.folder import Committed, DesignFolder
from schematics.batch.manifest import Manifest
from schematics.batch.outcome import BuildReport, Failure
from schematics.batch.pool import WorkStep
from schematics.batch.source import Source
from schematics.errors import SchematicsError, UsageError
from schematics.reading.files.saving import DiskFullError

_FORMS = ("svg", "png", "pdf")


@dataclass(frozen=True, slots=True, kw_only=True)
class Options:
    """What to build of a design.

    ``sizes`` are names, all when None. With ``common_scale`` sheets of flat pieces are drawn at one scale in
    all sizes, and so are those of standing figures. ``force`` makes everything anew and replaces files of
    others; ``prune`` removes the program's files of sizes a design no longer has. ``eager`` puts the sheets
    of sizes whose part of the spec was changed in place first, their SVGs before all, the rest when all is
    there. ``templates`` has those of each size drawn too; they are many pages. ``terms`` are ``US`` or
    ``UK`` stitch names, the design's own choice when None. With ``cloth`` each size is hung on cloth, which
    takes some seconds of one that is not as it was.
    """

    sizes: tuple[str, ...] | None = None
    paper: str = "a4"
    common_scale: bool = False
    force: bool = False
    prune: bool = False
    eager: bool = False
    templates: bool = False
    terms: str | None = None
    cloth: bool = False


class Job:
    """A source from its reading to its last file. ``outcome`` is None until it has come to its end.

    A batch keeps all its jobs: with its outcome a job lets go of everything else.
    """

    def __init__(self, source: Source, out: Path, options: Options) -> None:
        self._source, self._options = source, options
        self._path = out / source.slug
        self._folder: DesignFolder | None = None
        self._plan: work.Plan
        self._urgent: set[int] = set()
        self._unseen: set[int] = set()
        self._first: list[str] = []
        self._unplaced: dict[int, tuple[str, ...]] = {}
        self._bare_unplaced: dict[work.BareSet, tuple[str, ...]] = {}
        self._without_templates: dict[str, str] = {}
        self._problems: dict[str, None] = {}
        self._words: tuple[tuple[str, bytes], ...] = ()
        self._left = self._steps = 0
        self.outcome: BuildReport | Failure | None = None

    @property
    def share(self) -> float:
        """How much of it is done, from 0 to 1."""
        if self.outcome is not None:
            return 1.0
        return 1 - (self._left + 1) / (self._steps + 1) if self._steps else 0.0

    def is_current(self) -> bool:
        """Whether nothing is to be done, or nothing can be; then it has come to its end. Changes nothing."""
        try:
            folder = DesignFolder(self._path, self._options.force)
            if not self._source.digest or not folder.is_current(self._key, self._options.sizes):
                return False
            if not self._has_templates(folder):
                return False
            orphans = tuple(place for place in folder.manifest.orphans if folder.on_disk(place))
            if orphans and self._options.prune:
                return False
            self.outcome = self._report(folder, Committed(written=(), edited=(), orphans=orphans, removed=()))
        except SchematicsError as error:
            self._fail(error)
        return True

    def _has_templates(self, folder: DesignFolder) -> bool:
        """Whether those that are asked for are among the files of the folder."""
        asked = (size.name for size in folder.manifest.sizes if self._is_asked(size.name))
        return not self._options.templates or all(
            work.templates_place(name) in folder.manifest.files for name in asked
        )

    def first_step(self) -> WorkStep:
        """The piece of work all else comes of."""
        options = self._options
        return WorkStep(
            work.plan,
            (self._source, options.paper, options.sizes, options.common_scale, options.terms, options.cloth),
            self._guarded(self._planned),
        )

    def close(self) -> None:
        """Leave nothing waiting, if it has not come to its end."""
        if self.outcome is None and self._folder is not None:
            self._folder.discard()

    @property
    def _key(self) -> str:
        options = self._options
        return work.key_of(
            self._source,
            options.paper,
            common_scale=options.common_scale,
            terms=options.terms,
            cloth=options.cloth,
        )

    def _guarded(self, then: Callable[[Any], Iterable[WorkStep]]) -> Callable[[Any], Iterable[WorkStep]]:
        """What comes of a result, unless the design has failed or fails there."""

        def guarded(result: Any) -> Iterable[WorkStep]:
            if self.outcome is not None:
                return ()
            try:
                return tuple(then(result))
            except SchematicsError as error:
                self._fail(error)
                if isinstance(error, DiskFullError):
                    raise
                return ()

        return guarded

    def _fail(self, error: SchematicsError) -> None:
        self.close()
        self.outcome = Failure(path=self._source.path, error=error)

    def _planned(self, plan: work.Plan | str) -> Iterator[WorkStep]:
        if isinstance(plan, str):
            raise UsageError(plan)
        self._plan = plan
        self._folder = folder = DesignFolder(self._path, self._options.force)
        folder.clear()
        extra = len(self._templated_sizes()) + len(self._bare_asked())
        self._left = self._steps = 4 + len(plan.pages) + extra
        self._urgent = self._to_be_first()
        if not self._urgent:
            yield from self._everything(frozenset())
        self._unseen = set(self._urgent)
        for index in sorted(self._urgent):
            arguments = (plan.work, index, None, frozenset[str]())
            yield WorkStep(work.draw, arguments, self._guarded(partial(self._seen, index)))

    def _seen(self, index: int, drawn: work.Drawn) -> Iterator[WorkStep]:
        """The SVGs a designer waits for are in place before anything is rendered."""
        place = self._places(index)[_FORMS.index("svg")]
        if drawn.svg is not None:
            self._stage(place, drawn.svg, self._plan.pages[index][1], drawn.source)
        self._first.append(place)
        self._unseen.remove(index)
        if not self._unseen:
            self._opened.advance(self._manifest(), self._all_places(), self._first)
            yield from self._everything(frozenset(self._urgent))

    def _everything(self, first: frozenset[int]) -> Iterator[WorkStep]:
        plan, pages = self._plan, range(len(self._plan.pages))
        yield from (self._draw(index) for index in sorted(first))
        yield WorkStep(work.maker_page, (plan.work,), self._guarded(self._written))
        yield WorkStep(work.pattern, (plan.work,), self._guarded(self._written))
        yield WorkStep(work.numbers, (plan.work,), self._guarded(self._written))
        yield WorkStep(work.workbook_words, (plan.work,), self._guarded(self._worded))
        yield from (self._draw(index) for index in pages if index not in first)
        for size in self._templated_sizes():
            then = self._guarded(partial(self._templated, size))
            yield WorkStep(work.templates, (plan.work, size), then)
        yield from map(self._draw_bare, self._bare_asked())

    def _templated_sizes(self) -> list[str]:
        """Those whose templates are to be drawn."""
        names = (size.name for size in self._plan.sizes if self._options.templates)
        return [name for name in names if self._is_asked(name)]

    def _templated(self, size: str, templates: bytes | str) -> Iterator[WorkStep]:
        if isinstance(templates, bytes):
            self._stage(work.templates_place(size), templates, size, sha256(templates))
        elif templates:
            self._without_templates[size] = templates
        yield from self._one_less()

    def _draw(self, index: int) -> WorkStep:
        size = self._plan.pages[index][1]
        forms = frozenset({"png", "pdf"} if self._is_asked(size) else {"pdf"})
        current = self._opened.source_of(self._places(index))
        arguments = (self._plan.work, index, current, forms)
        return WorkStep(work.draw, arguments, self._guarded(partial(self._drawn, index)))

    def _draw_bare(self, of: work.BareSet) -> WorkStep:
        arguments = (self._plan.work, of, self._opened.source_of(self._bare_places(of)))
        return WorkStep(work.draw_bare, arguments, self._guarded(partial(self._bare_drawn, of)))

    def _bare_asked(self) -> list[work.BareSet]:
        return [of for of, _ in self._plan.bare if self._is_asked(of.size)]

    def _bare_places(self, of: work.BareSet) -> list[str]:
        """The places of a set's bare drawings, in all forms."""
        places = dict(self._plan.bare)[of]
        return [f"{place}.{form}" for place in places for form in _FORMS]

    def _bare_drawn(self, of: work.BareSet, drawn: work.BareDrawn) -> Iterator[WorkStep]:
        self._bare_unplaced[of] = drawn.unplaced
        if drawn.problem:
            self._problems[drawn.problem] = None
        if drawn.files is None:
            for place in self._bare_places(of):
                self._opened.keep(place, self._plan.work.key)
        else:
            for place, content in drawn.files.items():
                self._stage(place, content, of.size, drawn.source)
        yield from self._one_less()

    def _written(self, files: Mapping[str, bytes]) -> Iterator[WorkStep]:
        for place, content in files.items():
            self._stage(place, content, None, sha256(content))
        yield from self._one_less()

    def _worded(self, words: tuple[tuple[str, bytes], ...]) -> Iterator[WorkStep]:
        self._words = words
        yield from self._one_less()

    def _drawn(self, index: int, drawn: work.Drawn) -> Iterator[WorkStep]:
        self._unplaced[index] = drawn.unplaced
        if drawn.problem:
            self._problems[drawn.problem] = None
        size = self._plan.pages[index][1]
        for place, content in zip(self._places(index), (drawn.svg, drawn.png, drawn.pdf), strict=True):
            if drawn.svg is None:
                self._opened.keep(place, self._plan.work.key)
            elif content is not None:
                self._stage(place, content, size, drawn.source)
        self._first_in_place(index)
        yield from self._one_less()

    def _to_be_first(self) -> set[int]:
        """The pages to be in place at once: those of sizes with something new in the spec, but slow ones."""
        before = set(self._opened.manifest.sizes)
        changed = {size.name for size in self._plan.sizes if size not in before and self._is_asked(size.name)}
        pages = {index for index, (_, size) in enumerate(self._plan.pages) if size in changed}
        return pages - self._plan.slow if self._options.eager else set()

    def _first_in_place(self, index: int) -> None:
        if index not in self._urgent:
            return
        self._urgent.remove(index)
        self._first += self._places(index)
        if not self._urgent:
            self._opened.advance(self._manifest(), self._all_places(), self._first)

    def _one_less(self) -> Iterator[WorkStep]:
        self._left -= 1
        if self._left:
            return
        if self._problems:
            self._commit()
            return
        bookmarks = [_bookmark(*page) for page in self._plan.pages]
        pages = [self._places(index)[_FORMS.index("pdf")] for index in range(len(self._plan.pages))]
        hashes = [self._opened.hash(place) for place in pages]
        before, *after = self._words
        hashes += [sha256(content) for _, content in self._words]
        source = digest(program_digest(), self._plan.title, *bookmarks, *hashes)
        if self._opened.source_of([work.WORKBOOK]) == source:
            self._opened.keep(work.WORKBOOK, self._plan.work.key)
            self._commit()
            return
        bound = [(words, self._opened.content(place)) for words, place in zip(bookmarks, pages, strict=True)]
        arguments = ([before, *bound, *after], self._plan.title)
        yield WorkStep(work.bind, arguments, self._guarded(partial(self._bound, source)))

    def _bound(self, source: str, workbook: bytes) -> Iterator[WorkStep]:
        self._stage(work.WORKBOOK, workbook, None, source)
        self._commit()
        yield from ()

    def _commit(self) -> None:
        plan, folder = self._plan, self._opened
        for index, (_, size) in enumerate(plan.pages):
            if not self._is_asked(size):
                folder.drop(self._places(index))
        committed = folder.commit(self._manifest(), self._all_places(), prune=self._options.prune)
        self.outcome = self._report(folder, committed)
        self._folder, self._words = None, ()
        del self._plan

    def _all_places(self) -> set[str]:
        pages = range(len(self._plan.pages))
        sheets = {place for index in pages for place in self._places(index)}
        bare = {place for of, _ in self._plan.bare for place in self._bare_places(of)}
        return (
            sheets
            | bare
            | {work.WORKBOOK, work.MEASUREMENTS, work.PAGE, *work.FIGURES}
            | {*work.pattern_places(self._plan.work.paper)}
            | {*self._templates_places()}
        )

    def _templates_places(self) -> Iterator[str]:
        """Those of templates that are asked for, or were drawn of the same design before."""
        files = self._opened.manifest.files
        for size in self._plan.sizes:
            place = work.templates_place(size.name)
            if self._options.templates or (place in files and files[place].key == self._plan.work.key):
                yield place

    def _manifest(self) -> Manifest:
        plan = self._plan
        return Manifest(
            key=None if self._problems else plan.work.key,
            title=plan.title,
            sizes=plan.sizes,
            unplaced=(
                *self._unplaced_on_sheets(),
                *self._unplaced_on_bare(),
                *sorted(self._without_templates.items()),
            ),
        )

    def _unplaced_on_sheets(self) -> Iterator[tuple[str | None, str]]:
        for index, names in sorted(self._unplaced.items()):
            stem, size = self._plan.pages[index]
            yield from (
                (size, f"{_bookmark(stem, size, 'all sizes, ')}: no room for {each}") for each in names
            )

    def _unplaced_on_bare(self) -> Iterator[tuple[str | None, str]]:
        for of, _ in self._plan.bare:
            for each in self._bare_unplaced.get(of, ()):
                yield of.size, f"no room for {each}"

    def _report(self, folder: DesignFolder, committed: Committed) -> BuildReport:
        path = cache(self._path.joinpath)

        def paths(places: Iterable[str]) -> tuple[Path, ...]:
            return tuple(map(path, places))

        manifest = folder.manifest
        problem = "no PNG or PDF was drawn, any there are from an earlier build"
        return BuildReport(
            path=self._source.path,
            folder=self._path,
            title=manifest.title,
            verdicts=tuple((size.name, size.verdict) for size in manifest.sizes if self._is_asked(size.name)),
            files=paths(
                place
                for place, entry in manifest.files.items()
                if self._is_asked(entry.size) and folder.on_disk(place)
            ),
            **{what: paths(places) for what, places in asdict(committed).items()},
            problems=tuple(f"{problem}: {each}" for each in self._problems),
            unplaced=tuple(
                f"{self._source.path}: {what}" for size, what in manifest.unplaced if self._is_asked(size)
            ),
            asked=tuple(
                f"{self._source.path}: size {size.name}: {sentence}"
                for size in manifest.sizes
                if self._is_asked(size.name)
                for sentence in size.asked
            ),
            graded=tuple(size.name for size in manifest.sizes if size.graded),
            size_count=len(manifest.sizes),
        )

    def _is_asked(self, size: str | None) -> bool:
        return size is None or self._options.sizes is None or size in self._options.sizes

    def _stage(self, place: str, content: bytes, size: str | None, source: str) -> None:
        self._opened.stage(place, content, size=size, key=self._plan.work.key, source=source)

    def _places(self, index: int) -> tuple[str, ...]:
        """The places of a page's files, in the order of the forms."""
        stem, size = self._plan.pages[index]
        return tuple(f"{stem}.{form}" if size is None else f"{size}/{stem}.{form}" for form in _FORMS)

    @property
    def _opened(self) -> DesignFolder:
        if self._folder is None:
            raise RuntimeError("a result came before the plan")
        return self._folder


def _bookmark(stem: str, size: str | None, whole: str = "") -> str:
    return f"{whole if size is None else f'size {size}, '}{stem}"
