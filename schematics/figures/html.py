"""The figures as one self-contained page: no script, nothing fetched, readable on a phone and on paper."""

from __future__ import annotations

from functools import cache

from jinja2 import Environment, PackageLoader, StrictUndefined, Template

from schematics.figures.document import Document
from schematics.size_string import size_string

TEMPLATE = "figures.html"


def to_html(document: Document) -> str:
    """The page; every text in it is escaped."""
    return _template().render(document=document, sizes=size_string(document.sizes))


@cache
def _template() -> Template:
    environment = Environment(
        loader=PackageLoader("schematics.figures"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
    )
    return environment.get_template(TEMPLATE)
