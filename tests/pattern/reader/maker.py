"""The independent reader: works a pattern's Markdown in one size, stitch by stitch, and nothing else.

It knows the text alone and the trade's words: no garment, no chart, no spec. It ends with what it has in
hand, or raises `CannotWorkError` where the text cannot be worked or prints what is not so.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache

from tests.pattern.reader.bands import work_band
from tests.pattern.reader.complaint import CannotWorkError, agree
from tests.pattern.reader.edges import Arms, arms, neck_edge
from tests.pattern.reader.held import held
from tests.pattern.reader.joins import Meeting, grid_under, meeting, quarters
from tests.pattern.reader.page import Block, Grid, Page, Words, read_page
from tests.pattern.reader.piece import Piece
from tests.pattern.reader.pieces import Body, work_body, work_panel
from tests.pattern.reader.sizes import Chosen, listed_names, sizes_of
from tests.pattern.reader.stitches import Vocabulary


@dataclass(frozen=True)
class Finished:
    """What is in hand at the end: stitches and rows of every part, edges, marked places."""

    body_neck: int
    body_hem: int
    body_rows: int
    body_stitches: int
    """Of all its rows."""
    increase_rows: tuple[int, ...]
    """The rows of the body that have more stitches than the row before."""
    front_rows: int
    shoulder_fold: int
    neck_hole: int
    chained: int
    panel_foot: int
    panel_top: int
    panel_rows: int
    panel_stitches: int
    """Of all its rows."""
    neck_edge: int
    neck_band_stitches: int
    neck_band_rows: int
    arm_edge: int
    arm_band_stitches: int
    arm_band_rows: int
    arm_right: tuple[int, int]
    arm_left: tuple[int, int]
    side_seams: int


def sizes_in(markdown: str) -> tuple[str, ...]:
    """The sizes a pattern is written in, in its order."""
    return _sizes(read_page(markdown))


@lru_cache(64)
def make(markdown: str, size: str) -> Finished:
    """Work the whole pattern in that size."""
    page = read_page(markdown)
    chosen, vocabulary = chosen_in(page, size), vocabulary_of(page)
    _same_order(page, chosen)
    held(page)
    body = work_body(_section(page, "Body"), chosen, vocabulary)
    panel = work_panel(_section(page, "Centre panel"), chosen, vocabulary)
    front = _seams(_section(page, "Seams"), chosen, body, panel)
    marked = arms(_section(page, "Markers for the arm bands"), _section(page, "Arm bands"), chosen, body)
    _enough_markers(page, body)
    edge = neck_edge(_section(page, "Neck band"), chosen, body, panel.count)
    neck = work_band("Neck band", _section(page, "Neck band"), chosen, vocabulary, edge)
    arm = work_band("Arm bands", _section(page, "Arm bands"), chosen, vocabulary, marked.edge)
    return Finished(
        body_neck=body.first_row,
        body_hem=body.last_row,
        body_rows=body.rows,
        body_stitches=body.stitches,
        increase_rows=body.increase_rows,
        front_rows=front,
        shoulder_fold=body.shoulders[0].marked if body.shoulders else 0,
        neck_hole=body.left,
        chained=body.shoulders[0].chained if body.shoulders else 0,
        panel_foot=len(panel.rows[0].stitches),
        panel_top=panel.count,
        panel_rows=panel.number,
        panel_stitches=sum(len(row.stitches) for row in panel.rows[1:]),
        neck_edge=edge,
        neck_band_stitches=neck.stitches,
        neck_band_rows=neck.rows,
        arm_edge=marked.edge,
        arm_band_stitches=arm.stitches,
        arm_band_rows=arm.rows,
        arm_right=marked.right,
        arm_left=marked.left,
        side_seams=_side_seams(page, chosen, body, marked),
    )


def chosen_in(page: Page, size: str) -> Chosen:
    """The size among those that the page is written in."""
    return Chosen(_sizes(page), size)


def vocabulary_of(page: Page) -> Vocabulary:
    """The stitches that the pattern explains or calls by name."""
    head = " ".join(block.text for block in page[""] if isinstance(block, Words))
    terms = re.search(r"\b(US|UK) terms\.", head)
    if terms is None:
        raise CannotWorkError("Title", "it is not told whose terms these are")
    explained = {
        name
        for block in _section(page, "Abbreviations")
        if isinstance(block, Grid)
        for row in block.rows
        for name in row[0].split(", ")
    }
    named = {
        block.text.rsplit(", ", 1)[-1]
        for block in _section(page, "Tension" if "Tension" in page else "Gauge")
        if isinstance(block, Words) and re.search(r" rows to ", block.text)
    }
    return Vocabulary(terms[1] == "UK", frozenset(explained), frozenset(named))


def _section(page: Page, heading: str) -> list[Block]:
    if heading not in page:
        raise CannotWorkError(heading, "the pattern has no such part")
    return page[heading]


def _sizes(page: Page) -> tuple[str, ...]:
    first = _section(page, "Sizes")[0]
    return sizes_of(first.text) if isinstance(first, Words) else ()


def _same_order(page: Page, chosen: Chosen) -> None:
    """The notes tell the order of the sizes once more."""
    for block in _section(page, "Notes"):
        match = re.search(r"in the order (.+); a single", block.text) if isinstance(block, Words) else None
        if match and sizes_of(f"Sizes {match[1]}.") != chosen.names:
            raise CannotWorkError("Notes", f"the sizes are in another order: {match[1]}")


def _enough_markers(page: Page, body: Body) -> None:
    """As many markers are to be bought, if it is told how many, as hang at one time."""
    lines = max(len(row.markers) for row in body.piece.rows)
    hanging = max(lines, 4 + len(body.shoulders))
    for block in page.get("Materials", []):
        match = re.match(r"(\d+) .*markers?$", block.text) if isinstance(block, Words) else None
        if match and int(match[1]) < hanging:
            raise CannotWorkError("Materials", f"{hanging} markers hang at one time, {match[1]} are listed")


def _seams(blocks: list[Block], chosen: Chosen, body: Body, panel: Piece) -> int:
    """Sew the panel in; the rows of a front edge."""
    where = "Seams A and B"
    grid = grid_under(blocks, where)
    if grid is None:
        raise CannotWorkError(where, "no table tells how the row ends meet")
    met = meeting(grid, chosen, where)
    first, last = body.front_rows
    agree(where, "body row ends", met.first, last - first + 1 if first else met.first)
    agree(where, "panel row ends", met.second, panel.number)
    _quarters(blocks, chosen, met, last, where)
    return met.first


def _quarters(blocks: list[Block], chosen: Chosen, met: Meeting, last: int, where: str) -> None:
    """The marked rows; the first edge begins with the body's last row, the second with row 1."""
    for block in blocks:
        if isinstance(block, Grid) and block.header[0] == "marker":
            quarters(block, chosen, met, last, where)


def _side_seams(page: Page, chosen: Chosen, body: Body, marked: Arms) -> int:
    """Sew up the sides; the row ends of the front that are sewn, 0 where they stay open."""
    if "Side seams" not in page:
        return 0
    blocks, where = page["Side seams"], "Seams C and D"
    own: Chosen | None = chosen
    for block in blocks:
        if isinstance(block, Words) and (match := re.match(r"Sizes? (.+?) only: ", block.text)):
            own = chosen.among(listed_names(match[1]))
    if own is None:
        return 0
    grid = grid_under(blocks, where)
    if grid is None:
        raise CannotWorkError(where, "no table tells how the row ends meet")
    met = meeting(grid, own, where)
    agree(where, "front row ends", met.first, marked.right[0] - 1)
    agree(where, "back row ends", met.second, body.rows - marked.right[1])
    _quarters(blocks, own, met, body.rows, where)
    return met.first
