"""The layers of a drawing, so that a designer can hide or restyle one of them in her own editor."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

from schematics.document.contrast import BLACK, as_ground
from schematics.drawing.ink.marks import Area, Group, Mark, Pen, Text
from schematics.drawing.ink.sheet import BareInk

_LAYERS = {
    "tint": "colours",
    "motif": "texture",
    "texture": "texture",
    "increases": "texture",
    "border": "texture",
    "wrong-side": "texture",
    "outline": "outline",
    "fabric": "outline",
    "band": "outline",
    "break": "outline",
    "crease": "lines",
    "fold": "lines",
    "work": "lines",
    "dimension": "dimensions",
    "leader": "dimensions",
    "note": "dimensions",
    "caption": "labels",
    "table": "table",
}
"""The layer of a group's lines by its kind, the lowest first. All words but a table's are labels."""

_ON_SHEETS = {
    **_LAYERS,
    **dict.fromkeys(("garment", "panel", "figure", "face"), "outline"),
    **dict.fromkeys(("cells", "stitch", "row", "section", "stitch-repeat", "side", "key"), "chart"),
    **dict.fromkeys(("marker-number", "seam-letter", "size", "level", "join"), "labels"),
    **dict.fromkeys(("steps", "checks", "cautions", "cover"), "words"),
    **dict.fromkeys(("frame", "title"), "page"),
}
"""The layer of a whole group of a sheet by its kind, in the same order as those of bare drawings."""

_WORDS = "labels"
_OTHERS = "lines"


def layered(groups: Iterable[Group]) -> Iterator[tuple[str, list[Group]]]:
    """Each layer that has something in it, the lowest first.

    A group of lines and words is parted: the words, as a group of the same name, go to the labels.
    """
    layers: dict[str, list[Group]] = {layer: [] for layer in _LAYERS.values()}
    for group in groups:
        layer = _LAYERS.get(group.kind, _OTHERS)
        lines: tuple[Mark, ...] = group.marks
        if layer != "table":
            lines = tuple(mark for mark in group.marks if not isinstance(mark, Text))
            words = tuple(mark for mark in group.marks if isinstance(mark, Text))
            if words:
                layers[_WORDS].append(Group("label", group.name, words))
        if lines:
            layers[layer].append(replace(group, marks=lines))
    return ((layer, within) for layer, within in layers.items() if within)


def sheet_layers(groups: Iterable[Group]) -> Iterator[tuple[str, list[Group]]]:
    """Each layer of a sheet that has something in it, the lowest first; groups stay whole."""
    layers: dict[str, list[Group]] = {layer: [] for layer in _ON_SHEETS.values()}
    for group in groups:
        layers[_ON_SHEETS.get(group.kind, _OTHERS)].append(group)
    return ((layer, within) for layer, within in layers.items() if within)


def colour_of(mark: Mark, ink: BareInk | None) -> str | None:
    """The colour of a mark that is not black: bold words have the accent, so that it says nothing by itself.

    A face in a yarn's shade is light enough for black and for the accent.
    """
    accent = ink.accent if ink else None
    if isinstance(mark, Area) and mark.pen is Pen.TINT:
        return as_ground(mark.shade, accent or BLACK)
    return accent if isinstance(mark, Text) and mark.bold else None
