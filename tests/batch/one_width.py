"""The program with bare drawings of one width and the pattern as a page alone.

In this process and in those that it starts.
"""

from __future__ import annotations

from schematics.batch import work
from schematics.cli import main
from schematics.drawing.bare import drawings, rooms

WIDTHS = {"page": rooms.WIDTHS["page"]}


def pattern_places(paper: str) -> tuple[str, ...]:
    return ("pattern.html",)


if __name__ in ("__main__", "__mp_main__"):
    setattr(drawings, "WIDTHS", WIDTHS)  # noqa: B010  # it is another module's
    setattr(work, "pattern_places", pattern_places)  # noqa: B010

if __name__ == "__main__":
    main()
