"""libyaml and PyYAML's reader in Python compose the same trees, or the second alone does."""

from __future__ import annotations

from typing import Any

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from schematics.reading.composing import Composer, RefusalError, quick_root
from tests.examples import examples
from tests.shipped import SPECS

TEXTS = [path.read_text("utf-8") for path in SPECS]
PIECES = [*dict.fromkeys(line for text in TEXTS for line in text.splitlines(keepends=True))]
ODD = (
    " ", "\n", ":", ": ", ",", "[", "]", "{", "}", "- ", "#", " #", "'", '"', "|\n", ">+\n", "&a ", "*a", "!",
    "?", "%", "---\n", "<<: ", "\\", "e\u0301", "\r\n", "\u2028", "\ufeff", "\t", "\x07", "\U0001f9f6", "@",
    "null",
)  # fmt: skip


def told(node: yaml.Node | None) -> Any:
    """What the rest of the program looks at."""
    if not isinstance(node, yaml.CollectionNode):
        style = getattr(node, "style", None)
        return node and (node.value, node.tag, style, node.start_mark.line, node.start_mark.index)
    parts = [told(each) if isinstance(each, yaml.Node) else [*map(told, each)] for each in node.value]
    return type(node), node.tag, node.start_mark.line, node.start_mark.index, parts


@pytest.mark.parametrize("text", TEXTS, ids=[path.stem for path in SPECS])
def test_the_designs_that_come_with_the_program_are_read_quickly(text: str) -> None:
    root = quick_root(text)
    assert root is not None
    assert told(root) == told(Composer(text).get_single_node())


@examples(400)
@given(
    parts=st.lists(st.sampled_from(PIECES), max_size=4),
    odd=st.lists(st.tuples(st.integers(0, 300), st.sampled_from(ODD)), max_size=5),
)
def test_whatever_is_read_quickly_is_read_alike(parts: list[str], odd: list[tuple[int, str]]) -> None:
    text = "".join(parts)
    for at, each in odd:
        text = text[:at] + each + text[at:]
    if (root := quick_root(text)) is not None:
        assert told(root) == told(Composer(text).get_single_node())


@pytest.mark.parametrize(
    "text",
    [
        "a: b\t",
        "a: >#",
        "{sti? tches: 10}",
        "a: {b: }",
        "%YAML 1.1\n---\na: b",
        "a: !b c",
        "a: b\n\ufeff",
        "a: b\u2028",
    ],
)
def test_what_they_read_otherwise_is_not_read_quickly(text: str) -> None:
    assert quick_root(text) is None


def test_what_is_nested_too_deep_is_refused_by_both() -> None:
    text = "[" * 21 + "]" * 21
    assert quick_root(text) is None
    with pytest.raises(RefusalError):
        Composer(text).get_single_node()
