"""What holds for all tests."""

from __future__ import annotations

from hypothesis import settings

settings.register_profile("unhurried", settings.default, deadline=None)
settings.load_profile("unhurried")
"""No example is timed: how long one takes is the machine's load, not the program's doing."""
