"""Files that are no YAML: what the reader stumbled on, in plain sentences."""

from __future__ import annotations

import re

import yaml

_BLOCK = "this does not continue the block above it; check the indentation, the quotes and each ': '"
_TAG = "tags (words after '!') are not understood in a spec; delete it, or put the text in quotes"
_DIRECTIVE = "lines that begin with '%' are not understood in a spec; delete it"

_SENTENCES = (
    (r"found character '\\t'", "a tab stands here, and this reader takes only spaces; use spaces"),
    (
        r"mapping values are not allowed",
        "a second ': ' in one line, or wrong indentation; put text that holds ': ' in quotes",
    ),
    (
        r"sequence entries are not allowed",
        "a list cannot begin here; put text that begins with '-' in quotes",
    ),
    (r"another document", "a second document begins here; a spec holds one design, so delete the line '---'"),
    (r"expected ',' or '\]'", "the '[' of line {opened} is not closed, or a comma is missing"),
    (r"expected ',' or '\}'", "the '{{' of line {opened} is not closed, or a comma is missing"),
    (r"unexpected end of stream|document separator", "the quote opened here is not closed"),
    (r"could not find expected ':'", "expected 'key: value', got no ': ' after the key"),
    (r"duplicate anchor '(?P<name>.*)'", "the anchor &{name} stands twice; give each a name of its own"),
    (r"undefined alias '(?P<name>.*)'", "the alias *{name} has no anchor &{name} above it"),
    (r"escape", "a backslash in double quotes begins an escape; use single quotes"),
    (r"expected the node content", "a value is missing, or begins with a sign that needs quotes"),
    (r"alphabetic or numeric character", "a value that begins with '&' or '*' must be in quotes"),
    (r"tag handle|expected '>'|expected URI", _TAG),
    (r"(?P<sign>'.*'|\".*\") that cannot start", "a value cannot begin with {sign}; put it in quotes"),
    (r"directive|incompatible YAML document", _DIRECTIVE),
    (r"expected '<document start>'|expected <block end>", _BLOCK),
)


def syntax_fault(error: yaml.MarkedYAMLError) -> tuple[int, str]:
    """The line, counted from 1, and what is wrong there."""
    problem, context = error.problem or "", error.context or ""
    opened = error.context_mark or error.problem_mark
    unfinished = "found unexpected" in problem or "could not find expected" in problem
    mark = opened if unfinished else error.problem_mark or opened
    line = mark.line + 1 if mark else 1
    for pattern, sentence in _SENTENCES:
        if match := re.search(pattern, f"{problem} {context}"):
            return line, sentence.format(opened=opened.line + 1 if opened else 1, **match.groupdict())
    return line, f"this is not YAML: {problem or context}"
