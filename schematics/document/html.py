"""A document as one self-contained page: no script, nothing fetched, readable on a phone and on paper."""

from __future__ import annotations

import base64
import re
from collections.abc import Iterator, Sequence
from functools import cache
from importlib.resources import files
from typing import Any

from jinja2 import Environment, PackageLoader, StrictUndefined, Template
from markupsafe import Markup

from schematics.document.document import (
    PROGRAM,
    Block,
    Document,
    Items,
    Picture,
    Rated,
    Row,
    Section,
    Table,
    cell_words,
    plain,
    runs,
    unbroken,
)
from schematics.document.house_style import Photo
from schematics.document.page_look import LEADING_MM, LOGO_HEIGHT_MM, LOGO_WIDTH_MM, PHOTO_MM

TEMPLATE = "document.html"

_WIDEST_MM = 170.0
"""No designer's image is wider."""

_KINDS = (Items, Table, Row, Picture, Photo, Section)


def write(documents: Sequence[Document], _together: str) -> Iterator[str]:
    """The documents as one page, each of several as a section of it; every text in it is escaped."""
    document = documents[0] if len(documents) == 1 else _in_sections(documents)
    sections = (*document.sections, *document.closing)
    parts = [(section.key or f"part-{number}", section) for number, section in enumerate(sections, 1)]
    yield _template(TEMPLATE).render(document=document, parts=parts, program=PROGRAM)


def _in_sections(documents: Sequence[Document]) -> Document:
    return Document(
        title=f"{len(documents)} designs",
        sections=tuple(Section(each.title, (*each.lead, *each.sections)) for each in documents),
        closing=documents[-1].closing,
    )


def kind(block: Block) -> str:
    """What the template makes of a block."""
    return type(block).__name__ if isinstance(block, _KINDS) else "Words"


def picture_address(svg: str) -> str:
    """The drawing as the address of an image, so that the page fetches nothing."""
    return f"data:image/svg+xml;base64,{base64.b64encode(svg.encode()).decode()}"


def image_width(photo: Photo) -> str:
    """The width of a designer's image, in mm."""
    return f"{photo.size_mm(_WIDEST_MM, LEADING_MM if photo.leading else PHOTO_MM)[0]:.1f}"


def logo_width(logo: Photo) -> str:
    """The width of a designer's mark, in mm."""
    return f"{logo.size_mm(LOGO_WIDTH_MM, LOGO_HEIGHT_MM)[0]:.1f}"


def css_string(text: str) -> Markup:
    """The text as a string of a style sheet."""
    return Markup('"{}"').format(re.sub(r"[^A-Za-z0-9 -]", lambda sign: f"\\{ord(sign[0]):x} ", text))


def severity(run: str | Rated) -> str:
    """The severity of words that carry a verdict, else nothing."""
    return run.severity.value if isinstance(run, Rated) else ""


def page_environment(package: str) -> Environment:
    """The templates of a package such as ``schematics.fitting.page``: texts escaped, no name left open."""
    return Environment(
        loader=PackageLoader(package),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
    )


@cache
def screen_style() -> str:
    """Colours, type and fields of every page that a maker fills in; what a page adds follows it."""
    return files("schematics.document").joinpath("templates", "screen.css").read_text(encoding="utf-8")


def blocks_html(section: Section, level: int) -> Markup:
    """What is in a section, without its heading, as part of a page of another template.

    Args:
        section: the section; pictures in it have a width as a ``style``.
        level: of the headings within it, 3 for ``h3``.
    """
    module: Any = _template("blocks.html").module
    return Markup(module.blocks(section, level))


@cache
def _template(name: str) -> Template:
    environment = page_environment("schematics.document")
    filters = (css_string, image_width, logo_width, kind, picture_address, severity, runs, plain, cell_words)
    environment.filters |= {function.__name__: function for function in (*filters, unbroken)}
    return environment.get_template(name)
