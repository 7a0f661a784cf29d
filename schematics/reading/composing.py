"""YAML to a tree of nodes: by libyaml where it reads as PyYAML's reader in Python does, else by that one."""

from __future__ import annotations

import re
import unicodedata
from contextlib import suppress
from typing import Any

import yaml
from yaml import composer

MOST_VALUES = 20_000
NO_CHARACTER = "an escape such as \\U0001F9F6 names no character; write the character itself"
_DEEPEST = 20
_SURROGATE = re.compile("[\ud800-\udfff]")
_READ_OTHERWISE = re.compile(
    r"[\t\ufeff\x85\u2028\u2029]|[|>][-+0-9]*#|[?](?=[\s,\[\]{}])|(?<![^\s,\[{])!|^(?:%|---|[.][.][.])",
    re.MULTILINE,
)
"""What may be a fault to one of the two readers alone, or be elsewhere to it."""
_QUICK: Any = getattr(yaml, "CBaseLoader", yaml.BaseLoader)
"""PyYAML may come without libyaml."""


class RefusalError(Exception):
    """The file is YAML, but more than a spec can need."""

    def __init__(self, mark: yaml.Mark, sentence: str) -> None:
        self.line, self.sentence = mark.line + 1, sentence
        super().__init__(sentence)


class _Composing(composer.Composer):
    """Composes nodes whose tag is empty unless the file gives one, and refuses floods.

    An accented letter is one character, however it was typed.
    """

    _depth = _values = 0

    def resolve(self, *_: Any) -> str:
        """No tag: what a value is, the models of a spec say."""
        return ""

    def compose_scalar_node(self, anchor: Any) -> yaml.ScalarNode:
        """A key or a single value."""
        node = super().compose_scalar_node(anchor)
        if _SURROGATE.search(node.value):
            raise RefusalError(node.start_mark, NO_CHARACTER)
        node.value = unicodedata.normalize("NFC", node.value)
        return node

    def compose_node(self, parent: yaml.Node | None, index: Any) -> yaml.Node | None:
        """Any value, or refuse where they are too many or nested too deep."""
        self._depth += 1
        self._values += 1
        mark = self.peek_event().start_mark  # type: ignore[attr-defined]  # of the reader it is joined with
        if self._depth > _DEEPEST:
            raise RefusalError(mark, f"values are nested more than {_DEEPEST} deep; a spec needs six levels")
        if self._values > MOST_VALUES:
            raise RefusalError(mark, f"more than {MOST_VALUES} values; a spec needs far fewer")
        try:
            return super().compose_node(parent, index)
        finally:
            self._depth -= 1


class Composer(_Composing, yaml.BaseLoader):
    """With PyYAML's reader in Python, whose words are reported where a text is no YAML."""


class _QuickComposer(_Composing, _QUICK):  # type: ignore[misc]
    """With libyaml's reader."""

    def __init__(self, text: str) -> None:
        _QUICK.__init__(self, text)
        composer.Composer.__init__(self)

    def compose_scalar_node(self, anchor: Any) -> yaml.ScalarNode:
        """A key or a single value; libyaml gives plain text a style, and what is left empty another place."""
        node = super().compose_scalar_node(anchor)
        node.style = node.style or None
        if node.style is None and not node.value:
            raise _EmptyError
        return node


class _EmptyError(Exception):
    """There is nothing where a value may be."""


def quick_root(text: str) -> yaml.Node | None:
    """The tree of a text, composed by libyaml in a sixth of the time; None where `Composer` is to do it."""
    if _READ_OTHERWISE.search(text):
        return None
    with suppress(yaml.YAMLError, ValueError, OverflowError, RefusalError, _EmptyError):
        root: yaml.Node | None = _QuickComposer(text).get_single_node()
        return root
    return None
