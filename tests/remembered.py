"""Drawings of designs that many tests build, laid out once in a process."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterator
from dataclasses import replace
from functools import partial
from pathlib import Path
from typing import Any

import pytest

from schematics.design.design import Design
from schematics.drawing.compose import Setting

_DRAWN: dict[Callable[..., Any], list[tuple[tuple[object, ...], Any]]] = defaultdict(list)
"""What each function gave, and of what."""


def remember_drawings(monkeypatch: pytest.MonkeyPatch) -> None:
    """Have sheets, bare drawings and the pattern's pictures drawn but once of designs that are equal."""
    from schematics.drawing import sheets
    from schematics.drawing.bare import drawings
    from schematics.pattern import pattern_files, published

    for registered in (sheets.DESIGN_SHEETS, sheets.SIZE_SHEETS):
        for stem, draw in [*registered.items()]:
            monkeypatch.setitem(registered, stem, partial(_once, draw))
    monkeypatch.setattr(drawings, "bare_drawings", partial(_once, drawings.bare_drawings))
    monkeypatch.setattr(pattern_files, "published_pattern", partial(_once, published.published_pattern))


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
