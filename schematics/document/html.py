"""The figures as one self-contained page: no script, nothing fetched, readable on a phone and on paper."""

from __future__ import annotations

import re
from functools import cache

from jinja2 import Template

from schematics.design.size_string import size_string
from schematics.document.document import Cell, Document
from schematics.document.templates import page_environment

TEMPLATE = "figures.html"

_KEPT_TOGETHER = re.compile(r"(?<=\d) (?=\d/\d|(?:sts?|cm|g|rows?)\b)|(?<=×) (?=\d)")


def to_html(document: Document) -> str:
    """The page; every text in it is escaped."""
    return _template().render(document=document, sizes=size_string(document.sizes))


def unbroken(cell: Cell) -> str:
    """The cell's text with a number and its fraction, unit or times on one line."""
    return _KEPT_TOGETHER.sub("\N{NO-BREAK SPACE}", str(cell))


@cache
def _template() -> Template:
    environment = page_environment("schematics.document")
    environment.filters["unbroken"] = unbroken
    return environment.get_template(TEMPLATE)
