"""The designer's own view: a design as she edits it, drawn anew at each save, one size of it.

What was drawn last stays while the spec is broken, beside what is to be mended. Only here is anything
remembered between two requests: the last draft of each spec.
"""

from __future__ import annotations

import asyncio
import threading
from collections.abc import Callable, Sequence
from concurrent.futures import BrokenExecutor, Executor
from dataclasses import dataclass, replace
from pathlib import Path

from schematics.analysis.check_report import check_document
from schematics.batch.watch import rounds
from schematics.checks.evaluation import evaluate
from schematics.design.design import Design
from schematics.document.document import plain
from schematics.document.html import blocks_html, picture_address
from schematics.drawing.bare.rooms import cropped
from schematics.drawing.ink.svg import to_svg
from schematics.drawing.sheets import SIZE_SHEETS, setting_of
from schematics.errors import SchematicsError
from schematics.grading.draft import Draft, DraftSize
from schematics.grading.grade import grade
from schematics.library.web.maker_pages import cards
from schematics.library.web.pages import rendered
from schematics.library.web.reply import Reply
from schematics.reading.design_file import read_draft
from schematics.reading.files.saving import reason

_LONGEST_WAIT = 20.0
"""Seconds that an answer is held back for while nothing is saved."""
_SHEET = "pieces"


@dataclass(frozen=True, slots=True, kw_only=True)
class DraftView:
    """One size of a spec as it was saved last, or what is wrong with it.

    ``findings`` are headings with what is under each as HTML, the verdict first; ``picture`` is the
    address of the drawing, ``stale`` where it is that of an earlier save.
    """

    title: str = ""
    sizes: tuple[str, ...] = ()
    size: str = ""
    note: str = ""
    findings: tuple[tuple[str, str], ...] = ()
    picture: str = ""
    shows: str = ""
    stale: bool = False
    problems: tuple[str, ...] = ()


def draft_view(path: Path, size: str) -> DraftView:
    """The size of that name, the middle one where there is none, drawn from the spec as it is now."""
    try:
        draft = read_draft(path)
        chosen = next((each for each in draft.sizes if each.name == size), draft.sizes[len(draft.sizes) // 2])
        design = _of_one_size(draft, chosen)
    except SchematicsError as error:
        return DraftView(problems=error.problems)
    except OSError as error:
        return DraftView(problems=(f"{path}: {reason(error)}",))
    results = evaluate(design)
    setting = replace(setting_of(design, results), draft=True)
    drawing = SIZE_SHEETS[_SHEET](setting, results[0])
    sheet = cropped(drawing.groups, drawing.title, drawing.description, scale=drawing.scale)
    document = check_document(design, results, show_all=False)
    return DraftView(
        title=design.title,
        sizes=tuple(each.name for each in draft.sizes),
        size=chosen.name,
        note="Counts left out were found for this size alone." if design.graded else "",
        findings=tuple((plain(each.heading), blocks_html(each, 3)) for each in document.sections),
        picture=picture_address(to_svg(sheet)),
        shows=sheet.description,
    )


def _of_one_size(draft: Draft, size: DraftSize) -> Design:
    """The design of that size alone; counts it leaves out are found, beside those of the sample at most."""
    if not draft.missing(size):
        return replace(draft, sizes=(size,)).design()
    sample = draft.wishes.sample if draft.wishes else None
    needed = tuple(each for each in draft.sizes if each.name in (sample, size.name))
    design = grade(replace(draft, sizes=needed)).design
    (one,) = (each for each in design.sizes if each.name == size.name)
    return replace(design, sizes=(one,))


class Drafts:
    """The specs that are edited, each with what was drawn of it last.

    Args:
        paths: the specs, no two with the same name.
        processes: makes an executor that draws.
    """

    def __init__(self, paths: Sequence[Path], processes: Callable[[], Executor]) -> None:
        self._paths = {path.stem: path for path in paths}
        self._processes, self._executor = processes, processes()
        self._saves = dict.fromkeys(self._paths, 0)
        self._saved = {slug: asyncio.Event() for slug in self._paths}
        self._drawing = {slug: asyncio.Lock() for slug in self._paths}
        self._kept: dict[str, tuple[str, int, DraftView]] = {}
        self._end = threading.Event()

    @property
    def slugs(self) -> tuple[str, ...]:
        """The names by which they are asked for."""
        return tuple(self._paths)

    def list_page(self, designs: Sequence[Design]) -> Reply:
        """The first page: what is edited, and what makers may have."""
        return rendered("designs.html.j2", designs=cards(designs), drafts=self.slugs)

    async def follow(self) -> None:
        """Hear of every save until `stop`."""
        loop = asyncio.get_running_loop()

        def watch() -> None:
            for seen in rounds(lambda: tuple(self._paths.values()), self._end):
                loop.call_soon_threadsafe(self._heard, (*seen.changed, *seen.gone))

        await asyncio.to_thread(watch)

    def stop(self) -> None:
        """Hear of nothing more, and let nobody wait."""
        self._end.set()
        self._heard(tuple(self._paths.values()))

    def close(self) -> None:
        """End what draws."""
        self._executor.shutdown(cancel_futures=True)

    def _heard(self, paths: Sequence[Path]) -> None:
        for slug in (path.stem for path in paths):
            self._saves[slug] += 1
            heard, self._saved[slug] = self._saved[slug], asyncio.Event()
            heard.set()

    async def page(self, slug: str, size: str, seen: str) -> Reply | None:
        """The page of a spec as it was saved last.

        Args:
            slug: its name.
            size: that of the size to show.
            seen: the number of the save that was shown last; the next is waited for.

        Returns:
            None where nothing was saved for a while.
        """
        if seen == str(self._saves[slug]):
            try:
                await asyncio.wait_for(self._saved[slug].wait(), _LONGEST_WAIT)
            except TimeoutError:
                return None
        async with self._drawing[slug]:
            number, view = await self._view(slug, size)
        return rendered("draft.html.j2", slug=slug, number=number, view=view, up="../")

    async def _view(self, slug: str, size: str) -> tuple[int, DraftView]:
        number = self._saves[slug]
        kept_size, kept_number, kept = self._kept.get(slug, ("", -1, DraftView()))
        if (kept_size, kept_number) == (size, number):
            return number, kept
        loop = asyncio.get_running_loop()
        try:
            view = await loop.run_in_executor(self._executor, draft_view, self._paths[slug], size)
        except BrokenExecutor:
            self._executor = self._processes()
            raise
        if view.problems:
            view = replace(kept, problems=view.problems, stale=True)
        self._kept[slug] = size, number, view
        return number, view
