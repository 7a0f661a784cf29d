"""What a process hands back for a request: a page or a file as bytes."""

from __future__ import annotations

from dataclasses import dataclass

PAGE, PDF = "text/html; charset=utf-8", "application/pdf"


@dataclass(frozen=True, slots=True, kw_only=True)
class Reply:
    """The content of an answer; ``filename`` is that of a file to be kept.

    A page that is ``alone`` brings its own style with it and asks for nothing else.
    """

    content: bytes
    status: int = 200
    media_type: str = PAGE
    filename: str = ""
    alone: bool = False
