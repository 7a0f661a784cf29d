"""A pattern as each size reads it, line by line, and errata worked into it as with a pencil."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from schematics.document.document import Document, Items, Row, Section, Table, cell_words, plain

FIGURE = r"(?:\d+ \d+/\d+|\d+/\d+|\d+\.\d+|\d+|–|RS|WS)"
STRING = re.compile(rf"(?<![\w./])({FIGURE}) \(({FIGURE}(?:, {FIGURE})*)\)")


def for_sizes(text: str, names: Sequence[str], wanted: Sequence[str]) -> str:
    """The figures of the wanted sizes alone, one where they are the same."""

    def fewer(match: re.Match[str]) -> str:
        figures = [match[1], *match[2].split(", ")]
        sides = {figure in ("RS", "WS") for figure in figures}
        if len(figures) != len(names) or len(sides) > 1:
            return match[0]
        kept = [figure for figure, name in zip(figures, names, strict=True) if name in wanted]
        return kept[0] if len(set(kept)) == 1 else f"{kept[0]} ({', '.join(kept[1:])})"

    return STRING.sub(fewer, text)


def names_in(words: str) -> list[str]:
    return re.split(r", | and ", words)


@dataclass
class Written:
    """A line as printed, for these sizes; what is written over it or below it in the size that is read."""

    label: str
    text: str
    sizes: list[str]
    now: str | None = ""
    below: list[str] = field(default_factory=list)

    def read(self, wanted: Sequence[str]) -> tuple[str, str]:
        label, text = (for_sizes(each, self.sizes, wanted) for each in (self.label, self.text))
        return label, text

    def whole(self, wanted: Sequence[str]) -> str:
        label, text = self.read(wanted)
        return f"{label}: {text}" if label else text


def written(document: Document, names: Sequence[str]) -> dict[str, list[Written]]:
    """The lines below each heading."""
    pages: dict[str, list[Written]] = {}
    for section in document.sections:
        _section(section, "", list(names), pages)
    return pages


def _section(section: Section, above: str, names: list[str], pages: dict[str, list[Written]]) -> None:
    heading = f"{above}{plain(section.heading)}"
    lines = pages.setdefault(heading, [])
    for block in section.blocks:
        if isinstance(block, Section):
            _section(block, f"{heading}, ", names, pages)
        elif isinstance(block, Table):
            lines += _table(block, names)
        elif isinstance(block, Row):
            label, sizes = block.label, names
            if match := re.match(r"Sizes? (.+) only, (.)", label):
                sizes, label = names_in(match[1]), match[2].upper() + label[match.end() :]
            lines.append(Written(label, block.instruction, sizes))
        elif isinstance(block, Items):
            lines += [Written("", plain(words), names) for words in block.items]
        elif isinstance(block, str | tuple):
            words = plain(block)
            if not lines and (match := re.match(r"Sizes? (.+) only: ", words)):
                names = names_in(match[1])
            lines.append(Written("", words, names))


def _table(table: Table, names: list[str]) -> Iterator[Written]:
    for row in table.rows:
        first, *cells = [plain(cell_words(cell)) for cell in row]
        head, sizes, letter = list(table.header[1:]), names, ""
        if table.header[0] == "size":
            sizes = names if first == "all" else names_in(first)
            first = "" if table.caption else f"Table of {head[0]}"
        elif head[0] == "measurement":
            letter, first, cells, head = f"; letter {first}", cells[0], cells[1:], head[1:]
        said = [
            f"{cell} {name}" if name in ("cm", "inches") else f"{name.replace(',', '')}: {cell}"
            for name, cell in zip(head, cells, strict=True)
        ]
        text = cells[0] if len(cells) == 1 else "; ".join(said)
        yield Written(", ".join(filter(None, (table.caption, first))), text + letter, sizes)


def corrected(
    old: dict[str, list[Written]], errata: Document, size: str, names: Sequence[str]
) -> dict[str, list[str]]:
    """What a size reads below each heading when every erratum has been worked in."""
    for lines in old.values():
        for line in lines:
            line.now, line.below = line.whole([size]) if size in line.sizes else None, []
    first: dict[str, list[str]] = {}
    for section in errata.sections:
        heading = plain(section.heading).replace("Below the title", "")
        _Pencil(old, heading, size, list(names), first).work([plain(each) for each in section.sentences])
    result = {}
    for heading in dict.fromkeys((*old, *first)):
        told = [*first.get(heading, [])]
        for line in old.get(heading, []):
            told += ([] if line.now is None else [line.now]) + line.below
        result[heading] = told
    return {heading: told for heading, told in result.items() if told}


READ = re.compile(r"(?P<place>.+?): read “(?P<new>.+)”, not “(?P<old>.+)”\.")
DELETE = re.compile(r"(?P<place>.+): delete this line\.")
ADD = re.compile(r"(?:after (?P<place>.+)|before the first line(?P<bare>.*)), add:")
NUMBERED = re.compile(
    r"(?:Row|Rnd)s? (?P<was>.+?)(?:, sizes? (?P<sizes>.+?),)? (?:is|are) now (?:Row|Rnd)s? (?P<now>.+?)"
    r"(?P<turned>, RS and WS changing places)?\."
)


@dataclass
class _Pencil:
    old: dict[str, list[Written]]
    heading: str
    size: str
    names: list[str]
    first: dict[str, list[str]]

    def work(self, items: list[str]) -> None:
        below: list[str] | None = None
        wanted: list[str] = self.names
        for item in items:
            words = re.sub(r"^Page \d+, ", "", item)
            if item == "This part is new.":
                below = self.first.setdefault(self.heading, [])
            elif words.casefold() == "delete this part.":
                for line in self.old[self.heading]:
                    line.now = None
            elif re.fullmatch(r"“[^“”]*”", words):
                assert below is not None
                self._add(words[1:-1], below, wanted)
            elif match := ADD.fullmatch(words[0].lower() + words[1:]):
                place, wanted = self._place(match["place"] or match["bare"])
                below = self._line(place).below if match["place"] else self.first.setdefault(self.heading, [])
            elif match := READ.fullmatch(words):
                self._read(*self._place(match["place"]), match["old"], match["new"])
            elif match := DELETE.fullmatch(words):
                place, sizes = self._place(match["place"])
                if self.size in sizes and (line := self._line(place, sizes)):
                    line.now = None
            elif match := NUMBERED.fullmatch(words):
                self._number(match)
            else:
                raise AssertionError(f"no erratum: {item}")

    def _place(self, words: str) -> tuple[str, list[str]]:
        match = re.fullmatch(r"(.*), sizes? ([^“”]+?)", words)
        return (match[1], names_in(match[2])) if match else (words, self.names)

    def _line(self, place: str, sizes: Sequence[str] | None = None) -> Written:
        """The one line of the size that is called so; without sizes, as it is printed for all its sizes."""
        found = []
        for line in self.old[self.heading]:
            readers = sizes or [name for name in line.sizes if name in self.names]
            if self.size in line.sizes and {*readers} <= {*line.sizes}:
                label, _ = line.read(readers)
                begun = place.startswith("“") and line.text.startswith(place[1:-1].removesuffix(" …"))
                if label == place or (begun and not label):
                    found.append(line)
        if sizes is None and not found:  # the line before it is one that this size has not
            return Written("", "", [])
        assert len(found) == 1, (self.heading, place, sizes, found)
        return found[0]

    def _read(self, place: str, sizes: list[str], old: str, new: str) -> None:
        if self.size not in sizes:
            return
        line = self._line(place, sizes)
        label, text = line.read(sizes)
        if text.count(old) == 1:
            words = f"{label}: " * bool(label) + text.replace(old, new)
        else:
            whole = line.whole(sizes)
            assert whole.count(old) == 1, (whole, old)
            words = whole.replace(old, new)
        line.now = for_sizes(words, sizes, [self.size])

    def _add(self, words: str, below: list[str], wanted: list[str]) -> None:
        if match := re.match(r"Sizes? (.+?) only, (.)", words):
            wanted, words = names_in(match[1]), match[2].upper() + words[match.end() :]
        if self.size in wanted:
            below.append(for_sizes(words, wanted, [self.size]))

    def _number(self, match: re.Match[str]) -> None:
        sizes = names_in(match["sizes"]) if match["sizes"] else self.names
        if self.size not in sizes:
            return
        was, now = (
            [int(each) for each in for_sizes(match[key], sizes, [self.size]).split(" to ")]
            for key in ("was", "now")
        )
        by = now[0] - was[0]
        assert now[-1] - was[-1] == by
        for line in self.old[self.heading]:
            if self.size not in line.sizes:
                continue
            label, text = line.read([self.size])
            rows = re.fullmatch(r"(Rows?|Rnds?) (\d+)(?: (to|and) (\d+))?((?: \(|, )(?:RS|WS)\)?)?", label)
            if rows and was[0] <= int(rows[2]) <= was[-1]:
                label = re.sub(r"\d+", lambda number: str(int(number[0]) + by), label)
                if match["turned"]:
                    label = re.sub("[RW]S", lambda side: {"RS": "WS", "WS": "RS"}[side[0]], label)
                line.now = f"{label}: {text}"
