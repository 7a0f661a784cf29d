"""The table of finished measurements: where its names are, and what several sizes share."""

from __future__ import annotations

from schematics.document.lettering.text import text_width
from schematics.drawing.ink.marks import Line, Text
from schematics.drawing.ink.page import block_size
from schematics.drawing.pieces.size_table import Measured, size_table


def test_a_name_in_two_lines_leaves_no_word_alone() -> None:
    """At 30 mm "front, fold to hem" has no room in one line, and would leave its last word alone."""
    rows = (Measured("A", "front, fold to hem", (("cm", ("26",)),)),)
    table = size_table(rows, "Sizes", ("2",), 42.0, 2.5)
    words = [mark.words for group in table.groups for mark in group.marks if isinstance(mark, Text)]
    assert tuple(each for each in words if "f" in each or "h" in each) == ("front, fold", "to hem")


def test_a_value_that_sizes_in_a_row_share_is_there_once() -> None:
    rows = (Measured("A", "depth of the band", (("cm", ("4", "4", "5", "4", "6")),)),)
    table = size_table(rows, "Sizes", ("a", "b", "c", "d", "e"), 100.0, 2.5)
    marks = [mark for group in table.groups for mark in group.marks]
    words = [mark.words for mark in marks if isinstance(mark, Text)]
    assert [each for each in words if each.isdigit()] == ["4", "5", "4", "6"]
    dashes = [mark for mark in marks if isinstance(mark, Line)][1:]
    assert len(dashes) == 2, "one on each side of the value that is shared"


def test_a_table_of_many_sizes_is_parted_and_every_part_has_all_letters() -> None:
    rows = (Measured("A", "depth", (("cm", tuple(map(str, range(100, 130)))),)),)
    sizes = [f"{number:02}" for number in range(30)]
    table = size_table(rows, "Sizes", sizes, 60.0, 2.5)
    words = [mark.words for group in table.groups for mark in group.marks if isinstance(mark, Text)]
    assert words.count("Sizes") == words.count("cm") > 1
    assert [each for each in words if each in sizes] == sizes
    assert [each for each in words if len(each) == 3 and each.isdigit()] == [*rows[0].lines[0][1]]
    assert block_size(table)[0] <= 60.0


def test_a_heading_has_room_before_that_of_the_first_column() -> None:
    """Names so long that they are in a list above, and values as narrow as what stands over them."""
    rows = (Measured("A", "depth of the band " * 6, (("", ("4", "1 5/8")),)),)
    for width in (40.0, 34.0, 28.0):
        table = size_table(rows, "Size 12", ("cm", "in"), width, 2.5)
        bold = [
            text for group in table.groups for text in group.marks if isinstance(text, Text) and text.bold
        ]
        heading, first = (next(each for each in bold if each.words == words) for words in ("Size 12", "cm"))
        starts = first.at[0] - text_width("cm", 2.5, bold=True)
        assert starts > heading.at[0] + text_width("Size 12", 2.5, bold=True)
        assert block_size(table)[0] <= width


def test_a_table_without_letters_has_each_name_beside_its_values_in_every_part() -> None:
    """Long names, a line each for cm and inches: in a list above they would be lower, and name nothing."""
    values = tuple(map(str, range(100, 118)))
    rows = tuple(
        Measured("", f"body {each} edge, from the shoulder on", (("cm", values), ("in", values)))
        for each in ("neck", "hem", "front", "back")
    )
    table = size_table(rows, "Sizes", [f"{number:02}" for number in range(18)], 120.0, 2.5)
    texts = [mark for group in table.groups for mark in group.marks if isinstance(mark, Text)]
    named = [mark.at[1] for mark in texts if mark.words.startswith("body")]
    assert named == [mark.at[1] for mark in texts if mark.words == "cm"]


def test_a_name_that_would_be_in_three_lines_beside_its_values_is_over_them() -> None:
    rows = tuple(
        Measured(letter, f"{each} of the arm band", (("cm", ("14.75", "16.75")), ("in", ("5 3/4", "6 5/8"))))
        for letter, each in zip("ABC", ("depth", "length", "edge"), strict=True)
    )
    table = size_table(rows, "Sizes", ("2", "4"), 48.0, 2.5)
    texts = [mark for group in table.groups for mark in group.marks if isinstance(mark, Text)]
    names = [mark for mark in texts if "band" in mark.words]
    assert [mark.words for mark in names] == [row.name for row in rows]
    for name, unit in zip(names, (mark for mark in texts if mark.words == "cm"), strict=True):
        assert unit.at[1] > name.at[1]
        assert unit.at[0] == name.at[0]
    assert block_size(table)[0] <= 48.0
