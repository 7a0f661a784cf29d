"""Drawings to be placed into a pattern: cropped, on nothing, without frame and title block."""
