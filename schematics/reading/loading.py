"""YAML to plain values, with the line of every one of them.

Anchors and aliases work; merge keys, tags, doubled keys and further documents are refused.
"""

from __future__ import annotations

from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import yaml

from schematics.reading.composing import MOST_VALUES, NO_CHARACTER, Composer, RefusalError, quick_root
from schematics.reading.files.text_file import TextFileError, read_content, text_of
from schematics.reading.files.unfinished import State, fault, state_of
from schematics.reading.problems import KeyPath, Problem, SpecError, show_value
from schematics.reading.scalars import core_scalar
from schematics.reading.yaml_syntax import syntax_fault

LARGEST_FILE = 1_000_000
"""Bytes; a design of sixty sizes needs about fifteen thousand."""
NEEDED = "a spec needs a few kilobytes"


@dataclass(frozen=True, slots=True, kw_only=True)
class Location:
    """Where a value is: its line from 1, and its offset in the file, in which aliases differ."""

    line: int
    offset: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Fault:
    """One thing wrong, before its path and file are put into words."""

    place: Location
    path: KeyPath
    sentence: str


@dataclass(frozen=True, slots=True, kw_only=True)
class LoadedFile:
    """What a file says.

    ``unread`` are the paths whose value could not be read and ``incomplete`` those of the
    mappings that lost a key; each has its fault already.
    """

    data: Any
    places: dict[KeyPath, Location]
    faults: tuple[Fault, ...]
    unread: frozenset[KeyPath]
    incomplete: frozenset[KeyPath]

    def existing_part(self, path: KeyPath) -> KeyPath:
        """The longest beginning of ``path`` that is in the file."""
        while path not in self.places:
            path = path[:-1]
        return path


def load(path: Path, expected: str = "a design") -> LoadedFile:
    """Read one YAML file; ``expected`` is what an empty one lacks, in words.

    Raises:
        SpecError: the file cannot be read, is no UTF-8 text or no YAML, or is empty.
    """
    return parse(path, content_of(path), expected)


def content_of(path: Path) -> bytes:
    """The bytes of a YAML file.

    Raises:
        SpecError: the file cannot be read, is larger than any spec, or a run was stopped while it wrote it.
    """
    try:
        content = read_content(path, LARGEST_FILE, NEEDED)
    except TextFileError as error:
        raise file_error(path, error.line, error.sentence) from None
    file, state = path.resolve(), State.WHOLE
    with suppress(OSError):
        state = state_of(file, content)
    if state is not State.WHOLE:
        raise file_error(path, None, fault(path, file, state))
    return content


def parse(path: Path, content: bytes, expected: str = "a design") -> LoadedFile:
    """What a YAML file with that content says; see `load`.

    Raises:
        SpecError: the content is no UTF-8 text or no YAML, or is empty.
    """
    try:
        text = text_of(path, content)
        composer = Composer(text)
        root = quick_root(text) or composer.get_single_node()
        document = _Converter().document(root) if root else None
    except (TextFileError, RefusalError) as error:
        raise file_error(path, error.line, error.sentence) from None
    except yaml.MarkedYAMLError as error:
        raise file_error(path, *syntax_fault(error)) from None
    except (ValueError, OverflowError):
        raise file_error(path, composer.line + 1, NO_CHARACTER) from None
    if document is None or document.data is None:
        raise file_error(path, 1, f"the file is empty; expected {expected}")
    return document


def file_error(path: Path, line: int | None, sentence: str) -> SpecError:
    """The error that says one sentence of a file as a whole, or of one of its lines."""
    return SpecError([Problem(file=str(path), line=line, path="", sentence=sentence)])


class _Converter:
    """Turns one tree of nodes into plain values, and keeps their locations."""

    def __init__(self) -> None:
        self._places: dict[KeyPath, Location] = {}
        self._faults: list[Fault] = []
        self._unread: set[KeyPath] = set()
        self._incomplete: set[KeyPath] = set()
        self._open: list[yaml.Node] = []

    def document(self, root: yaml.Node) -> LoadedFile:
        """The whole tree; raises `RefusalError` if its aliases repeat too much."""
        return LoadedFile(
            data=self._value(root, (), _place(root, root)),
            places=self._places,
            faults=tuple(self._faults),
            unread=frozenset(self._unread),
            incomplete=frozenset(self._incomplete),
        )

    def _value(self, node: yaml.Node, path: KeyPath, place: Location) -> Any:
        self._places[path] = place
        if len(self._places) > MOST_VALUES:
            raise RefusalError(node.start_mark, f"the aliases repeat more than {MOST_VALUES} values")
        if node.tag:
            tag = node.tag.replace("tag:yaml.org,2002:", "!!")
            return self._cannot_read(place, path, f"the tag {tag} is not understood in a spec; delete it")
        if isinstance(node, yaml.ScalarNode):
            return core_scalar(node.value) if node.style is None else node.value
        if any(node is each for each in self._open):
            return self._cannot_read(
                place, path, "the alias stands inside its own anchor; write the values out"
            )
        self._open.append(node)
        value = self._mapping(node, path) if isinstance(node, yaml.MappingNode) else self._list(node, path)
        self._open.pop()
        return value

    def _cannot_read(self, place: Location, path: KeyPath, sentence: str) -> None:
        self._unread.add(path)
        self._faults.append(Fault(place=place, path=path, sentence=sentence))

    def _list(self, node: yaml.Node, path: KeyPath) -> list[Any]:
        return [self._value(each, (*path, at), _place(each, each)) for at, each in enumerate(node.value)]

    def _mapping(self, node: yaml.MappingNode, path: KeyPath) -> dict[str, Any]:
        result: dict[str, Any] = {}
        for key, value in node.value:
            place = _place(key, value)
            if sentence := _key_fault(key):
                self._incomplete.add(path)
            elif key.value in result:
                first = self._places[(*path, key.value)].line
                sentence = f"the key {show_value(key.value)} stands twice, first on line {first}; keep one"
            if sentence:
                self._faults.append(Fault(place=place, path=path, sentence=sentence))
            else:
                result[key.value] = self._value(value, (*path, key.value), place)
        return result


def _key_fault(key: yaml.Node) -> str:
    if not isinstance(key, yaml.ScalarNode) or key.tag:
        return "expected plain text as a key, got a list, a mapping or a tag"
    if key.value == "<<" and key.style is None:
        return "merge keys (<<) are not understood; write the keys out, or use an alias for the whole block"
    return ""


def _place(line_of: yaml.Node, value: yaml.Node) -> Location:
    return Location(line=line_of.start_mark.line + 1, offset=value.start_mark.index)
