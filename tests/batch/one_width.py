"""The program with bare drawings of one width alone, in this process and in those that it starts."""

from __future__ import annotations

from schematics.cli import main
from schematics.drawing.bare import drawings, rooms

WIDTHS = {"page": rooms.WIDTHS["page"]}

if __name__ in ("__main__", "__mp_main__"):
    setattr(drawings, "WIDTHS", WIDTHS)  # noqa: B010  # it is another module's

if __name__ == "__main__":
    main()
