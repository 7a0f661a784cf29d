"""Reading the figures back from Markdown, as a maker would: no code of the program is used here."""

from __future__ import annotations

import re
from dataclasses import dataclass

Row = dict[str, str]


@dataclass(frozen=True, slots=True)
class Page:
    """Tables by section heading and caption, rows as mappings from header to cell."""

    sizes: tuple[str, ...]
    sentences: dict[str, list[str]]
    tables: dict[str, dict[str, list[Row]]]

    def table(self, section: str, caption: str) -> list[Row]:
        (heading,) = [each for each in self.tables if each.startswith(section)]
        return self.tables[heading][caption]

    def size_strings(self, section: str, caption: str, name: str, column: str) -> list[str]:
        """The entries of one cell's size string, found by the first column of its row."""
        (row,) = [row for row in self.table(section, caption) if next(iter(row.values())) == name]
        return split_size_string(row[column], len(self.sizes))


def split_size_string(text: str, sizes: int) -> list[str]:
    """``42 (46, 50)`` as its entries."""
    match = re.fullmatch(r"(?P<first>[^()]+?)(?: \((?P<others>.+)\))?", text)
    assert match, text
    entries = [match["first"], *(match["others"].split(", ") if match["others"] else [])]
    assert len(entries) == sizes, text
    return entries


def read_page(markdown: str) -> Page:
    """The page, by its lines."""
    sizes = re.search(r"^Sizes (.+)\. Stitch names", markdown, re.MULTILINE)
    assert sizes
    page = Page((), {}, {})
    heading, caption = "", ""
    for block in markdown.split("\n\n"):
        if block.startswith("## "):
            heading = block[3:].strip()
            page.sentences[heading], page.tables[heading] = [], {}
        elif block.startswith("### "):
            caption = block[4:].strip()
        elif block.startswith("|"):
            lines = [_cells(line) for line in block.strip().splitlines()]
            assert set(lines[1]) == {"---"}
            page.tables[heading][caption] = [dict(zip(lines[0], line, strict=True)) for line in lines[2:]]
        elif block.startswith("- "):
            page.sentences[heading] += [line[2:] for line in block.strip().splitlines()]
    names = split_any_size_string(sizes[1])
    return Page(names, page.sentences, page.tables)


def split_any_size_string(text: str) -> tuple[str, ...]:
    first, _, others = text.removesuffix(")").partition(" (")
    return (first, *(others.split(", ") if others else ()))


def _cells(line: str) -> list[str]:
    cells = re.split(r"(?<!\\)\|", line.strip())
    assert cells[0] == cells[-1] == ""
    return [re.sub(r"\\([\\`*_<>|~&$(:])", r"\1", cell.strip()) for cell in cells[1:-1]]


_UNIT = re.compile(
    r"(?:\[(?P<block>[^\]]*)\] × (?P<times>\d+)|inc × (?P<run>\d+)|(?P<inc>inc)|(?P<plain>\d+) sts?)(?:, |$)"
)


def read_work(words: str) -> list[int | None]:
    """How a row is worked: a number of plain stitches, or None for an increase, in turn."""
    done: list[int | None] = []
    at = 0
    while at < len(words):
        match = _UNIT.match(words, at)
        assert match, words[at:]
        at = match.end()
        if match["block"] is not None:
            done += read_work(match["block"]) * int(match["times"])
        elif match["plain"] is not None:
            done.append(int(match["plain"]))
        else:
            done += [None] * int(match["run"] or 1)
    return done


def read_schedule(words: str) -> list[tuple[int, list[int]]]:
    """Increase schedule in words: stitches increased, and the rows it is done on."""
    if words.startswith("No increases"):
        return []
    told = re.match(r"Increase (?P<what>.+): \d+ increases, from \d+ to \d+ stitches$", words)
    assert told, words
    groups = []
    for part in told["what"].split("; increase "):
        lined = re.match(r"1 stitch on each side of .+ \((?P<count>\d+) stitches\) (?P<rows>on .+)$", part)
        even = re.match(r"(?P<count>\d+) stitch(?:es)? evenly (?P<rows>on .+)$", part)
        match = lined or even
        assert match, part
        groups.append((int(match["count"]), read_rows(match["rows"])))
    return groups


def read_rows(words: str) -> list[int]:
    """Row numbers from words."""
    if match := re.fullmatch(r"on every (?:(\d+)(?:st|nd|rd|th) )?row from row (\d+) to row (\d+)", words):
        step, first, last = int(match[1] or 1), int(match[2]), int(match[3])
        assert (last - first) % step == 0
        return list(range(first, last + 1, step))
    match = re.fullmatch(r"on rows? ((?:\d+, )*(?:\d+ and )?\d+)", words)
    assert match, words
    return [int(number) for number in re.split(r", | and ", match[1])]


def read_sequence(words: str) -> list[int]:
    """A sequence: brackets repeat, ``1 × 13`` is thirteen ones."""
    numbers: list[int] = []
    for block, times, plain in re.findall(r"\[([^\]]*)\] × (\d+)|([^,\[\]]+)", words):
        if block:
            numbers += read_sequence(block) * int(times)
        elif plain.strip():
            value, _, run = plain.partition(" × ")
            numbers += [int(value)] * int(run or 1)
    return numbers


def read_join(words: str) -> tuple[int, int, list[int]]:
    """Totals of the longer and the shorter edge, and the shares of the schedule."""
    totals = re.match(r"(\d+) .+? (?:rows?|stitch(?:es)?) to (\d+) .+? (?:rows?|stitch(?:es)?): ", words)
    assert totals, words
    many, few = int(totals[1]), int(totals[2])
    rest = words[totals.end() :]
    if rest == "one to one":
        return many, few, [1] * few
    if each := re.fullmatch(r"each .+ takes (\d+)", rest):
        return many, few, [int(each[1])] * few
    return many, few, read_sequence(rest.partition("in turn ")[2])
