"""Designs that many tests read, draw and build, and advice that many ask for, made once in a process."""

from __future__ import annotations

import re
from collections import defaultdict, deque
from collections.abc import Callable, Iterator
from dataclasses import fields, replace
from functools import partial
from operator import is_
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest

from schematics.design.design import Design
from schematics.drawing.compose import Setting
from schematics.drawing.ink.sheet import Sheet
from schematics.drawing.ink.svg import to_svg

if TYPE_CHECKING:
    from schematics.checks.evaluation import Result
    from schematics.fitting.advice import Advice
    from schematics.fitting.workshop import Workshop
    from schematics.wearer.body import Wearer

_DRAWN: dict[Callable[..., Any], list[tuple[tuple[object, ...], Any]]] = defaultdict(list)
"""What each function gave, and of what."""
_ADVISED: deque[tuple[tuple[object, ...], Advice | None]] = deque(maxlen=100)
"""What was advised, and of what."""
_EVALUATED: deque[tuple[list[object], tuple[Result, ...]]] = deque(maxlen=50)
"""What designs were worked out to, and their parts."""
_MOST, _LONGEST = 50, 100_000
"""Texts of specs that are remembered, and their bytes."""
_OTHER_FILES = re.compile(rb"\b(file|logo|font)\b")
"""What a spec has from other files."""
_SVGS: dict[tuple[str, str, int, bool], list[tuple[Sheet, str]]] = defaultdict(list)
"""The SVG of each sheet, by what tells most sheets apart at once."""


def remember_reading(monkeypatch: pytest.MonkeyPatch) -> None:
    """Have the program read, grade and work out the same text of a spec but once.

    A design that comes with the program is known by its path. What is found wrong is found anew each time,
    and so is what a text says of other files.
    """
    from schematics import checks
    from schematics.checks import evaluation
    from schematics.reading import design_file
    from tests.shipped import SPECS, shipped_design

    honest, worked_out = design_file.read_design, evaluation.evaluate
    texts: dict[tuple[str, bytes], Design] = {}

    def once(path: Path) -> Design:
        if path.absolute() in SPECS:
            return replace(shipped_design(path.stem), path=path)
        content = path.read_bytes() if path.is_file() and not path.is_symlink() else None
        if content is None or len(content) > _LONGEST or _OTHER_FILES.search(content):
            return honest(path)
        of = path.name, content
        if of not in texts:
            texts[of] = honest(path)
            if len(texts) > _MOST:
                del texts[next(iter(texts))]
        return replace(texts[of], path=path)

    def evaluated_once(design: Design) -> tuple[Result, ...]:
        """Known by its parts, which are the same objects in the same text, and by what checks there are."""
        parts = [
            checks.FAMILIES,
            *(getattr(design, each.name) for each in fields(design) if each.name != "path"),
        ]
        for known, results in _EVALUATED:
            if all(map(is_, known, parts)):
                return results
        _EVALUATED.append((parts, worked_out(design)))
        return _EVALUATED[-1][1]

    monkeypatch.setattr(design_file, "read_design", once)
    monkeypatch.setattr(evaluation, "evaluate", evaluated_once)


def remember_drawings(monkeypatch: pytest.MonkeyPatch) -> None:
    """Have sheets and bare drawings drawn but once of designs that are equal."""
    from schematics.drawing import sheets
    from schematics.drawing.bare import drawings
    from schematics.drawing.ink import svg
    from schematics.pattern import published

    for registered in (sheets.DESIGN_SHEETS, sheets.SIZE_SHEETS):
        for stem, draw in [*registered.items()]:
            monkeypatch.setitem(registered, stem, partial(_once, draw))
    monkeypatch.setattr(drawings, "bare_drawings", partial(_once, drawings.bare_drawings))
    for module in (svg, sheets, published):
        monkeypatch.setattr(module, "to_svg", svg_once)


def remember_patterns(monkeypatch: pytest.MonkeyPatch) -> None:
    """Have the pattern's documents made but once of designs that are equal, their pictures in them."""
    from schematics.pattern import pattern_files

    for name in ("published_pattern", "pattern_documents"):
        monkeypatch.setattr(pattern_files, name, partial(_once, getattr(pattern_files, name)))


def remember_pictures(monkeypatch: pytest.MonkeyPatch) -> None:
    """Have the pattern's schematic and steps drawn but once of sizes that are equal."""
    from schematics.pattern import published

    for name in ("bare_schematic", "step_pictures"):
        monkeypatch.setattr(published, name, partial(_once, getattr(published, name)))
    monkeypatch.setattr(published, "to_svg", svg_once)


def remember_templates(monkeypatch: pytest.MonkeyPatch) -> None:
    """Have templates on pages to be joined drawn but once of sizes that are equal."""
    from schematics.drawing.templates import templates

    monkeypatch.setattr(templates, "tiled_templates", partial(_once, templates.tiled_templates))


def remember_advice(monkeypatch: pytest.MonkeyPatch) -> None:
    """Have changed counts looked for but once of a size, its fabrics and a wearer."""
    from schematics.fitting import fitting

    monkeypatch.setattr(fitting, "advise", _advised_once)


def remember_made(monkeypatch: pytest.MonkeyPatch) -> None:
    """Have a design made to measure but once for orders that are equal."""
    from schematics.fitting.to_measure import made_to_measure as made
    from schematics.library.web import maker_pages

    once = partial(_once, made.made_to_measure)
    for module in (made, maker_pages):
        monkeypatch.setattr(module, "made_to_measure", once)


def remembered(honest: Callable[..., Any]) -> Callable[..., Any]:
    """The function, which works only when it is given a file or an object that it has not been given yet.

    What it is given is kept, so that no other object takes its identity.
    """
    known: dict[tuple[Any, ...], tuple[Any, Any]] = {}

    def once(*given: Any) -> Any:
        key = tuple(each if isinstance(each, Path) else id(each) for each in given)
        if key not in known:
            known[key] = given, honest(*given)
        return known[key][1]

    return once


def _advised_once(workshop: Workshop, wearer: Wearer) -> Advice | None:
    from schematics.fitting.advice import advise

    of = wearer, workshop.pattern.size, workshop.pattern.parts, workshop.design
    for known, advice in _ADVISED:
        if known == of:
            return advice
    _ADVISED.append((of, advise(workshop, wearer)))
    return _ADVISED[-1][1]


def svg_once(sheet: Sheet, *, shared: bool = False) -> str:
    """The SVG of a sheet, written once of sheets that are equal."""
    alike = _SVGS[sheet.title, sheet.description, len(sheet.groups), shared]
    for known, written in alike:
        if known == sheet:
            return written
    alike.append((sheet, to_svg(sheet, shared=shared)))
    return alike[-1][1]


def _once(draw: Callable[..., Any], *arguments: object) -> Any:
    of = tuple(map(_wherever, arguments))
    for known, drawn in _DRAWN[draw]:
        if known == of:
            return drawn
    drawn = draw(*arguments)
    drawn = tuple(drawn) if isinstance(drawn, Iterator) else drawn
    _DRAWN[draw].append((of, drawn))
    return drawn


def _wherever(argument: object) -> object:
    """A design is drawn alike wherever its file is."""
    if isinstance(argument, Setting):
        return _wherever(argument.design), argument.results, argument.paper, argument.scale
    return replace(argument, path=Path()) if isinstance(argument, Design) else argument
