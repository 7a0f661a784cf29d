"""Counts, checks and dimensioned schematics for crochet ponchos, in every size at once."""

__version__ = "0.1.0"
