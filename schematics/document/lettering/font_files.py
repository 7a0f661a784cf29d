"""The files of the lettering's font, DejaVu Sans 2.37, which come with the program."""

from __future__ import annotations

from pathlib import Path

FONT_FOLDER = Path(__file__).with_name("fonts")
"""Holds these two weights, no other font, and the licences under which they come."""

NORMAL = FONT_FOLDER / "DejaVuSans.ttf"
BOLD = FONT_FOLDER / "DejaVuSans-Bold.ttf"
