"""What cannot be hung on a body."""

from __future__ import annotations


class ClothError(ValueError):
    """The garment has no shape that could be worn; its checks say why."""
