"""Putting counts into the text of a spec; all else stays, byte for byte."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import yaml

from schematics.errors import UsageError
from schematics.grading.draft import Draft, DraftSize
from schematics.reading.composing import Composer
from schematics.reading.files.text_file import BYTE_ORDER_MARK, LINE_BREAK, text_of
from schematics.reading.loading import LARGEST_FILE, NEEDED, parse
from schematics.reading.problems import SpecError

_INDENT = 2

Counts = Mapping[str, float]
Comments = Mapping[str, str]
"""What to say beside counts, by their keys."""


@dataclass(frozen=True, slots=True)
class _Insertion:
    at: int
    text: str


def with_counts(draft: Draft, by_size: Sequence[Counts], comments: Sequence[Comments] = ()) -> bytes:
    """The file a draft was read from with the counts it leaves out put in.

    The new content has been read back: nothing differs but the counts.

    Args:
        draft: what was read, and the content it was read from.
        by_size: each size's counts by their keys, such as ``body.neck``.
        comments: what to say beside each size's counts, where they are on lines of their own.

    Raises:
        UsageError: the counts cannot be put in without changing something else, or the file would be too
            large; the text names file and line.
    """
    text = text_of(draft.head.path, draft.content)
    sizes = _value(_MarkedComposer(text).get_single_node(), "sizes")
    insertions: list[_Insertion] = []
    for size, counts, words in zip(draft.sizes, by_size, comments or [{}] * len(by_size), strict=True):
        blocks: dict[str, list[_Entry]] = {}
        for key in draft.missing(size):
            block, name = key.split(".")
            blocks.setdefault(block, []).append(_Entry(f"{name}: {counts[key]:g}", words.get(key, "")))
        try:
            insertions += _size(text, _value(sizes, size.name), blocks)
        except _AliasError:
            raise UsageError(
                f"{draft.head.path}:{size.line}: size {size.name!r} shares its counts with another by an "
                "alias; write them out, then its own can be put in"
            ) from None
    insertions.sort(key=lambda each: each.at)  # stable: at one place the inner block's come first
    for each in reversed(insertions):
        text = text[: each.at] + each.text + text[each.at :]
    mark = BYTE_ORDER_MARK if draft.content.startswith(BYTE_ORDER_MARK) else b""
    content = mark + text.encode()
    if len(content) > LARGEST_FILE:
        raise UsageError(
            f"{draft.head.path}: with its counts the file would be over {LARGEST_FILE // 1_000_000} MB, "
            f"which is not read; {NEEDED}, so shorten it first"
        )
    if spoilt := _spoilt(draft, by_size, content):
        lost = by_size[draft.sizes.index(spoilt)]
        by_hand = ", ".join(f"{key}: {lost[key]:g}" for key in draft.missing(spoilt))
        raise UsageError(
            f"{draft.head.path}:{spoilt.line}: the counts of size {spoilt.name!r} cannot be put in without "
            f"changing something else; write them in by hand: {by_hand}"
        )
    return content


def _spoilt(draft: Draft, by_size: Sequence[Counts], content: bytes) -> DraftSize | None:
    """A size that would not read as it did with its counts added; None where all would."""
    path = draft.head.path
    wanted = parse(path, draft.content).data
    graded = [size for size in draft.sizes if draft.missing(size)]
    for size, counts in zip(draft.sizes, by_size, strict=True):
        for key in draft.missing(size):
            block, name = key.split(".")
            wanted["sizes"][size.name].setdefault(block, {})[name] = counts[key]
    try:
        data = parse(path, content).data
    except SpecError:
        return graded[0]
    if data == wanted:
        return None
    read: Any = data.get("sizes") or {}
    return next((size for size in graded if read.get(size.name) != wanted["sizes"][size.name]), graded[0])


class _Alias(yaml.ScalarNode):
    """An alias with its own marks, not those of the value it repeats; of a scalar it has the text."""


class _MarkedComposer(Composer):
    """Composes each alias as an `_Alias`."""

    def compose_node(self, parent: yaml.Node | None, index: Any) -> yaml.Node | None:
        alias = self.check_event(yaml.AliasEvent)
        event: Any = self.peek_event()  # type: ignore[no-untyped-call]  # the stubs leave it out
        node = super().compose_node(parent, index)
        if not alias:
            return node
        words = node.value if isinstance(node, yaml.ScalarNode) else ""
        return _Alias("", words, event.start_mark, event.end_mark)


@dataclass(frozen=True, slots=True)
class _Entry:
    """A key and its value, and what to say beside them."""

    text: str
    comment: str

    @property
    def beside(self) -> str:
        return f"   # {self.comment}" if self.comment else ""


class _AliasError(Exception):
    """A value is written elsewhere in the file."""


def _value(mapping: Any, name: str) -> Any:
    return next(value for key, value in mapping.value if key.value == name)


def _size(text: str, node: yaml.MappingNode, blocks: Mapping[str, list[_Entry]]) -> Iterator[_Insertion]:
    """What to insert into one size."""
    if blocks and isinstance(node, _Alias):
        raise _AliasError
    present = {key.value: value for key, value in node.value}
    fresh: list[_Entry] = []
    last = _Entry("", "")
    for block, entries in blocks.items():
        if block not in present:
            whole = _joined(entries)
            fresh.append(_Entry(f"{block}: {{{whole.text}}}", whole.comment))
        elif isinstance(present[block], _Alias):
            raise _AliasError
        elif present[block].flow_style:
            whole = _joined(entries)
            yield _in_flow(present[block], whole.text)
            end = present[block].end_mark.index
            if not LINE_BREAK.split(text[end:], maxsplit=1)[0].strip(" "):
                yield _Insertion(end, whole.beside)
            elif present[block] is node.value[-1][1]:
                last = whole
        else:
            yield _in_block(text, present[block], entries)
    if fresh and node.flow_style:
        yield _in_flow(node, *_on_lines(text, node, fresh, last.beside))
    elif fresh:
        yield _in_block(text, node, fresh)


def _joined(entries: Sequence[_Entry]) -> _Entry:
    """Entries in one pair of braces, as one."""
    comment = "; ".join(entry.comment for entry in entries if entry.comment)
    return _Entry(", ".join(entry.text for entry in entries), comment)


def _on_lines(text: str, node: yaml.MappingNode, entries: Sequence[_Entry], beside: str) -> tuple[str, str]:
    """Entries of a mapping in braces on lines of their own, and what parts them from the one before.

    ``beside`` is written beside the one before.
    """
    start = _newline(text, node) + " " * _child_column(text, node)
    *others, last = entries
    words = "".join(f"{entry.text},{entry.beside}{start}" for entry in others) + last.text
    if last.comment:
        words += last.beside + start.removesuffix(" " * _INDENT)
    return words, f",{beside}{start}"


def _in_flow(node: yaml.MappingNode, words: str, between: str = ", ") -> _Insertion:
    """More entries at the end of a mapping in braces."""
    if not node.value:
        return _Insertion(node.start_mark.index + 1, words)
    return _Insertion(node.value[-1][1].end_mark.index, between + words)


def _in_block(text: str, node: yaml.MappingNode, entries: Sequence[_Entry]) -> _Insertion:
    """More entries on lines of their own below a mapping's last."""
    indent, newline = " " * node.value[0][0].start_mark.column, _newline(text, node)
    lines = [indent + entry.text + entry.beside + newline for entry in entries]
    end = LINE_BREAK.search(text, _end(node))
    if not end:
        return _Insertion(len(text), newline + "".join(lines).removesuffix(newline))
    return _Insertion(end.end(), "".join(lines))


def _end(node: yaml.Node) -> int:
    """Where the last value of a mapping ends; a block's own end mark lies beyond the comments after it."""
    if isinstance(node, yaml.CollectionNode) and not node.flow_style and node.value:
        return _end(node.value[-1][1] if isinstance(node, yaml.MappingNode) else node.value[-1])
    return int(node.end_mark.index)


def _child_column(text: str, node: yaml.MappingNode) -> int:
    """The column of entries on lines of their own in a mapping in braces: inside its line's indent."""
    start = max((each.end() for each in LINE_BREAK.finditer(text, 0, node.start_mark.index)), default=0)
    line = text[start:]
    return len(line) - len(line.lstrip(" ")) + _INDENT


def _newline(text: str, node: yaml.Node) -> str:
    """What ends the line on which a value ends; of a file's last line, what ends its first."""
    line_break = LINE_BREAK.search(text, _end(node)) or LINE_BREAK.search(text)
    return line_break.group() if line_break else "\n"
