"""Putting counts into the text of a spec; whatever stood there stays, byte for byte."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import yaml

from schematics.errors import UsageError
from schematics.grading.draft import Draft

_INDENT = 2

Counts = Mapping[str, int]


@dataclass(frozen=True, slots=True)
class _Insertion:
    at: int
    text: str


def with_counts(text: str, draft: Draft, found: Sequence[Counts]) -> str:
    """The text of a draft's spec with the counts it leaves out put in.

    Args:
        text: the spec, without a byte order mark.
        draft: what was read from it.
        found: each size's counts by their keys, such as ``body.neck``.

    Raises:
        UsageError: a size's counts stand behind an alias, so that others would change with them.
    """
    root = yaml.compose(text, Loader=yaml.BaseLoader)
    sizes = _value(root, "sizes")
    insertions: list[_Insertion] = []
    for size, counts in zip(draft.sizes, found, strict=True):
        blocks: dict[str, dict[str, int]] = {}
        for key in draft.missing(size):
            block, name = key.split(".")
            blocks.setdefault(block, {})[name] = counts[key]
        node = _value(sizes, size.name)
        try:
            insertions += _size(text, sizes, node, blocks)
        except _AliasError:
            raise UsageError(
                f"{draft.head.path}:{size.line}: size {size.name!r} shares its counts with another by an "
                "alias; write them out, then its own can be put in"
            ) from None
    insertions.sort(key=lambda each: each.at)  # stable: at one place the inner block's come first
    for each in reversed(insertions):
        text = text[: each.at] + each.text + text[each.at :]
    return text


class _AliasError(Exception):
    """A value stands elsewhere in the file."""


def _value(mapping: Any, name: str) -> Any:
    return next(value for key, value in mapping.value if key.value == name)


def _size(
    text: str, sizes: yaml.MappingNode, node: yaml.MappingNode, blocks: Mapping[str, Counts]
) -> Iterator[_Insertion]:
    """What to insert into one size."""
    if blocks and not _stands_in(sizes, node):
        raise _AliasError
    present = {key.value: value for key, value in node.value}
    fresh: list[str] = []
    for block, counts in blocks.items():
        words = [f"{name}: {value}" for name, value in counts.items()]
        if block not in present:
            fresh.append(f"{block}: {{{', '.join(words)}}}")
        elif not _stands_in(node, present[block]):
            raise _AliasError
        elif present[block].flow_style:
            yield _in_flow(present[block], words, ", ")
        else:
            yield _in_block(text, present[block], words)
    if fresh and node.flow_style:
        yield _in_flow(node, fresh, f",{_newline(text)}{' ' * _child_column(text, node)}")
    elif fresh:
        yield _in_block(text, node, fresh)


def _stands_in(parent: yaml.MappingNode, node: yaml.MappingNode) -> bool:
    """Whether a value stands where its key does, not elsewhere with an alias for it here."""
    keys = [key for key, value in parent.value if value is node]
    return len(keys) == 1 and keys[0].start_mark.index < node.start_mark.index <= parent.end_mark.index


def _in_flow(node: yaml.MappingNode, words: Sequence[str], between: str) -> _Insertion:
    """More entries at the end of a mapping in braces."""
    if not node.value:
        return _Insertion(node.start_mark.index + 1, between.join(words))
    return _Insertion(node.value[-1][1].end_mark.index, "".join(between + each for each in words))


def _in_block(text: str, node: yaml.MappingNode, words: Sequence[str]) -> _Insertion:
    """More entries on lines of their own below a mapping's last."""
    indent, newline = " " * node.value[0][0].start_mark.column, _newline(text)
    end = text.find("\n", _end(node))
    lines = [indent + each + newline for each in words]
    if end < 0:
        return _Insertion(len(text), newline + "".join(lines).removesuffix(newline))
    return _Insertion(end + 1, "".join(lines))


def _end(node: yaml.Node) -> int:
    """Where the last value of a mapping ends; a block's own end mark lies beyond the comments after it."""
    if isinstance(node, yaml.CollectionNode) and not node.flow_style and node.value:
        return _end(node.value[-1][1] if isinstance(node, yaml.MappingNode) else node.value[-1])
    return int(node.end_mark.index)


def _child_column(text: str, node: yaml.MappingNode) -> int:
    """The column of entries on lines of their own in a mapping in braces: inside its line's indent."""
    start = text.rfind("\n", 0, node.start_mark.index) + 1
    line = text[start:]
    return len(line) - len(line.lstrip(" ")) + _INDENT


def _newline(text: str) -> str:
    return "\r\n" if "\r\n" in text else "\n"
