"""A document as the source that the typesetter sets; every text in it is a string, none is markup."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cache
from importlib.resources import files
from itertools import groupby, takewhile, zip_longest

from schematics.document.document import (
    Block,
    Cell,
    Document,
    Figure,
    Items,
    Picture,
    Rated,
    Row,
    Section,
    Table,
    Words,
    cell_words,
    plain,
    runs,
    unbroken,
)
from schematics.document.house_style import HouseFont, HouseStyle, Photo
from schematics.document.lettering.text import unlettered
from schematics.document.page_look import LEADING_MM, LOGO_HEIGHT_MM, LOGO_WIDTH_MM, PHOTO_MM, PageLook

TEMPLATE = "document.typ"
_OWN_FONT = "DejaVu Sans"

_ESCAPES = str.maketrans({"\\": "\\\\", '"': '\\"', "\n": "\\n", "\r": "\\r"})

_LOST = "\N{REPLACEMENT CHARACTER}"
_SHORT = 24
"""Characters of a column's longest cell with which it is as wide as that."""

_LINE = 85
"""About the characters of a line: a table of fewer is as wide as it needs to be."""

_LETTERS = 2
"""Characters of a letter that stands before what it is the letter of."""

_TALL = 8
"""Rows of a table of short words that is set in halves beside each other."""

_HIGHEST = 0.75
"""Of a page's height, the most that a drawing takes."""

_LEADING_IN = 8 * _LINE
"""Characters of what is told before rows, that keep with them."""

_WHOLE, _WHOLE_LARGE = 800, 120
"""Characters of a table or a list that is kept on a page; the same where letters are large."""


_IN_PLACE = "#let floating-plate(body) = block(width: 100%, body)"
"""Drawings stay where they are in the text."""


def typst_source(document: Document, look: PageLook, *, in_place: bool = False) -> str:
    """The document for the typesetter, the template before it; the same for the same.

    Drawings that would leave a page half empty go to another page, but not where they are to be ``in_place``.
    """
    return "\n".join((_template(), *([_IN_PLACE] if in_place else []), *_calls(document, look), ""))


@cache
def _template() -> str:
    return files("schematics.document").joinpath("templates", TEMPLATE).read_text("utf-8")


def _calls(document: Document, look: PageLook) -> Iterator[str]:
    house = document.house or HouseStyle()
    dated = (
        f"datetime(year: {day.year}, month: {day.month}, day: {day.day})" if (day := look.date) else "auto"
    )
    yield (
        f"#show: page-look.with((title: {_text(document.title)}, author: {_text(look.author)}, "
        f"date: {dated}, width: {look.width_mm}, height: {look.height_mm}, "
        f"margin: {look.margin_mm}, size: {look.size_pt}, large: {str(look.large).lower()}, "
        f"foot: {_text(look.foot)}, accent: rgb({_text(look.accent)}), "
        f"font: {_families(house.text)}, lettering: {_families(house.lettering or house.text)}))"
    )
    if house.logo:
        width, _ = house.logo.size_mm(LOGO_WIDTH_MM, LOGO_HEIGHT_MM)
        yield f"#logo({_literal(house.logo.name)}, {_text(house.logo.shows)}, {width:.2f})"
    yield "#title()"
    writer = _Blocks(look)
    for words in document.lead:
        yield from writer.block(words, 1)
    for section in (*document.sections, *document.closing):
        yield from writer.section(section, 1)


