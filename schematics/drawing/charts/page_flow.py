"""Blocks laid onto as many pages as they need."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from functools import partial
from typing import Protocol, TypeVar

from schematics.drawing.ink.block import Block
from schematics.drawing.ink.marks import Group, Point
from schematics.drawing.ink.page import Box, block_size

T = TypeVar("T")
T_contra = TypeVar("T_contra", contravariant=True)


class MakesBlock(Protocol[T_contra]):
    """Makes a block of some parts; it is given whether they are the first."""

    def __call__(self, parts: Sequence[T_contra], /, *, first: bool) -> Block:
        """The block."""
        ...


GAP, GUTTER = 6.0, 8.0
"""Room under a block and beside it, in mm."""

_HAIR = 1e-6


@dataclass(frozen=True, slots=True)
class _Placed:
    block: Block
    box: Box


class PageFlow:
    """Lays blocks onto areas of ``width`` by ``height`` mm, each as high, then as far left, as there is room.

    ``heading`` is at the top of each page after the first.
    """

    def __init__(self, width: float, height: float, heading: Callable[[], Block]) -> None:
        self._width, self._height, self._heading = width, height, heading
        self._pages: list[list[_Placed]] = [[]]

    def add_heading(self, block: Block) -> None:
        """Place a block at the top of the page, with nothing beside it."""
        self._pages[-1].append(_Placed(block, Box(0.0, 0.0, self._width, block_size(block)[1])))

    def add(self, block: Block) -> None:
        """Place a block after those placed before, on the last page or a new one."""
        if not self.has_room(block):
            self._new_page()
        self._place(self._pages[-1], block)

    def has_room(self, block: Block) -> bool:
        """Whether there is room for a block on the last page."""
        return self._corner(self._pages[-1], block) is not None

    def add_in_parts(self, parts: Sequence[T], block: MakesBlock[T], *, together: bool = True) -> None:
        """Place what ``block`` makes of the parts on the first page that has room, or else on later ones.

        ``together``: it is only shared out over pages if one page cannot hold it.
        """
        whole = block(parts, first=True)
        for page in self._pages:
            if self._corner(page, whole) is not None:
                self._place(page, whole)
                return
        if together and block_size(whole)[1] <= self._height - block_size(self._heading())[1] - GAP:
            self.add(whole)
            return
        left, first = list(parts), True
        while left:
            number = self._most_that_fit(left, partial(block, first=first))
            if number == 0:
                self._new_page()
                number = max(1, self._most_that_fit(left, partial(block, first=first)))
            self._place(self._pages[-1], block(left[:number], first=first))
            left, first = left[number:], False

    def _most_that_fit(self, parts: Sequence[T], block: Callable[[Sequence[T]], Block]) -> int:
        low, high = 0, len(parts)
        while low < high:
            middle = (low + high + 1) // 2
            if self.has_room(block(parts[:middle])):
                low = middle
            else:
                high = middle - 1
        return low

    def pages(self, x: float, y: float) -> list[tuple[Group, ...]]:
        """The groups of each page, from a corner of the sheet."""
        return [
            tuple(group for each in page for group in each.block.at(x + each.box.x0, y + each.box.y0))
            for page in self._pages
        ]

    def _new_page(self) -> None:
        self._pages.append([])
        self.add_heading(self._heading())

    def _place(self, page: list[_Placed], block: Block) -> None:
        width, height = block_size(block)
        x, y = self._corner(page, block) or (0.0, max((each.box.y1 + GAP for each in page), default=0.0))
        page.append(_Placed(block, Box(x, y, x + width, y + height)))

    def _corner(self, page: list[_Placed], block: Block) -> Point | None:
        return _corner([each.box for each in page], block_size(block), (self._width, self._height))


def pages_needed(sizes: Iterable[Point], area: Point, heading: float) -> int:
    """Pages on which blocks of those sizes have room, with a heading so high on each after the first."""
    pages, boxes = 1, list[Box]()
    for size in sizes:
        corner = _corner(boxes, size, area)
        if corner is None:
            pages += 1
            boxes = [Box(0.0, 0.0, area[0], heading)]
            corner = _corner(boxes, size, area) or (0.0, heading + GAP)
        boxes.append(Box(*corner, corner[0] + size[0], corner[1] + size[1]))
    return pages


def _corner(boxes: Sequence[Box], size: Point, area: Point) -> Point | None:
    """The highest, then leftmost corner at which there is room beside the boxes; None if there is none."""
    xs = sorted({0.0, *(box.x1 + GUTTER for box in boxes)})
    ys = sorted({0.0, *(box.y1 + GAP for box in boxes)})
    taken = [Box(box.x0, box.y0, box.x1 + GUTTER - _HAIR, box.y1 + GAP - _HAIR) for box in boxes]
    for y in ys:
        for x in xs:
            room = Box(x, y, x + size[0] + GUTTER - _HAIR, y + size[1] + GAP - _HAIR)
            inside = x + size[0] <= area[0] + _HAIR and y + size[1] <= area[1] + _HAIR
            if inside and not any(room.meets(box) for box in taken):
                return x, y
    return None
