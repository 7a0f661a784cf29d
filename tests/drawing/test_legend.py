"""The words under a bare drawing that say what its marks mean: those drawn alone."""

from __future__ import annotations

from dataclasses import replace

import pytest

from schematics.design.limits import Limits
from schematics.document.lettering.text import PLAIN
from schematics.drawing.bare.legend import legend_block, legend_words
from schematics.drawing.bare.lettered import finished_sheet, legend_under
from schematics.drawing.bare.pieces_in_room import Fitted, fitted
from schematics.drawing.bare.rooms import Room
from schematics.drawing.ink.block import Block
from schematics.drawing.ink.marks import Group, Line, Text, bounds
from schematics.drawing.ink.page import Box
from schematics.drawing.ink.sheet import BareInk, Sheet
from schematics.drawing.pieces.figures_look import FiguresLook
from schematics.garment.garment import Piece
from schematics.units import Unit
from tests.drawing.bare_reading import one_drawing
from tests.shipped import shipped_design, shipped_results

pytestmark = pytest.mark.slow

STROKE = Line(((0.0, 0.0), (1.0, 0.0)))


def piece(design: str, name: str) -> Piece:
    """That of the middle size."""
    return shipped_results(design)[3].garment.piece(name)


def drawn_of(*kinds: str) -> Block:
    """A block with a group of each kind."""
    return Block(groups=[Group(kind, "edging", (STROKE,)) for kind in kinds])


def test_only_marks_that_are_drawn_are_named() -> None:
    """An increase where no other strokes are; the rows are dotted of kelp, its fold is one of driftwood."""
    body = replace(piece("tidepool", "body"), creases=())
    assert legend_words([(body, drawn_of("outline"))]) == ""
    assert legend_words([(body, drawn_of("increases"))]) == "Strokes on the body: increases."
    assert (
        legend_words([(body, drawn_of("increases", "motif"))])
        == "Strokes on the body outside edging: increases."
    )
    all_over = Block(groups=[Group(kind, "body", (STROKE,)) for kind in ("increases", "motif")])
    assert legend_words([(body, all_over)]) == ""
    fold = Block(groups=[Group("fold", "body", (STROKE,))])
    assert legend_words([(body, fold)]) == "Long and short dashes: centre back."
    named = Block(groups=[*fold.groups, Group("leader", "centre back", (STROKE,))])
    assert legend_words([(body, named)]) == ""
    assert legend_words([(body, drawn_of("work"))] * 2) == "Arrow: direction of work."
    assert legend_words([(body, drawn_of("border"))]) == "Line inside the body: edge of edging."
    folded = legend_words([(piece("driftwood", "body"), drawn_of("work"))])
    assert folded == "Long and short dashes: shoulder fold; arrow: direction of work."
    sewn = [(body, Block(groups=[Group("joined", f"body {letter}", (STROKE,))])) for letter in "BA"]
    assert legend_words(sewn) == "Dashes inside an edge: seams A and B."
    assert legend_words(sewn[:1]) == "Dashes inside an edge: seam B."
    dotted = legend_words([(piece("kelp", "body"), drawn_of())])
    assert dotted == "Dotted: increase lines and last increase row."


@pytest.fixture(scope="module")
def arm_band() -> Fitted:
    """The arm band of tidepool in a column."""
    garment = shipped_results("tidepool")[3].garment
    words = FiguresLook(tuple(Unit)).labels
    found = fitted(
        [garment.piece("arm band")], garment, words, Box(0, 0, 83, 100), PLAIN, Limits(), letters=False
    )
    assert found is not None
    return found


def sheet(drawn: Fitted, height: float) -> Sheet:
    room = Room(85.0, height)
    return finished_sheet(drawn, "arm band", "Told.", BareInk(name="arm-band"), room, PLAIN)


def test_it_stands_under_the_drawing_however_little_room_is_left(arm_band: Fitted) -> None:
    """3 mm under it, in letters 2.5 mm high; the drawing takes all of its room."""
    _, top, _, foot = bounds(arm_band.groups)
    made = sheet(arm_band, foot - top + 2.0)
    assert made.description == "Told. Arrow: direction of work."
    (legend,) = (group for group in made.groups if group.name == "legend")
    words = [mark for mark in legend.marks if isinstance(mark, Text)]
    assert (
        " ".join(mark.words for mark in words).replace("\N{NO-BREAK SPACE}", " ")
        == "Arrow: direction of work."
    )
    assert {mark.height for mark in words} == {2.5}
    others = [group for group in made.groups if group.name != "legend"]
    assert bounds([legend])[1] == pytest.approx(bounds(others)[3] + 3.0)
    assert made.paper.height == pytest.approx(foot - top + 2.0 + legend_under(arm_band, 83.0, PLAIN))


@pytest.mark.parametrize(
    ("name", "size", "stem"),
    [
        ("driftwood", "8", "body-column"),
        ("driftwood", "S", "centre-panel-page"),
        pytest.param("tidepool", "M", "all-pieces-column", marks=pytest.mark.slow),
        pytest.param("kelp", "S", "all-pieces-column", marks=pytest.mark.slow),
    ],
)
def test_drawings_that_fill_their_height_have_it_too(name: str, size: str, stem: str) -> None:
    """That of tidepool over a table whose rows are nearer to each other: 12 of 0.25 lines would not go on a
    page; that of kelp, with names in two lines, is under smaller pieces, too.
    """
    made = one_drawing(shipped_design(name), shipped_results(name), size, stem)
    assert [group.name for group in made.groups].count("legend") == 1
    assert made.paper.height <= 235.0


def test_no_word_stands_alone_in_a_second_line() -> None:
    """Four words of 42 mm in 34 are two and two."""
    block = legend_block("Arrow: direction of work.", (34.0,), PLAIN)
    assert block is not None
    ((first, second),) = (
        [mark.words for mark in group.marks if isinstance(mark, Text)] for group in block.groups
    )
    assert (first, second) == ("Arrow:\N{NO-BREAK SPACE}direction", "of work.")


def test_no_line_ends_between_a_mark_and_what_it_means(arm_band: Fitted) -> None:
    for width in range(30, 83):
        room = Room(width + 2.0, 200.0)
        made = finished_sheet(arm_band, "", "", BareInk(name="x"), room, PLAIN)
        words = [mark.words for group in made.groups for mark in group.marks if isinstance(mark, Text)]
        assert not any(each.endswith(":") for each in words)


def test_no_word_is_cut() -> None:
    """Where even two words have no room in a line the next width is taken; 15 mm is none."""
    for narrow in range(5, 40):
        block = legend_block("Arrow: direction of work.", (narrow, 60.0), PLAIN)
        assert block is not None
        words = [mark.words for group in block.groups for mark in group.marks if isinstance(mark, Text)]
        assert " ".join(words) == "Arrow:\N{NO-BREAK SPACE}direction of work."
    assert legend_block("Arrow: direction of work.", (15.0,), PLAIN) is None


def test_as_many_lines_as_it_takes_at_the_full_width() -> None:
    """Thirty words of 5 mm and more in 83 mm are three lines and more."""
    words = f"Dotted: {' '.join(['edge'] * 30)}."
    block = legend_block(words, (40.0, 83.0), PLAIN)
    assert block is not None
    lines = [mark.words for group in block.groups for mark in group.marks if isinstance(mark, Text)]
    assert 3 <= len(lines) <= 5
    assert " ".join(lines).replace("\N{NO-BREAK SPACE}", " ") == words