@dataclass(frozen=True, slots=True)
class _Blocks:
    """A call of a function of the template for each block."""

    look: PageLook

    def section(self, section: Section, level: int) -> Iterator[str]:
        if section.cut_out:
            yield f"#cut-out[{chr(10).join(self._calls(section, level))}]"
        elif _is_plate(section):
            calls = self._calls(section, level)
            yield f"#floating-plate[{chr(10).join(calls)}]"
        else:
            yield from self._calls(_spread(section) if self.look.large else section, level)

    def _calls(self, section: Section, level: int) -> Iterator[str]:
        if section.heading:
            yield f"#heading(level: {level}, {_text(plain(section.heading))})"
        below = level + 1 if section.heading else level
        floating = self.look.large and not _is_plate(section)
        followed = [(block, section.blocks[number:]) for number, block in enumerate(section.blocks, 1)]
        for pictured, pairs in groupby(followed, lambda pair: isinstance(pair[0], Picture)):
            if pictured:
                pictures = [self._picture(each) for each, _ in pairs if isinstance(each, Picture)]
                if floating:
                    yield from (f"#floating-plate(drawings({_array([each])}))" for each in pictures)
                else:
                    yield f"#drawings({_array(pictures)})"
                continue
            for block, after in pairs:
                if isinstance(block, str | tuple) and (
                    (after and isinstance(after[0], Picture) and not floating)
                    or _leads_in(block, after)
                    or (block is section.blocks[0] and after and len(plain(block)) <= _LINE)
                ):
                    yield f"#leading-in({_runs(block)})"
                elif _goes_on(block, after) and not self.look.large:
                    yield f"#held-to-next[{chr(10).join(self.block(block, below))}]"
                else:
                    yield from self.block(block, below)

    def block(self, block: Block, level: int) -> Iterator[str]:
        match block:
            case Section():
                yield from self.section(block, level)
            case Items():
                if block.caption:
                    yield f"#heading(level: {level}, {_text(block.caption)})"
                if block.items:
                    letters = sum(len(plain(each)) for each in block.items)
                    whole = letters <= (_WHOLE_LARGE if self.look.large else _WHOLE)
                    yield f"#items({_array(map(_runs, block.items))}, {str(whole).lower()})"
            case Table() if self.look.large:
                yield from self._cards(block, level)
            case Table():
                for table in block.by_size():
                    yield from self._table(table, level)
            case Row():
                yield self._row(block)
            case Photo():
                yield self._photo(block)
            case Picture():
                yield f"#drawings({_array([self._picture(block)])})"
            case _:
                yield f"#paragraph({_runs(block)})"

    def _row(self, row: Row) -> str:
        count = f"[{row.count}]" if row.count else ""
        whole = not self.look.large and len(count) <= _LINE / 2
        arguments = f"{_text(row.label)}, {_unbroken(row.work)}, {_unbroken(count)}"
        return f"#row({arguments}, {str(whole).lower()}, {str(not self.look.large).lower()})"

    def _picture(self, picture: Picture) -> str:
        """The drawing, what it shows, its width in parts of the text's, and its height in mm."""
        width = self.look.width_mm - 2 * self.look.margin_mm
        highest = self.look.height_mm / picture.height_mm * picture.width_mm / width
        share = min(picture.width_mm / width, _HIGHEST * highest, 1)
        height = share * width * picture.height_mm / picture.width_mm
        return f"({_literal(picture.svg)}, {_text(picture.shows)}, {share:.4f}, {height:.3f})"

    def _photo(self, photo: Photo) -> str:
        widest, highest = self.look.width_mm - 2 * self.look.margin_mm, self.look.height_mm
        high = LEADING_MM if photo.leading else PHOTO_MM
        width, _ = photo.size_mm(widest, min(high, _HIGHEST * highest))
        return f"#photo({_literal(photo.name)}, {_text(photo.shows)}, {width:.2f})"

    def _cards(self, table: Table, level: int) -> Iterator[str]:
        if table.caption:
            yield f"#heading(level: {level}, {_text(table.caption)})"
        yield f"#cards({_array(_array(_named(table, row)) for row in table.rows)})"

    def _table(self, table: Table, level: int) -> Iterator[str]:
        if table.caption:
            yield f"#heading(level: {level}, {_text(table.caption)})"
        rows = [[cell_words(cell) for cell in row] for row in table.rows]
        columns = range(len(table.header))
        right = _array([str(index) for index in columns if table.is_number(index)])
        widest = [max((len(plain(row[index])) for row in rows), default=0) for index in columns]
        narrow = sum(widest) <= _LINE
        shares = _array(["0" if narrow or width <= _SHORT else f"{width**0.5:.1f}" for width in widest])
        halves = [rows]
        if len(columns) == 2 and len(rows) >= _TALL and widest[0] <= _SHORT and widest[1] <= _LINE:
            half = -(-len(rows) // 2)
            halves, shares = [rows[:half], rows[half:]], _array(["0", "1"])
        header, whole = _array(map(_text, table.header)), str(len(halves[0]) * sum(widest) <= _WHOLE).lower()
        cells = [
            _array(_array(f"({_runs(words)}, {wide})" for _, words, wide in table.cells(row)) for row in each)
            for each in halves
        ]
        ruled = len(table.header) if table.shared is None else table.shared
        tables = [f"rows-table({shares}, {right}, {header}, {each}, {whole}, {ruled})" for each in cells]
        yield f"#{tables[0]}" if len(tables) == 1 else f"#beside({', '.join(tables)})"


def _families(font: HouseFont | None) -> str:
    """The font, and the lettering's own for what it lacks."""
    return _array([*([_literal(font.family)] if font else []), _literal(_OWN_FONT)])


def _leads_in(words: Words, after: Sequence[Block]) -> bool:
    """Whether what is told is of the table or the rows after it, with little between them."""
    told = list(takewhile(lambda each: isinstance(each, str | tuple), after))
    nearest = after[len(told)] if len(told) < len(after) else None
    letters = sum(len(plain(each)) for each in (words, *told) if isinstance(each, str | tuple))
    few = not told or letters <= _LEADING_IN
    return (isinstance(nearest, Row) and few) or (isinstance(nearest, Table) and not told)


def _goes_on(block: Block, after: Sequence[Block]) -> bool:
    """Whether a table goes on in another, with words between them."""
    return (
        isinstance(block, Table)
        and len(after) > 1
        and isinstance(after[0], str | tuple)
        and isinstance(after[1], Table)
    )


def _is_plate(section: Section) -> bool:
    """Whether it is a drawing with some words to it, which can be wherever there is room."""
    *words, last = section.blocks or ("",)
    return isinstance(last, Picture) and all(isinstance(each, str) for each in words)


def _spread(section: Section) -> Section:
    """The section with its pictures among its texts, so that none waits for another.

    Each is after a text; where there are more pictures than texts, before one.
    """
    pictures = [block for block in section.blocks if isinstance(block, Picture)]
    texts = [block for block in section.blocks if not isinstance(block, Picture)]
    pairs = zip_longest(pictures, texts) if len(pictures) > len(texts) else zip_longest(texts, pictures)
    return replace(section, blocks=tuple(block for pair in pairs for block in pair if block is not None))


def _named(table: Table, row: Sequence[Cell]) -> Iterator[str]:
    """The cells of a row that have something in them, each after its column's name, or after its sizes."""
    header = table.header
    entries = list(zip(header, map(cell_words, row), strict=True))
    if table.sizes:
        named = [each for each, cell in zip(entries, row, strict=True) if not isinstance(cell, Figure)]
        entries = [*named, *table.size_by_size(row)]
    cells = [(name, plain(unbroken(words))) for name, words in entries]
    if not header[0] and len(cells) > 2 and len(cells[0][1]) <= _LETTERS:
        (_, letter), (_, words), *others = cells
        cells = [("", f"{letter} {words}".strip()), *others]
    elif header[0] and len(cells) > 2:
        (name, first), *others = cells
        cells = [("", f"{name}: {first}"), *others]
    for name, text in cells:
        if text:
            yield f"({_text(name)}, {_text(text)})"


def _array(parts: Iterator[str] | list[str] | map[str]) -> str:
    return f"({''.join(f'{part}, ' for part in parts)})"


def _runs(words: Words) -> str:
    """The runs of words, each with whether it is bold."""
    return _array(
        f"({_text(str(run))}, {str(isinstance(run, Rated)).lower()})" for run in runs(unbroken(words))
    )


def _unbroken(text: str) -> str:
    return _text(plain(unbroken(text)))


def _text(text: str) -> str:
    """A text on one line, of characters that the font has."""
    line = unicodedata.normalize("NFC", text).replace("\n", " ")
    while char := unlettered(line.replace(_LOST, "")):
        line = line.replace(char, _LOST)
    return _literal(line)


def _literal(text: str) -> str:
    return f'"{text.translate(_ESCAPES)}"'
