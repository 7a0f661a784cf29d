"""Draped cloth and a body as clean lines: smoothed, seen from one side, with what is hidden left out."""
