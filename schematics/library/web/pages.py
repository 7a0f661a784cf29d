"""Pages from the templates of this room: every text in them escaped, no name left open."""

from __future__ import annotations

from functools import cache
from importlib.resources import files
from typing import Any

from jinja2 import Environment

from schematics.document.html import page_environment, screen_style
from schematics.library.web.reply import Reply

_ROOM = "schematics.library.web"


def rendered(template: str, status: int = 200, **values: Any) -> Reply:
    """A page, made from its template."""
    content = _environment().get_template(template).render(**values)
    return Reply(content=content.encode("utf-8", errors="replace"), status=status)


def plain_page(status: int, heading: str, sentence: str, up: str) -> Reply:
    """A page that says what is wrong, and leads back to the designs, which are ``up`` from it."""
    return rendered("plain.html.j2", status=status, heading=heading, sentence=sentence, up=up)


@cache
def asset(name: str) -> bytes:
    """A file that the pages ask for, by its name."""
    content = files(_ROOM).joinpath("templates", name).read_bytes()
    return screen_style().encode() + content if name.endswith(".css") else content


@cache
def _environment() -> Environment:
    return page_environment(_ROOM)
